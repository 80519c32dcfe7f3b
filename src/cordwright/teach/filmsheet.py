"""The filming sheet: a planned film as pages and as Markdown."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright.teach.bookdata import Fact, Grid, shortened
from cordwright.teach.filming import SHOWN, WORDS_PER_MINUTE, Film, Shot, clock
from cordwright.teach.filmtext import description
from cordwright.teach.markdown import escaped
from cordwright.teach.measures import duration
from cordwright.teach.plaintext import plain_text

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cordwright.teach.labels import Labels
    from cordwright.teach.steps import Lesson
    from cordwright.teach.typeset import Paper


@dataclass(frozen=True, slots=True)
class ShotRow:
    """One shot, as printed."""

    number: str
    begins: str
    title: str
    says: tuple[str, ...]
    notes: tuple[str, ...]
    swap: str
    minutes: str


@dataclass(frozen=True, slots=True)
class ShotGroup:
    """The shots of one part of the film."""

    title: str
    heads: tuple[str, ...]
    shots: tuple[ShotRow, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A filming sheet; the fields are those that `typst/filming.typ` reads."""

    paper: Paper
    lang: str
    title: str
    running: str
    footer: str
    words: Mapping[str, str]
    facts: tuple[Fact, ...]
    ready: Grid
    chapters: Grid
    shots_about: tuple[str, ...]
    groups: tuple[ShotGroup, ...]
    description_about: tuple[str, ...]
    description: tuple[str, ...]


def film_sheet(plan: Film, lesson: Lesson, say: Labels, paper: Paper, edition: str = "") -> Sheet:
    """The sheet of a film.

    Args:
        plan: the film.
        lesson: what it teaches.
        say: labels in the sheet's language.
        paper: what it is printed on.
        edition: name of the size edition, if it is one of several.
    """
    kind = say("kind-filming")
    return Sheet(
        paper,
        say.language,
        f"{lesson.title}: {edition}" if edition else lesson.title,
        shortened(lesson.title),
        kind,
        {**say.some("shots", "description"), "kind": kind, "running_right": kind},
        (
            Fact(say("fact-film"), clock(plan.seconds)),
            Fact(say("fact-shots"), str(len(plan.shots))),
            Fact(say("fact-stages"), str(len(plan.stages))),
            Fact(say("fact-off"), duration(plan.off_s, say) if plan.off_s else "0"),
        ),
        _ready(plan, say),
        _chapters(plan, say),
        (say("shots-about", shown=SHOWN, words=round(WORDS_PER_MINUTE)),),
        tuple(_groups(plan, say)),
        (say("description-about"),),
        tuple(description(plan, lesson, say)),
    )


def _ready(plan: Film, say: Labels) -> Grid:
    heads = (say("col-stage"), say("col-done-to"), say("col-tied"), say("col-off"))
    rows = tuple(
        (
            str(s.number),
            say("done-to", step=s.step, title=s.title, section=s.section),
            duration(s.tied_s, say),
            duration(s.off_s, say),
        )
        for s in plan.stages
    )
    about = (say("ready-about"),)
    return Grid(heads, ("short", "words", "figure", "figure"), rows, say("ready"), about)


def _chapters(plan: Film, say: Labels) -> Grid:
    rows = tuple((clock(c.begins_s), chapter_title(c.kind, c.title, say)) for c in plan.chapters)
    heads = (say("col-mark"), say("col-chapter"))
    return Grid(heads, ("short", "words"), rows, say("chapters"))


def chapter_title(kind: str, title: str, say: Labels) -> str:
    """What a chapter is called: the part of the work, or what it is of."""
    return title or say("steps" if kind == "step" else f"shot-{kind}")


def _groups(plan: Film, say: Labels) -> list[ShotGroup]:
    heads = tuple(say(f"col-{h}") for h in ("shot", "begins", "says", "minutes"))
    groups: list[ShotGroup] = []
    rows: list[ShotRow] = []
    here = ""
    for shot in plan.shots:
        title = chapter_title(shot.kind, shot.section, say)
        if title != here and rows:
            groups.append(ShotGroup(here, heads, tuple(rows)))
            rows = []
        here = title
        rows.append(_row(shot, say))
    return [*groups, ShotGroup(here, heads, tuple(rows))] if rows else groups


def _row(shot: Shot, say: Labels) -> ShotRow:
    swap = ""
    if shot.stage:
        swap = say("swap", stage=shot.stage, time=duration(shot.off_s, say))
    return ShotRow(
        str(shot.number),
        clock(shot.begins_s),
        shot.title,
        shot.says,
        shot.notes,
        swap,
        clock(shot.seconds),
    )


def markdown(sheet: Sheet) -> str:
    """The sheet as Markdown; words of the plan are escaped, so that they stay words."""
    out = [f"# {shown(sheet.title)}", "", shown(sheet.words["kind"]), ""]
    out += [f"* {shown(f.label)}: {shown(f.value)}" for f in sheet.facts] + [""]
    for grid in (sheet.ready, sheet.chapters):
        out += _grid(grid)
    out += [f"## {shown(sheet.words['shots'])}", "", *map(shown, sheet.shots_about), ""]
    for group in sheet.groups:
        out += [f"### {shown(group.title)}", ""]
        for shot in group.shots:
            title = f" · {shown(shot.title)}" if shot.title else ""
            out += [f"* [ ] **{shot.number}** · {shot.begins} · {shot.minutes}{title}", ""]
            out += [f"  {shown(line)}  " for line in shot.says]
            out += ["", *(f"  * {shown(n)}" for n in (*shot.notes, shot.swap) if n)]
            out += [""] if out[-1] else []
    out += [f"## {shown(sheet.words['description'])}", "", *map(shown, sheet.description_about)]
    fence = "`" * (
        2 + max((len(r) for r in re.findall("`+", "\n".join(sheet.description))), default=1)
    )
    flat = [" ".join(line.split()) for line in sheet.description]
    return "\n".join([*out, "", f"{fence}text", *flat, fence, ""])


def _grid(grid: Grid) -> list[str]:
    if not grid.rows:
        return []
    lines = [f"## {shown(grid.title)}", ""]
    lines += [*map(shown, grid.about), ""] if grid.about else []
    lines.append("| " + " | ".join(map(shown, grid.heads)) + " |")
    lines.append("|" + " --- |" * len(grid.heads))
    lines += ["| " + " | ".join(map(shown, row)) + " |" for row in grid.rows]
    return [*lines, ""]


def shown(words: str) -> str:
    """Words as Markdown that shows just these, on one line."""
    return escaped(plain_text(words))
