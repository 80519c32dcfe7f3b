"""The line-up: strands from left to right, or round, while working and afterwards at any height.

A step may work on some places only, numbered anew within them (a motif). Each such view is a
`View` of its own; a change is made in every view from the step's up to the whole line-up. In each
view the strands concerned keep the slots that they hold together, and stand in them from left to
right as they leave the knot.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from cordwright.piece.model import Change, Piece, Shape


class View:
    """Strands in order, each in a slot; slots are numbered from 0.

    Args:
        strands: from left to right.
    """

    __slots__ = ("slots", "strands")

    def __init__(self, strands: Sequence[int]) -> None:
        self.strands = list(strands)
        self.slots: dict[int, int] = {}
        self._number()

    def _number(self) -> None:
        self.slots = {strand: slot for slot, strand in enumerate(self.strands)}

    def place(self, strands: Sequence[int], *, shape: Shape) -> None:
        """Puts strands, given from left to right, into the slots that they hold together."""
        held = [self.slots[s] for s in strands]
        for strand, slot in zip(strands, in_order(held, len(self.strands), shape), strict=True):
            self.strands[slot] = strand
            self.slots[strand] = slot

    def insert(self, strands: Sequence[int], *, after: int | None, before: int | None) -> None:
        """Puts new strands in after a strand, else before one, else where there are none."""
        at = 0
        if after is not None:
            at = self.slots[after] + 1
        elif before is not None:
            at = self.slots[before]
        self.strands[at:at] = strands
        self._number()

    def remove(self, strands: Sequence[int]) -> None:
        """Takes strands out."""
        gone = set(strands)
        self.strands = [s for s in self.strands if s not in gone]
        self._number()

    def begin_at(self, strand: int) -> None:
        """Makes a strand the first; those before it come after the last."""
        slot = self.slots[strand]
        self.strands = self.strands[slot:] + self.strands[:slot]
        self._number()


def in_order(held: Sequence[int], of: int, shape: Shape) -> list[int]:
    """Slots from left to right; in the round from behind their widest gap.

    Where gaps are equally wide (the whole round, say), the slot named first comes first.

    >>> in_order([7, 6, 0, 1], 8, "round")
    [6, 7, 0, 1]
    >>> in_order([7, 6, 0, 1], 8, "flat")
    [0, 1, 6, 7]
    """
    slots = sorted(held)
    if shape == "flat" or slots[-1] - slots[0] < of / 2:
        return slots
    gaps = [slot - slots[i - 1] if i else slot - slots[-1] + of for i, slot in enumerate(slots)]
    widest = max(gaps)
    begins = [i for i, gap in enumerate(gaps) if gap == widest]
    first = slots.index(held[0])
    at = first if first in begins else begins[0]
    return slots[at:] + slots[:at]


class LineUp(NamedTuple):
    """The line-up at one height.

    Args:
        shape: flat or round.
        strands: from left to right, or round from number one.
    """

    shape: Shape
    strands: tuple[int, ...]


def line_up_at(piece: Piece, depth_mm: float) -> LineUp:
    """The line-up just below a depth.

    What lies higher has been worked, what lies lower has not. Where strands change places
    without a knot (a pass, a change of shape), they do so at the depth of the lowest of them.
    Takes time in proportion to the piece's changes.

    Args:
        piece: the worked piece.
        depth_mm: mm below the top; not below 0.
    """
    view = View(())
    shape: Shape = "flat"
    for change in piece.changes:
        if change.depth <= depth_mm:
            shape = _apply(change, view, shape)
    return LineUp(shape, tuple(view.strands))


def _apply(change: Change, view: View, shape: Shape) -> Shape:
    if change.shape is not None:
        view.begin_at(change.after[0])
        return change.shape
    if len(change.after) > len(change.before):
        _insert(change, view)
    elif len(change.after) < len(change.before):
        view.remove(change.before)
    else:
        view.place(change.after, shape=shape)
    return shape


def _insert(change: Change, view: View) -> None:
    neighbour = change.before[0] if change.before else None
    if neighbour is None or change.after[0] == neighbour:
        new = change.after[len(change.before) :]
        view.insert(new, after=neighbour, before=None)
    else:
        view.insert(change.after[:-1], after=None, before=neighbour)
