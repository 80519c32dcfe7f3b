"""How much a strand's knotted cord may differ from the sum, as the page's own arithmetic needs it.

What is known of a cord (`cordwright.cords.swatch_model`) makes the log factor of a strand a Student
t: its middle is linear, and its squared scale quadratic, in the shares that the kinds of knot have
in the strand's cord; one over the number of knots is added with a weight of its own. So a few
numbers for each cord say it for every strand, whatever its shares become.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import combinations
from typing import TYPE_CHECKING, Any

import numpy as np

from cordwright.cords import swatch_length
from cordwright.cords.swatch import FREE_SD
from cordwright.cords.swatch_model import Work, predict
from cordwright.piece.risk import SHARE_DIGITS

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.piece.risk import Known

MANY_KNOTS = 1e30
"""So many knots that they add nothing."""


def constants(risk: float) -> dict[str, Any]:
    """What the page's arithmetic of chances is made of, from where Python has it.

    Args:
        risk: chance that a strand is too short.
    """
    nodes, weights = np.polynomial.hermite_e.hermegauss(swatch_length.NODES)
    return {
        "risk": risk,
        "freeSd": FREE_SD,
        "nodes": [float(x) for x in nodes],
        "weights": [float(w) for w in weights / weights.sum()],
        "halvings": swatch_length.HALVINGS,
        "mostLog": swatch_length.MOST_LOG,
        "leastMm": swatch_length.LEAST_MM,
        "shareDigits": SHARE_DIGITS,
    }


def doubt_of(piece: Piece, known: Known, cord: str, kinds: Sequence[str]) -> dict[str, Any]:
    """The log factor of strands of one cord, by their shares of these kinds of knot.

    Args:
        piece: as worked.
        known: what is known of its cords.
        cord: the plan's name of one.
        kinds: names of knots.

    Returns:
        ``dof``; ``at`` and ``middle``: the location without knots and for each share; ``plain``,
        ``knot``, ``linear`` and ``square``: the squared scale without shares, the weight of one
        over the number of knots, and the coefficients of shares and of their products.
    """
    name = known.cords.get(cord, f"plan:{cord}")
    handling = piece.handling.get(cord)
    done = math.log(handling.take_up_factor) if handling is not None else 0.0

    def at(mix: Mapping[str, float], knots: float = MANY_KNOTS) -> tuple[float, float]:
        found = predict(known.take_up, Work(known.maker, name, mix, knots))
        return found.location, found.scale**2

    location, plain = at({})
    once = {k: at({k: 1.0}) for k in kinds}
    twice = {k: at({k: 2.0})[1] for k in kinds}
    square = {(k, k): 0.5 * (twice[k] - 2.0 * once[k][1] + plain) for k in kinds}
    linear = {k: once[k][1] - plain - square[k, k] for k in kinds}
    for a, b in combinations(kinds, 2):
        both = at({a: 1.0, b: 1.0})[1]
        square[a, b] = square[b, a] = 0.5 * (both - once[a][1] - once[b][1] + plain)
    return {
        "dof": known.take_up.dof,
        "at": location - done,
        "middle": [once[k][0] - location for k in kinds],
        "plain": plain,
        "knot": at({}, 1.0)[1] - plain,
        "linear": [linear[k] for k in kinds],
        "square": [[square[a, b] for b in kinds] for a in kinds],
    }
