"""Writing the papers of a kit into a file."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from cordwright.errors import Place, SupplyError

if TYPE_CHECKING:
    from cordwright.supply.kits import Sheet


def check_suffix(path: Path | None) -> None:
    """That papers can be written as a file's name asks.

    Raises:
        SupplyError: they cannot.
    """
    from cordwright.supply.papers import FORMATS

    if path is not None and path.suffix.lower() not in FORMATS:
        raise SupplyError(
            f"Papers cannot be written as '{path.name}'.",
            remedy=f"end the file's name with one of {', '.join(FORMATS)}",
        )


def print_papers(path: Path, sheets: Sequence[Sheet]) -> None:
    """Write parts list, packing sheet and labels.

    Args:
        path: a file that is not there yet.
        sheets: what is written.

    Raises:
        SupplyError: it is there, or cannot be written.
    """
    from cordwright.supply.papers import FORMATS

    try:
        with path.open("x", encoding="utf-8", newline="") as file:
            file.write(FORMATS[path.suffix.lower()](sheets))
    except FileExistsError:
        raise SupplyError(
            "There is a file of that name already; it stays as it is.",
            remedy="choose another name",
            place=Place(str(path)),
        ) from None
    except OSError as error:
        raise SupplyError(
            f"The papers could not be written: {error.strerror or error}.",
            remedy="choose another place",
            place=Place(str(path)),
        ) from None
