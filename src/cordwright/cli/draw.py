"""``cordwright draw``."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.show import Screen
from cordwright.cli.writing import write_file
from cordwright.errors import CordwrightError, Place

if TYPE_CHECKING:
    from cordwright.draw.piece_sheet import Sheet
    from cordwright.draw.placed import Placed
    from cordwright.draw.scene_knots import Detail
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.units.length import System

KINDS = ("piece", "chart", "knots", "scene")
"""What is drawn unless something else is asked for."""

UNWRITABLE = "check the folder, its rights and the disk, or name another one with --out"
"""What to try where a file cannot be written."""


@dataclass(frozen=True, slots=True)
class Asked:
    """What to draw, and how.

    Args:
        what: ``piece``, ``chart``, ``knots``, ``scene`` and ``strand=NAME``, separated by commas.
        png: whether pictures are written as PNG beside SVG.
        detail: of the scene, ``low`` or ``high``.
        units: ``metric`` or ``inch``.
        shelf: another shelf than the usual one.
        maker: whose hands tie it.
    """

    what: str
    png: bool
    detail: str
    units: str
    shelf: Path | None = None
    maker: str = ""

    def parts(self) -> list[tuple[str, str]]:
        """Each thing to draw: its kind, and the strand's name or nothing.

        Raises:
            CordwrightError: something that cannot be drawn.
        """
        found: list[tuple[str, str]] = []
        for word in self.what.split(","):
            kind, _, name = (part.strip() for part in word.partition("="))
            if kind in KINDS and not name and "=" not in word:
                found.append((kind, ""))
            elif kind == "strand" and name:
                found.append((kind, name))
            else:
                raise CordwrightError(
                    f"'{word.strip()}' is nothing that can be drawn.",
                    remedy="ask for piece, chart, knots, scene or strand=3L, separated by commas",
                    place=Place(f"--what {self.what}"),
                )
        return list(dict.fromkeys(found))


def draw(
    path: Path, folder: Path, asked: Asked, diameters: Sequence[str], sizes: Sequence[str]
) -> None:
    """Draw a piece and write everything into one folder.

    Args:
        path: the plan file.
        folder: is made if it is not there; files in it that have the same names are replaced.
        asked: what to draw.
        diameters: other cord diameters, as in ``main=3mm``.
        sizes: other sizes, as in ``arm=40cm``.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or a file cannot
            be written.
    """
    parts = asked.parts()
    other_diameters, other_sizes = options.diameters(diameters), options.sizes(sizes)

    from cordwright.draw.placed_shape import as_it_looks
    from cordwright.draw.strand_way import strands_named
    from cordwright.piece.work import work

    plan = read_plan_with_shelf(path, asked.shelf)
    screen = Screen()
    with atlas_access.atlas() as source:
        handling, _ = hands_of(plan, asked.shelf, asked.maker, source)
        piece = work(plan, source, sizes=other_sizes, diameters=other_diameters, handling=handling)
        for kind, name in parts:
            if kind == "strand":
                strands_named(piece, name)  # a wrong name is told before anything is drawn
        worked = _Worked(piece, source)
        hangs = any(k not in ("chart", "knots") for k, _ in parts)
        hung = as_it_looks(piece, source) if hangs else None
        for kind, name in parts:
            written = []
            for tail, data in _drawn(kind, name, hung, worked, asked):
                written.append(folder / f"{path.stem}-{tail}")
                write_file(written[-1], data, UNWRITABLE)
            if kind == "knots" and written:
                screen.line(f"Wrote {len(written)} pictures of its knots to {folder}.")
            elif kind != "knots":
                for target in written:
                    screen.line(f"Wrote {target}.")


@dataclass(frozen=True, slots=True)
class _Worked:
    piece: Piece
    source: Atlas


def _drawn(
    kind: str, name: str, hung: Placed | None, worked: _Worked, asked: Asked
) -> Iterator[tuple[str, bytes]]:
    """What names of files end in after the plan's, and what goes into the files."""
    system = cast("System", asked.units)  # click lets nothing else through
    stem = f"{kind}{_suffix(name)}"
    if kind == "chart":
        from cordwright.draw.chart_sheet import chart_sheet
        from cordwright.draw.wording import english

        drawn = chart_sheet(worked.piece, worked.source, wording=english(system))
        yield from _pictures(stem, drawn.svg, drawn.width, drawn.height, png=asked.png)
    elif kind == "knots":
        yield from _knots(worked, png=asked.png)
    elif hung is not None and kind == "scene":
        from cordwright.draw.scene import scene

        yield f"{stem}.glb", scene(hung, detail=cast("Detail", asked.detail))
    elif hung is not None:
        sheet = _sheet(hung, name, system)
        yield from _pictures(stem, sheet.svg, sheet.width, sheet.height, png=asked.png)


def _knots(worked: _Worked, *, png: bool) -> Iterator[tuple[str, bytes]]:
    """Every knot of the piece, tight and in the steps of its tying."""
    from cordwright.draw.sheet import pictures

    for spec in dict.fromkeys(k.spec for k in worked.piece.knots):
        drawn = pictures(worked.source, spec)
        figures = (drawn.tight, *drawn.steps)
        for file, figure in zip(drawn.files(), figures, strict=True):
            stem = file.removesuffix(".svg")
            yield from _pictures(stem, figure.svg, figure.width_mm, figure.height_mm, png=png)


def _sheet(hung: Placed, name: str, system: System) -> Sheet:
    from cordwright.draw.piece_sheet import piece_sheet
    from cordwright.draw.strand_way import strand_sheet
    from cordwright.draw.wording import english

    said = english(system)
    return strand_sheet(hung, name, wording=said) if name else piece_sheet(hung, wording=said)


def _pictures(
    stem: str, svg: str, width: float, height: float, *, png: bool
) -> Iterator[tuple[str, bytes]]:
    yield f"{stem}.svg", svg.encode()
    if png:
        from cordwright.draw.piece_png import png as rendered

        yield f"{stem}.png", rendered(svg, width, height)


def _suffix(name: str) -> str:
    """A strand's name as part of a file's."""
    return "-" + re.sub(r"[^0-9A-Za-z]", "", name.upper()) if name else ""
