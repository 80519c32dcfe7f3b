"""``cordwright teach``: the lesson of a plan, in a folder of its own."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, cast

from cordwright.cli import atlas_access, options
from cordwright.cli.shelf_access import hands_of, read_plan_with_shelf
from cordwright.cli.writing import write_file

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.teach.booklet import Pictures
    from cordwright.teach.pagedata import Sureness
    from cordwright.teach.publish import Taught
    from cordwright.teach.typeset import Paper
    from cordwright.teach.words import Units, Words

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


@dataclass(frozen=True, slots=True)
class Ready:
    """What the parts are written from: every edition, worked and told, and for what spare.

    Pictures are drawn when they are first asked for.
    """

    editions: Sequence[Taught]
    atlas: Atlas
    words: Words
    asked: Asked
    sureness: Sureness
    pictures: Callable[[], Pictures]


def teach(asked: Asked) -> None:
    """Write the parts of a lesson that are asked for, and say which files they are.

    Raises:
        CordwrightError: the plan cannot be read or worked, an option is wrong, or a file cannot
            be written.
    """
    other_diameters, other_sizes = options.diameters(asked.diameters), options.sizes(asked.sizes)

    from cordwright.cli.show import Screen
    from cordwright.piece.risk import DEFAULT_RISK
    from cordwright.teach.editions import parse_editions
    from cordwright.teach.pacelog import read_pace
    from cordwright.teach.pagedata import Sureness
    from cordwright.teach.publish import pictures_of, taught
    from cordwright.teach.telling import tell
    from cordwright.teach.words import Words

    words = Words(asked.language, cast("Units", asked.units))  # click lets nothing else through
    editions = parse_editions(asked.editions, other_sizes, other_diameters)
    pace = read_pace(asked.pace) if asked.pace is not None else None
    hands = asked.hands
    risk = DEFAULT_RISK if hands.risk is None else hands.risk / 100.0
    plan = read_plan_with_shelf(asked.path, hands.shelf)
    folder = asked.out if asked.out is not None else Path(f"{asked.path.stem}-lesson")
    screen = Screen()
    with atlas_access.figures_source() as source:
        atlas = cast("Atlas", source)
        handling, known = hands_of(plan, hands.shelf, hands.maker, atlas)
        worked = taught(
            plan, atlas, editions, words, tell, left_handed=asked.left_handed,
            pace=pace, handling=handling, known=known, risk=risk,
        )  # fmt: skip
        pictures = cache(lambda: pictures_of(worked, atlas, words))
        ready = Ready(worked, atlas, words, asked, Sureness(known, risk), pictures)
        files = [WRITERS[name](ready) for name in dict.fromkeys(asked.what or WRITERS)]
    for written in files:
        for file, data in written.items():
            write_file(folder / file, data, UNWRITABLE)
            screen.line(f"Wrote {folder / file}.")


def _steps(ready: Ready) -> dict[str, bytes]:
    """The lesson to read, and the same as data."""
    import json

    from cordwright.teach.markdown import markdown
    from cordwright.teach.steps import plain

    files: dict[str, bytes] = {}
    for number, edition in _numbered(ready):
        data = json.dumps(plain(edition.version.lesson), ensure_ascii=False, indent=1)
        files[f"steps{number}.md"] = markdown(edition.version.told).encode()
        files[f"steps{number}.json"] = f"{data}\n".encode()
    return files


def _booklet(ready: Ready) -> dict[str, bytes]:
    """All editions in one booklet."""
    from cordwright.teach.booklet import Wanted
    from cordwright.teach.publish import booklet_with

    asked = ready.asked
    wanted = Wanted(cast("Paper", asked.paper), asked.version, asked.licence)
    return {"booklet.pdf": booklet_with(ready.pictures(), ready.editions, ready.words, wanted)}


def _filming(ready: Ready) -> dict[str, bytes]:
    """A sheet to film by, for every edition: as pages and as Markdown."""
    from cordwright.teach.publish import filming_markdown, filming_pdf, sheet_of

    files: dict[str, bytes] = {}
    for number, edition in _numbered(ready):
        sheet = sheet_of(edition, ready.words, cast("Paper", ready.asked.paper))
        files[f"filming{number}.pdf"] = filming_pdf(sheet)
        files[f"filming{number}.md"] = filming_markdown(sheet).encode()
    return files


def _page(ready: Ready) -> dict[str, bytes]:
    """All editions in one web page, to fit to one's own cord."""
    from cordwright.teach.page import lesson_page
    from cordwright.teach.pagedata import Published

    published = Published(ready.asked.version, ready.asked.licence)
    page = lesson_page(
        ready.editions,
        ready.atlas,
        ready.words,
        published,
        sureness=ready.sureness,
        pictures=ready.pictures(),
    )
    return {"lesson.html": page.encode()}


def _numbered(ready: Ready) -> Sequence[tuple[str, Taught]]:
    """Editions with what their files' names end in: a number, never words of a plan or option."""
    if len(ready.editions) == 1:
        return [("", ready.editions[0])]
    return [(f"-{i}", edition) for i, edition in enumerate(ready.editions, start=1)]


Writer = Callable[[Ready], Mapping[str, bytes]]

WRITERS: Mapping[str, Writer] = {
    "steps": _steps,
    "booklet": _booklet,
    "page": _page,
    "filming": _filming,
}
"""What can be written: by its word, what makes the files, by their names in the folder."""
