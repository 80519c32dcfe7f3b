"""``cordwright teach``: the lesson of a plan, in a folder of its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.writing import write_file

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.teach.typeset import Paper
    from cordwright.teach.words import Units

UNWRITABLE = "check the folder's name and the disk, or give another folder with --out"
"""What to try where a file cannot be written."""


@dataclass(frozen=True, slots=True)
class Hands:
    """Whose hands tie, and how sure the lengths are to be; as in ``cordwright cut``.

    Args:
        risk: how many in 100 strands may be too short; None for the usual risk.
        maker: whose hands tie it.
        shelf: another shelf than the usual one.
    """

    risk: float | None = None
    maker: str = ""
    shelf: Path | None = None


@dataclass(frozen=True, slots=True)
class Asked:
    """What the command line asks for.

    Args:
        path: the plan file.
        diameters, sizes: other diameters and sizes, as in ``main=3mm``.
        what: which parts to write; all if empty.
        language: of the words.
        units: what lengths are told in.
        left_handed: the mirrored edition.
        pace: the maker's log, if there is one.
        out: folder to write into; None for one named after the plan.
        paper: what pages are set on.
        editions: size editions, as written.
        licence: what buyers may do with the booklet.
        version: the booklet's own version, as its maker counts.
        hands: whose hands tie it.
    """

    path: Path
    diameters: Sequence[str]
    sizes: Sequence[str]
    what: Sequence[str]
    language: str
    units: str
    left_handed: bool
    pace: Path | None
    out: Path | None
    paper: str = "a4"
    editions: Sequence[str] = ()
    licence: str = ""
    version: str = "1"
    hands: Hands = Hands()


def teach(asked: Asked) -> None:
    """Write the parts of a lesson that are asked for, and say which files they are.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or a file cannot
            be written.
    """
    other_diameters, other_sizes = options.diameters(asked.diameters), options.sizes(asked.sizes)

    from cordwright.cli.show import Screen
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.teach import parts
    from cordwright.teach.editions import parse_editions
    from cordwright.teach.pacelog import read_pace
    from cordwright.teach.words import Words

    hands = asked.hands
    wanted = parts.Asked(
        parse_editions(asked.editions, other_sizes, other_diameters),
        # click lets no other units and papers through
        Words(asked.language, cast("Units", asked.units)),
        asked.left_handed,
        read_pace(asked.pace) if asked.pace is not None else None,
        cast("Paper", asked.paper),
        asked.licence,
        asked.version,
        DEFAULT_RISK if hands.risk is None else hands.risk / 100.0,
    )
    plan = read_plan_with_shelf(asked.path, hands.shelf)
    folder = asked.out if asked.out is not None else Path(f"{asked.path.stem}-lesson")
    screen = Screen()
    with atlas_access.figures_source() as source:
        atlas = cast("Atlas", source)
        handling, known = hands_of(plan, hands.shelf, hands.maker, atlas)
        made = parts.ready(plan, atlas, wanted, handling, known)
        files = [parts.PARTS[name](made) for name in dict.fromkeys(asked.what or parts.PARTS)]
    for written in files:
        for file, data in written.items():
            write_file(folder / file, data, UNWRITABLE)
            screen.line(f"Wrote {folder / file}.")
