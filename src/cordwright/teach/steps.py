"""The lesson: a piece as steps, without words of any language.

Everything is a frozen value made of plain ones, so that `plain` gives what JSON can hold. Words
come from `cordwright.teach.telling`; booklet, page and filming sheet are made from both.

Places number the strands of the whole line-up at that moment, from 1. In an ordinary lesson they
count from the left. A left-handed lesson (`Lesson.mirrored`) is its mirror image: the same places
count from the right, every hand and side is swapped, and figures are to be drawn mirrored. Round
work counts from its seam, the same way.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass
from typing import TYPE_CHECKING, Any, Literal

from cordwright.teach.amounts import NO_TIME, Length, Span

if TYPE_CHECKING:
    from cordwright.teach.needs import Cut, KnotKind, Material, Mount, Side, Size

Verb = Literal[
    "mount", "tie", "hitch", "braid", "gather", "free", "pass", "reorder",
    "join", "open", "seam", "add", "leave", "fringe", "tail", "again",
]  # fmt: skip
HandUse = Literal["left", "right", "alternate", "none"]
Use = Literal["hung", "carried", "worn", "plain", ""]


@dataclass(frozen=True, slots=True)
class Tied:
    """One knot, tied.

    Args:
        knot: index in `Lesson.knots`.
        names: strands by the knot's own places.
        free: free cord of each above the knot.
        over: the strand of the holding cord that a lark's head is tied on; empty elsewhere.
    """

    knot: int
    names: tuple[str, ...]
    free: tuple[Length, ...]
    over: str = ""


@dataclass(frozen=True, slots=True)
class Group:
    """Strands that are worked together, and what is tied on them, from top to bottom.

    Args:
        places: of its strands in the line-up before the step, in order; a cord laid in has none.
        names: the same strands.
        ties: its knots.
        leaves: its strands in the order in which they leave.
        lying: strand of the cord that is laid in to hold or to wrap, if one is.
    """

    places: tuple[int, ...]
    names: tuple[str, ...]
    ties: tuple[Tied, ...]
    leaves: tuple[str, ...]
    lying: str = ""


@dataclass(frozen=True, slots=True)
class Row:
    """Groups beside each other."""

    groups: tuple[Group, ...]


@dataclass(frozen=True, slots=True)
class Begun:
    """A cord that comes into the piece.

    Args:
        number: of the cord in the piece, from 1.
        cut: its entry of the cut list.
        cord: the plan's name of it.
        names: its strands, in order.
        places: their places then; none for a cord laid in.
        tail: what is left above (or before) the work.
        end: the far tail of a cord laid in; None for others.
        face: side of its lark's head that shows, if it has one.
        long: which of its strands has the longer part of the cord, where the fold is uneven.
        parts_mm: each strand's part of the cord as cut.
    """

    number: int
    cut: str
    cord: str
    names: tuple[str, ...]
    places: tuple[int, ...]
    tail: Length
    end: Length | None
    face: Literal["face", "reverse", ""]
    long: str
    parts_mm: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Ended:
    """A strand that ends: ``length`` of cord below its last knot."""

    place: int
    name: str
    length: Length


@dataclass(frozen=True, slots=True)
class Rest:
    """What a strand has used, from its upper end, when its rest is measured."""

    name: str
    used: Length


@dataclass(frozen=True, slots=True)
class Check:
    """What to look at before going on.

    Args:
        kind: ``sinnet``: each sinnet of the step measures this from its first knot's upper edge to
            its last one's lower edge; ``rows``: all its rows together do; ``wrap``: the gathering
            knot is so high; ``left``: strands still have this much cord, spare included (its exact
            sum holds as long as they are cut to the same length); ``depth``: the lowest knot now
            reaches this far below the top, by adding up.
        low: the least among the groups or strands.
        high: the most.
        role: of ``left``: which strands, by what they did in the step.
        names: strands that have the least, of ``left``.
        rests: of ``left``, strands with all different sums, for other sizes and cords.
    """

    kind: Literal["sinnet", "rows", "wrap", "left", "depth"]
    low: Length
    high: Length
    role: Literal["working", "filler", "holding", "all"] = "all"
    names: tuple[str, ...] = ()
    rests: tuple[Rest, ...] = ()


@dataclass(frozen=True, slots=True)
class Figure:
    """A picture that belongs beside a step: of one of `Lesson.knots`."""

    knot: int


@dataclass(frozen=True, slots=True)
class Again:
    """Steps done over again.

    Args:
        first, last: numbers of the steps that are repeated.
        times: how many times more.
        shifts: for each time, how many places further on than the steps say; 0: the same strands.
    """

    first: int
    last: int
    times: int
    shifts: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do.

    Args:
        verb: what.
        number: of the step in the lesson, from 1; steps within an ``again`` have 0.
        shape: flat or round, when the step begins.
        strands: how many strands the line-up has then.
        rows: what is tied; one row for ``tie``, one for every row of ``rows`` and ``hitch``.
        times: knots in each sinnet (rounds of a braid, turns of a gathering knot).
        hand: in which hand they are tied, as the reader ties them.
        workers: places of the working strands within each group, from 1, where the step has any.
        free: free cord asked for above the first knot (of ``free``: the step itself).
        gap: free cord asked for between knots of a sinnet.
        row_gap: the same between rows.
        open: least and most free cord that the plan leaves open and the shape makes, if any.
        places: of the strands that ``free``, ``pass`` (those in front), ``leave`` and the like
            concern.
        behind: places of the strands behind, of ``pass``.
        order: new order of each group, from 1, of ``reorder``.
        side: which way a row of hitches runs, as the reader works it; long side of a slant.
        slant_deg: how far the holding cord dips below level.
        trim: how a fringe is trimmed.
        begun: cords that come in.
        ended: strands that end.
        again: what is repeated; then ``inner`` is all of it.
        inner: the steps of an ``again``, worked out, in order.
        line_up: names of the strands in order after the step, where it changes them.
        note: the maker's own words.
        checks: what to look at afterwards.
        figures: pictures beside it.
        time: how long it takes.
    """

    verb: Verb
    number: int
    shape: Literal["flat", "round"]
    strands: int
    rows: tuple[Row, ...] = ()
    times: int = 1
    hand: HandUse = "none"
    workers: tuple[int, ...] = ()
    free: Length | None = None
    gap: Length | None = None
    row_gap: Length | None = None
    open: tuple[Length, Length] | None = None
    places: tuple[int, ...] = ()
    behind: tuple[int, ...] = ()
    order: tuple[int, ...] = ()
    side: Side | None = None
    slant_deg: float = 0.0
    trim: Literal["level", "point", "slant", "as it falls", ""] = ""
    begun: tuple[Begun, ...] = ()
    ended: tuple[Ended, ...] = ()
    again: Again | None = None
    inner: tuple[Step, ...] = ()
    line_up: tuple[str, ...] | None = None
    note: str = ""
    checks: tuple[Check, ...] = ()
    figures: tuple[Figure, ...] = ()
    time: Span = NO_TIME


