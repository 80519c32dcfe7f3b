"""The list of pieces: files in the folder, deleted ones, and what comes with Cordwright."""

from __future__ import annotations

from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.bench.folder import FolderError
from cordwright.bench.models import PieceCard
from cordwright.bench.models import Pieces as Listed
from cordwright.bench.starting import examples, title_of

if TYPE_CHECKING:
    from cordwright.bench.history import Row
    from cordwright.bench.pieces import Pieces


def listed(pieces: Pieces) -> Listed:
    """All that can be opened, restored or begun from."""
    newest = pieces.history.newest()
    names = list(pieces.folder.names())
    lost = [row for name, row in sorted(newest.items()) if name not in names]
    return Listed(
        folder=_shown(pieces.folder.path),
        pieces=[_card(pieces, name, newest.get(name)) for name in names],
        deleted=[_deleted(pieces, row) for row in lost],
        examples=list(examples()),
    )


def _card(pieces: Pieces, name: str, row: Row | None) -> PieceCard:
    title, problem, changed = name, "", 0.0
    try:
        read = pieces.folder.read(name)
        title, changed = title_of(read.text, name), read.changed_at
    except FolderError as error:
        problem = error.what
    return PieceCard(
        name=name,
        title=title,
        revision=row.revision if row and not row.gone else None,
        changed_at=datetime.fromtimestamp(changed, UTC).isoformat(timespec="seconds"),
        problem=problem,
    )


def _deleted(pieces: Pieces, row: Row) -> PieceCard:
    text = pieces.history.text(row.piece, row.revision) or ""
    return PieceCard(
        name=row.piece,
        title=title_of(text, row.piece),
        revision=row.revision,
        changed_at=row.at,
        problem="",
    )


def _shown(path: Path) -> str:
    """A folder as its owner knows it: from their home where it is in there."""
    try:
        return str(Path("~") / path.relative_to(Path.home()))
    except (ValueError, RuntimeError):
        return str(path)
