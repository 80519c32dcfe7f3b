"""How long a strand must be so that it is enough with a given chance.

A strand uses ``sure + free (1 + e) + knotted exp(y)``: `sure` is cut off in the end and exact;
`e` is the error of measuring free cord, normal with the standard deviation `FREE_SD`; `y` is a log
factor, Student t (`cordwright.cords.swatch_model`). The chance that a length is enough is the
integral over `e` of the chance that `y` is small enough, by Gauss-Hermite quadrature; the length
for a chance is found by bisection.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

import numpy as np

from cordwright.cords.swatch import FREE_SD
from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

NODES = 16  # the integrand is smooth; more nodes give the same chance to 1e-4 (tested)
HALVINGS = 38  # of some metres: to a thousandth of a millimetre and far below
MOST_LOG = 3.0  # a strand that needs twenty times the ideal cord is not planned for
LEAST_MM = 1e-9  # knotted cord below which a strand is counted as having no knots


@dataclass(frozen=True, slots=True)
class Doubts:
    """What is not known of some strands' needs. Every array is (s,) float, one entry a strand.

    Args:
        sure_mm: cord that needs no spare, such as tails.
        free_mm: free cord.
        knotted_mm: cord in knots, at factor 1.
        location: middle of the log factor.
        scale: its scale, above 0.
        dof: its degrees of freedom.
    """

    sure_mm: Floats
    free_mm: Floats
    knotted_mm: Floats
    location: Floats
    scale: Floats
    dof: Floats


def chance(doubts: Doubts, length_mm: Floats) -> Floats:
    """(s,) float: the chance, 0 to 1, that each strand's length is enough.

    Args:
        doubts: of the strands.
        length_mm: (s,) float, mm, what each is cut to.
    """
    from scipy.special import ndtr, stdtr

    nodes, weights = _quadrature(NODES)
    room = length_mm - doubts.sure_mm
    free = doubts.free_mm * (1.0 + FREE_SD * nodes[:, None])
    left = room - free
    knotted = np.maximum(doubts.knotted_mm, LEAST_MM)
    with np.errstate(invalid="ignore"):
        y = np.log(np.maximum(left, 1e-300) / knotted)
    enough = np.where(left > 0.0, stdtr(doubts.dof, (y - doubts.location) / doubts.scale), 0.0)
    mixed: Floats = weights @ enough
    sd = np.maximum(FREE_SD * doubts.free_mm, 1e-9)
    plain = np.where(doubts.free_mm > 0.0, ndtr((room - doubts.free_mm) / sd), room >= -1e-6)
    return np.where(doubts.knotted_mm > LEAST_MM, mixed, plain)


@cache
def _quadrature(count: int) -> tuple[Floats, Floats]:
    """Two (count,) float: standard normal nodes and their weights, of sum 1.

    Kept, because finding them is an eigenvalue problem and a bisection asks for them every time.
    """
    nodes, weights = np.polynomial.hermite_e.hermegauss(count)
    weights = weights / weights.sum()
    nodes.flags.writeable = weights.flags.writeable = False
    return nodes, weights


def length_for(doubts: Doubts, risk: float) -> Floats:
    """(s,) float: mm, the least length of each strand that is enough but for the risk.

    Args:
        doubts: of the strands.
        risk: chance, above 0 and below 0.5, that it is not enough.

    Raises:
        CordwrightError: the risk is out of range.
    """
    if not 0.0 < risk < 0.5:
        raise CordwrightError(
            f"A risk of {100 * risk:g} in 100 cannot be planned for.",
            remedy="give more than 0 and less than 50, such as 5",
        )
    low = np.asarray(doubts.sure_mm, dtype=np.float64)
    widest = np.exp(np.minimum(doubts.location + 40.0 * doubts.scale, MOST_LOG))
    high = low + 1.5 * doubts.free_mm + widest * doubts.knotted_mm
    for _ in range(HALVINGS):
        middle = 0.5 * (low + high)
        enough = chance(doubts, middle) >= 1.0 - risk
        low, high = np.where(enough, low, middle), np.where(enough, middle, high)
    return high
