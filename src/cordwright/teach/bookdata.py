"""What the booklet's template is filled with: plain values, all words already told.

The fields are those that `typst/booklet.typ` reads. Pictures come as SVG text with the words that
stand for them; lengths and numbers come as they are to be read.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from typing import Any, Literal

from cordwright.teach.fonts import prepared, showable
from cordwright.teach.typeset import Paper  # noqa: TC001

Column = Literal["words", "short", "figure"]
"""A column of words takes what room there is; figures keep to the right."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A picture, with words for those who cannot see it; its size in mm as drawn."""

    svg: str
    alt: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Fact:
    """One of the figures on the cover."""

    label: str
    value: str


@dataclass(frozen=True, slots=True)
class Grid:
    """A table of words."""

    heads: tuple[str, ...]
    columns: tuple[Column, ...]
    rows: tuple[tuple[str, ...], ...]
    title: str = ""
    about: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class CutRow:
    """Equal cords to cut, as the reader sees them; ``count`` boxes to tick.

    Args:
        id: as in the cut list.
        count: how many.
        cord: how many of which cord, as in eight of ``main, 4 mm``.
        purpose: how they come into the piece.
        length: what each is cut to.
        fold: how each is folded.
        spare: within the length.
    """

    id: str
    count: int
    cord: str
    purpose: str
    length: str
    fold: str
    spare: str


@dataclass(frozen=True, slots=True)
class CutTable:
    """A cut list; ``title`` where there are several."""

    heads: tuple[str, ...]
    rows: tuple[CutRow, ...]
    title: str = ""
    about: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KnotStep:
    """One picture of a knot's tying, and what happens in it."""

    figure: Picture
    text: str


@dataclass(frozen=True, slots=True)
class KnotPart:
    """A knot that the piece uses; ``scale`` is printed mm for each mm of its pictures."""

    name: str
    text: tuple[str, ...]
    steps: tuple[KnotStep, ...]
    scale: float = 1.0


@dataclass(frozen=True, slots=True)
class StepPart:
    """One step.

    Args:
        number: as printed in its badge.
        title: a few words; empty if it has none.
        text: its paragraphs.
        items: a list that the paragraphs announce.
        check: what to look at before going on, each with a box to tick.
        notes: the maker's own words, and what other editions do otherwise.
        figures: pictures beside it.
        time: how long it takes, as told.
        whole: whether it is short enough to stay on one page as a whole.
    """

    number: str
    title: str
    text: tuple[str, ...]
    items: tuple[str, ...] = ()
    check: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    figures: tuple[Picture, ...] = ()
    time: str = ""
    whole: bool = True


@dataclass(frozen=True, slots=True)
class SectionPart:
    """A part of the work."""

    title: str
    steps: tuple[StepPart, ...]
    about: tuple[str, ...] = ()
    figure: Picture | None = None


@dataclass(frozen=True, slots=True)
class SizePicture:
    """One of several editions, to stand beside the others: its picture's mm are those in life."""

    title: str
    figure: Picture
    about: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Chart:
    """A picture that fills a page; ``wide`` if that page is to lie on its side."""

    title: str
    figure: Picture
    about: tuple[str, ...] = ()
    wide: bool = False


@dataclass(frozen=True, slots=True)
class Booklet:
    """A whole booklet.

    Args:
        paper: what it is set on.
        lang: code of its language.
        title, about: the plan's words.
        running, footer: what stands above and below every page but the first.
        words: headings and labels, by key.
        badges: what sets this copy apart: left-handed, the editions in it.
        cover: the whole piece.
        facts: figures on the cover.
        glance: more about it, in sentences.
        before: what to know before beginning.
        materials: tables of what to have.
        tools: what else to have, each with a box to tick.
        cuts: one cut list for each edition.
        knots, knots_about: the knots, and words before them.
        sections: the work.
        charts: pictures of the whole, a page each.
        sizes: the plan's sizes, by edition.
        pieces: all editions as they hang, to one scale; none where there is one.
        ending: how to finish it, and to hang, carry or wear it.
        cautions: what to mind where something hangs.
        colophon: licence, version, what it was made with.
    """

    paper: Paper
    lang: str
    title: str
    about: str
    running: str
    footer: str
    words: Mapping[str, str]
    cover: Picture
    badges: tuple[str, ...] = ()
    facts: tuple[Fact, ...] = ()
    glance: tuple[str, ...] = ()
    before: tuple[str, ...] = ()
    materials: tuple[Grid, ...] = ()
    tools: tuple[str, ...] = ()
    cuts: tuple[CutTable, ...] = ()
    knots: tuple[KnotPart, ...] = ()
    knots_about: tuple[str, ...] = ()
    sections: tuple[SectionPart, ...] = ()
    charts: tuple[Chart, ...] = ()
    sizes: Grid = field(default_factory=lambda: Grid((), (), ()))
    pieces: tuple[SizePicture, ...] = ()
    ending: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    colophon: tuple[str, ...] = ()


def filled(value: object) -> dict[str, Any]:
    """A dataclass of this module as the template takes it: every word such that it can be shown.

    The document's own title, which no line breaks, stands beside as ``doc_title``.
    """
    data: dict[str, Any] = _walked(asdict(value))  # type: ignore[call-overload]
    data["doc_title"] = showable(str(getattr(value, "title", "")))
    return data


def _walked(value: Any, key: str = "") -> Any:
    if isinstance(value, str):
        return showable(value) if key in _AS_THEY_ARE else prepared(value)
    if isinstance(value, Mapping):
        return {k: _walked(v, str(k)) for k, v in value.items()}
    if isinstance(value, Sequence):
        return [_walked(v, key) for v in value]
    return value


_AS_THEY_ARE = frozenset({"svg", "alt", "lang", "paper", "columns"})
"""Keys whose strings must not get places to break: markup of pictures, codes."""


def shortened(words: str, most: int = 70) -> str:
    """Words for one line: cut with an ellipsis after so many characters.

    >>> shortened("Fern cradle"), shortened("abcdef", 4)
    ('Fern cradle', 'abc…')
    """
    return words if len(words) <= most else words[: most - 1].rstrip() + "…"
