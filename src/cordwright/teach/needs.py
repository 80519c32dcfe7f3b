"""What a lesson needs: cord and its cuts, what the piece begins on, its sizes and its knots."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any, Literal

if TYPE_CHECKING:
    from cordwright.teach.amounts import Span

Side = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class Material:
    """One kind of cord to have; all of it together.

    Args:
        name: the plan's name of the cord.
        fibre, build, colour: as the plan says; empty if it does not.
        diameter_mm: its diameter.
        total_mm: all of it that is cut, spare included.
        weight_g: likely weight of that; None if the fibre's is not known.
    """

    name: str
    fibre: str
    build: str
    colour: str
    diameter_mm: float
    total_mm: float
    weight_g: float | None


@dataclass(frozen=True, slots=True)
class Cut:
    """Equal cords to cut; the same numbers as in the cut list.

    Args:
        id: A, B, C … as in the cut list.
        count: how many.
        cord: the plan's name of the cord.
        length_mm: what each is cut to, spare included.
        fold: how each is folded.
        fold_mm: left and right part of one that is folded unevenly (as the reader sees them).
        spare_mm: spare within the length.
        already_cut: whether the plan says that it is cut already.
        part: how the first of them comes into the piece.
        numbers: the cords' numbers in the piece, from 1, in the order in which they come in.
    """

    id: str
    count: int
    cord: str
    length_mm: float
    fold: Literal["middle", "uneven", "none"]
    fold_mm: tuple[float, float] | None
    spare_mm: float
    already_cut: bool
    part: Literal["mount", "added", "holding", "wrap"]
    numbers: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Mount:
    """What the piece begins on; lengths in mm, None where they do not apply.

    Args:
        kind: what it is.
        inside_mm: across a ring, on the inside.
        thick_mm: of a ring's wire, a rod or a holding cord.
        length_mm: of a rod.
        cord: the plan's name of a holding cord.
        level: whether a ring lies level, with the cords all round it.
    """

    kind: Literal["ring", "rod", "cord", "nothing"]
    inside_mm: float | None = None
    thick_mm: float | None = None
    length_mm: float | None = None
    cord: str | None = None
    level: bool = False


@dataclass(frozen=True, slots=True)
class Size:
    """A named size of the plan.

    Args:
        name: as in the plan.
        mm: its value, if it is a length.
        count: its value, if it is a number.
        about: what it is, in the plan's words; may be empty.
        written: how the plan gives it, as in ``pot / 5``.
    """

    name: str
    mm: float | None
    count: float | None
    about: str
    written: str = ""


@dataclass(frozen=True, slots=True)
class KnotKind:
    """A knot that the lesson uses: what a figure is drawn of.

    Args:
        id: its index in `cordwright.teach.steps.Lesson.knots`.
        name: the trade name, as `cordwright.knots.spec.KnotName`.
        hand: as the reader ties it: mirrored in a left-handed lesson.
        spec: arguments of the `KnotSpec` it was tightened as (never mirrored: mirror the figure).
        roles: what the strand at each place does.
        exits: at which place each leaves.
        height_mm: how far it reaches down.
        width_mm: across.
        cord: the plan's cord it is first tied in.
        count: how many the piece has.
        time: seconds for one.
    """

    id: int
    name: str
    hand: Side
    spec: Mapping[str, Any]
    roles: tuple[Literal["working", "filler", "holding"], ...]
    exits: tuple[int, ...]
    height_mm: float
    width_mm: float
    cord: str
    count: int
    time: Span