@dataclass(frozen=True, slots=True)
class Section:
    """A part of the work: names of the plan's sections, outermost first, and its steps."""

    path: tuple[str, ...]
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Difficulty:
    """How hard the piece is: ``level`` 1 (a first piece) to 4, and what makes it so.

    Args:
        level: 1 to 4.
        reasons: keys of what counts, as in `cordwright.teach.pace`.
    """

    level: int
    reasons: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Lesson:
    """A whole lesson.

    Args:
        title, about: the plan's words.
        mirrored: whether it is the left-handed edition.
        values_mm: value of every symbol that lengths use.
        mount: what the piece begins on.
        materials: cord to have.
        tools: keys of what else to have at hand.
        cuts: what to cut.
        sizes: the plan's named sizes.
        knots: the knots that are used.
        sections: setting up first (its path is empty), then the work; steps of the plan outside
            any section have an empty path too.
        finished: from the top to the lowest end, by adding up.
        width_mm, height_mm: of a flat piece as worked; None in the round.
        use: what becomes of the piece; empty where the plan does not say.
        load: what the plan says it holds, in a word (``pot``, ``bowl``, ``ball``, ``box``).
        time: cutting, setting up, tying and finishing together.
        parts: the same by part: ``cutting``, ``tying``, ``finishing``.
        difficulty: how hard it is.
    """

    title: str
    about: str
    mirrored: bool
    values_mm: Mapping[str, float]
    mount: Mount
    materials: tuple[Material, ...]
    tools: tuple[str, ...]
    cuts: tuple[Cut, ...]
    sizes: tuple[Size, ...]
    knots: tuple[KnotKind, ...]
    sections: tuple[Section, ...]
    finished: Length
    width_mm: float | None
    height_mm: float | None
    use: Use
    load: str
    time: Span
    parts: Mapping[str, Span]
    difficulty: Difficulty
    format: Literal[1] = 1


def plain(lesson: Lesson) -> dict[str, Any]:
    """The lesson as values that JSON can hold."""
    return asdict(lesson)
