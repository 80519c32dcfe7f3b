"""``cordwright teach``: the lesson of a plan, in a folder of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.errors import CordwrightError, Place

if TYPE_CHECKING:
    from cordwright.teach.steps import Lesson
    from cordwright.teach.told import Told
    from cordwright.teach.words import Units
    from cordwright.units.length import System


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


def teach(asked: Asked) -> None:
    """Write the parts of a lesson that are asked for, and say which files they are.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or a file cannot
            be written.
    """
    from cordwright.cli.show import Screen
    from cordwright.teach.telling import tell
    from cordwright.teach.words import Words

    units = cast("Units", asked.units)  # click lets nothing else through
    lesson = _lesson(asked, "inch" if units == "inch" else "metric")
    told = tell(lesson, Words(asked.language, units))
    folder = asked.out if asked.out is not None else Path(f"{asked.path.stem}-lesson")
    screen = Screen()
    for name in asked.what or tuple(WRITERS):
        for file, data in WRITERS[name](lesson, told).items():
            _write(folder / file, data)
            screen.line(f"Wrote {folder / file}.")


def _lesson(asked: Asked, system: System) -> Lesson:
    other_diameters, other_sizes = options.diameters(asked.diameters), options.sizes(asked.sizes)

    from cordwright.hang.counted import as_worked, counted
    from cordwright.piece.cutlist import cut_list
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.piece.work import work
    from cordwright.teach.lesson import lesson_of
    from cordwright.teach.pacelog import read_pace

    pace = read_pace(asked.pace) if asked.pace is not None else None
    plan = read_plan_with_shelf(asked.path, None)
    with atlas_access.figures_source() as source:
        handling, known = hands_of(plan, None, "", source, 1.0 - DEFAULT_RISK)
        piece = work(plan, source, sizes=other_sizes, diameters=other_diameters, handling=handling)
    shape = as_worked(piece)
    piece = counted(shape)
    return lesson_of(
        piece,
        cut_list(piece, system=system, known=known),
        sizes=other_sizes,
        size_mm=(shape.width_mm, shape.height_mm),
        left_handed=asked.left_handed,
        own_pace=pace,
    )


def _steps(lesson: Lesson, told: Told) -> dict[str, bytes]:
    """The lesson to read, and the same as data."""
    import json

    from cordwright.teach.markdown import markdown
    from cordwright.teach.steps import plain

    data = json.dumps(plain(lesson), ensure_ascii=False, indent=1)
    return {"steps.md": markdown(told).encode(), "steps.json": f"{data}\n".encode()}


Writer = Callable[["Lesson", "Told"], Mapping[str, bytes]]

WRITERS: Mapping[str, Writer] = {"steps": _steps}
"""What can be written: by its word, what makes the files, by their names in the folder."""


def _write(target: Path, data: bytes) -> None:
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(data)
    except (OSError, ValueError) as error:  # ValueError: a name with a null character in it
        reason = getattr(error, "strerror", None) or str(error)
        raise CordwrightError(
            f"The file cannot be written: {reason}.",
            remedy="check the folder's name and the disk, or give another folder with --out",
            place=Place(str(target)),
        ) from None
