"""The booklet of a piece: everything a buyer needs on paper, put together for the template."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from cordwright import __version__
from cordwright.teach.bookdata import (
    Booklet,
    Fact,
    SectionPart,
    SizePicture,
    StepPart,
    shortened,
)
from cordwright.teach.booktables import cut_table, materials_table, sizes_table
from cordwright.teach.fingerprint import fingerprint
from cordwright.teach.general import glance, mount_lines
from cordwright.teach.measures import Measures, abreast, duration
from cordwright.teach.sidebyside import merged_all, same_steps, step_lines

if TYPE_CHECKING:
    from cordwright.teach.bookdata import Chart, KnotPart, Picture
    from cordwright.teach.editions import Edition
    from cordwright.teach.labels import Labels
    from cordwright.teach.steps import Lesson
    from cordwright.teach.told import Line, Told, ToldSection, ToldStep
    from cordwright.teach.typeset import Paper

MOST_LETTERS = 1400
"""A step with more letters than this may run over to the next page; its picture stays where it
begins. A page holds some 3,000 letters beside pictures."""


@dataclass(frozen=True, slots=True)
class Version:
    """One edition of the plan, worked and told."""

    edition: Edition
    lesson: Lesson
    told: Told


@dataclass(frozen=True, slots=True)
class Pictures:
    """Everything that is drawn for a booklet.

    Args:
        cover: the whole piece.
        charts: a page each.
        knots: every knot's name, words and tying pictures.
        beside: by index in the first edition's `Lesson.knots`, what stands beside steps.
        others: the same for each of the other editions.
        sizes: the whole piece in every edition, with its width and height in life; none of one.
        tall_mm: of every edition, from the top to its lowest end as it hangs; by adding up if
            nothing is given.
    """

    cover: Picture
    charts: tuple[Chart, ...]
    knots: tuple[KnotPart, ...]
    beside: Mapping[int, Picture]
    others: tuple[Mapping[int, Picture], ...] = ()
    sizes: tuple[Picture, ...] = ()
    tall_mm: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True)
class Wanted:
    """How the booklet is to be.

    Args:
        paper: what it is printed on.
        edition: its own version, as the maker counts.
        licence: what buyers may do with it; a plain reservation if empty.
    """

    paper: Paper = "a4"
    edition: str = "1"
    licence: str = ""


def booklet(
    versions: Sequence[Version], pictures: Pictures, say: Labels, wanted: Wanted
) -> Booklet:
    """Puts a booklet together.

    Args:
        versions: the editions in it; what is the same in all is told and drawn of the first.
        pictures: what is drawn.
        say: labels in its language.
        wanted: paper and what stands at its end.
    """
    lesson, told = versions[0].lesson, versions[0].told
    how = Measures(say.words)
    tall = pictures.tall_mm or tuple(v.lesson.finished.mm for v in versions)
    print_ = fingerprint(v.lesson for v in versions)
    version = say("version", edition=wanted.edition, print=print_)
    return Booklet(
        paper=wanted.paper,
        lang=say.language,
        title=lesson.title,
        about=lesson.about,
        running=shortened(lesson.title),
        footer=version,
        words=_words(told, say),
        cover=pictures.cover,
        badges=_badges(versions, say),
        facts=_facts(versions, tall, say),
        glance=_abreast(versions, [glance(say.words, v.lesson) for v in versions]),
        before=_before(versions, say),
        materials=(materials_table(versions, how, say),),
        tools=_abreast(versions, [_at_hand(v, say) for v in versions]),
        cuts=tuple(cut_table(v, how, say, several=len(versions) > 1) for v in versions),
        knots=pictures.knots,
        knots_about=(say("knots-about"),),
        sections=_sections(versions, pictures, say),
        charts=pictures.charts,
        sizes=sizes_table(versions, how, say),
        pieces=_pieces(versions, pictures, tall, say),
        ending=_abreast(versions, [(*v.told.finishing, *v.told.using) for v in versions]),
        cautions=tuple(line.text for line in told.cautions),
        colophon=(
            version,
            wanted.licence or say("licence-default"),
            say("made-with", version=__version__),
            say("fonts"),
        ),
    )


def _words(told: Told, say: Labels) -> dict[str, str]:
    keys = (
        "contents", "glance", "before", "materials", "tools", "cuts", "knots", "steps", "sizes",
        "colophon",
    )  # fmt: skip
    kind = say("kind-booklet")
    ends = {key: told.headings[key] for key in ("end", "cautions")}
    return {**say.some(*keys), **ends, "kind": kind, "running_right": kind}


def _all_cord(lesson: Lesson) -> float:
    """All cord that is cut, to the nearest centimetre."""
    return 10.0 * round(sum(m.total_mm for m in lesson.materials) / 10.0)


def _pieces(
    versions: Sequence[Version], pictures: Pictures, tall_mm: Sequence[float], say: Labels
) -> tuple[SizePicture, ...]:
    """All editions, to stand side by side."""
    found = []
    for version, picture, mm in zip(versions, pictures.sizes, tall_mm, strict=False):
        cord = say.words.length(_all_cord(version.lesson))
        tall = say.words.length(mm, about=True)
        words = (f"{say('fact-length')}: {tall}", f"{say('fact-cord')}: {cord}")
        found.append(SizePicture(version.edition.name, picture, words))
    return tuple(found)


def _names(versions: Sequence[Version]) -> list[str]:
    return [v.edition.name for v in versions]


def _abreast(versions: Sequence[Version], lines: Sequence[Sequence[Line]]) -> tuple[str, ...]:
    return merged_all(lines, _names(versions))


def _at_hand(version: Version, say: Labels) -> tuple[Line, ...]:
    """What there is to have beside cord: what the piece begins on comes first."""
    return (*mount_lines(say.words, version.lesson.mount), *version.told.tools)


def _badges(versions: Sequence[Version], say: Labels) -> tuple[str, ...]:
    found = []
    if versions[0].lesson.mirrored:
        found.append(say("left-handed"))
    if len(versions) > 1:
        found.append(say("editions", names=", ".join(_names(versions))))
    return tuple(found)


def _before(versions: Sequence[Version], say: Labels) -> tuple[str, ...]:
    mirrored = versions[0].lesson.mirrored
    found = [
        say("before-read"),
        say("before-swatch"),
        say("before-count-mirrored" if mirrored else "before-count"),
    ]
    if len(versions) > 1:
        found.append(say("before-editions", names=" / ".join(_names(versions))))
    return tuple(found)


def _facts(versions: Sequence[Version], tall: Sequence[float], say: Labels) -> tuple[Fact, ...]:
    lessons = [v.lesson for v in versions]
    cord = [say.words.length(_all_cord(x)) for x in lessons]
    long = [say.words.length(mm, about=True) for mm in tall]
    found = [
        Fact(say("fact-length"), abreast(long)),
        Fact(say("fact-cord"), abreast(cord)),
        Fact(say("fact-time"), abreast([duration(x.time.likely_s, say) for x in lessons])),
        Fact(say("fact-level"), say("level", level=lessons[0].difficulty.level)),
    ]
    return tuple(found)


def _sections(
    versions: Sequence[Version], pictures: Pictures, say: Labels
) -> tuple[SectionPart, ...]:
    tolds = [v.told for v in versions]
    names = _names(versions)
    if same_steps(tolds):
        rows = zip(*(told.sections for told in tolds), strict=True)
        return tuple(_section(row, row[0].heading, names, pictures.beside, say) for row in rows)
    besides = (pictures.beside, *pictures.others)
    return tuple(
        _section((section,), f"{name}: {section.heading}", [name], beside, say)
        for name, told, beside in zip(names, tolds, besides, strict=True)
        for section in told.sections
    )


def _section(
    row: Sequence[ToldSection],
    title: str,
    names: Sequence[str],
    beside: Mapping[int, Picture],
    say: Labels,
) -> SectionPart:
    columns = zip(*(section.steps for section in row), strict=True)
    seen: set[int] = set()
    return SectionPart(title, tuple(_step(c, names, beside, seen, say) for c in columns))


def _step(
    column: Sequence[ToldStep],
    names: Sequence[str],
    beside: Mapping[int, Picture],
    seen: set[int],
    say: Labels,
) -> StepPart:
    """One step; a knot's picture stands beside the first step of a section that ties it."""
    first = column[0]
    text, items, checks = step_lines(column, names)
    fresh = [f.knot for f in first.figures if f.knot not in seen]
    seen.update(fresh)
    figures = tuple(dict.fromkeys(beside[k] for k in fresh))
    notes = tuple(dict.fromkeys(s.note for s in column if s.note))
    time = first.step.time.likely_s
    letters = sum(map(len, (*text, *items, *checks, *notes)))
    return StepPart(
        number=str(first.step.number),
        title=first.title,
        text=text,
        items=items,
        check=checks,
        notes=notes,
        figures=figures[:MOST_BESIDE],
        time=say("step-time", time=duration(time, say)) if time >= TOLD_FROM_S else "",
        whole=letters <= MOST_LETTERS,
    )


MOST_BESIDE = 2
"""Pictures beside one step; the part on knots has them all."""

TOLD_FROM_S = 60.0
"""A step that takes less is not timed."""
