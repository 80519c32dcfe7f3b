"""Which knot, exactly: the name and the parameters that a tight shape depends on."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Literal


class Role(StrEnum):
    """What a strand does in a knot."""

    WORKING = "working"
    FILLER = "filler"
    HOLDING = "holding"


class KnotName(StrEnum):
    """The knots that Cordwright can tighten, by their trade names."""

    LARKS_HEAD = "larks-head"
    HALF_KNOT = "half-knot"
    SQUARE_KNOT = "square-knot"
    DOUBLE_HALF_HITCH = "double-half-hitch"
    HALF_HITCH = "half-hitch"
    OVERHAND = "overhand"
    GATHERING = "gathering"
    BRAID = "braid"


Hand = Literal["left", "right"]


@dataclass(frozen=True, slots=True)
class KnotSpec:
    """One tight shape. All diameters are in diameters d of the working cord.

    Args:
        name: which knot.
        strands: strands that take part, the holding or wrapping cord included
            (braid: 3 or 4; overhand: n; square knot: fillers + 2; lark's head: 2).
        turns: turns of a gathering knot's wrap; 1 elsewhere.
        hand: the mirror image. A left square knot starts with the left-hand working cord in
            front; a double half hitch to the right runs with its holding cord from left to right.
        face: lark's head only: ``face`` shows the bar in front, ``reverse`` behind.
        over: lark's head only: what it is mounted on.
        over_d: diameter of that ring wire, rod or holding cord, in d.
        slant_deg: double half hitch only: how far the holding cord dips below level, 0 to 60.
        filler_d: diameter of fillers (or of the holding cord) in d.
    """

    name: KnotName
    strands: int
    turns: int = 1
    hand: Hand = "left"
    face: Literal["face", "reverse"] = "face"
    over: Literal["ring", "rod", "none"] = "none"
    over_d: float = 0.0
    slant_deg: float = 0.0
    filler_d: float = 1.0

    @property
    def fillers(self) -> int:
        """How many strands the working cords run round."""
        match self.name:
            case KnotName.SQUARE_KNOT | KnotName.HALF_KNOT:
                return self.strands - 2
            case KnotName.HALF_HITCH | KnotName.GATHERING | KnotName.DOUBLE_HALF_HITCH:
                return self.strands - 1
            case _:
                return 0


@dataclass(frozen=True, slots=True)
class KnotFigures:
    """What a piece needs to know of a tight knot; lengths in diameters d of the working cord.

    Args:
        spec: which knot.
        height_d: how far it reaches along the hanging direction: in a sinnet the distance from
            one knot to the next (for a lark's head: from the top of what it hangs on, to where
            both strands hang free).
        width_d: across, left to right; in a row the distance from one knot to the next.
        depth_d: front to back.
        roles: role of each strand by place, left to right where the strands come in. For a
            double half hitch place 0 holds and place 1 works (for either hand); for a
            gathering knot place 0 wraps; for a lark's head the two places are the two strands
            of the folded cord.
        take_up_d: cord used in the knot by each place, from where strands come in at the top
            to where they go out, ``height_d`` lower; the height is included, so a straight
            filler uses ``height_d``. A holding cord uses its way along the row per hitch.
        exit_order: ``exit_order[i]`` is the place at the bottom, left to right, of the strand
            that came in at place ``i``.
        twist_deg: turn of the knot about the hanging direction to the next (spirals), else 0.
        enter_d: how far to the right of the knot's middle each place's strand comes in (for a
            lark's head: hangs down); for a double half hitch only the working strand's counts,
            and it goes out as far on the other side.
        overlap_d: largest overlap of two tubes that the solver left.
        mesh_error_d: estimated error of the largest take-up from the mesh.
    """

    spec: KnotSpec
    height_d: float
    width_d: float
    depth_d: float
    roles: tuple[Role, ...]
    take_up_d: tuple[float, ...]
    exit_order: tuple[int, ...]
    twist_deg: float = 0.0
    enter_d: tuple[float, ...] = ()
    overlap_d: float = 0.0
    mesh_error_d: float = 0.0
