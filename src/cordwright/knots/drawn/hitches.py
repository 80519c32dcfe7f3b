"""The double half hitch: one working cord tied twice on a holding cord, in a row of them.

It is a clove hitch round the holding cord. Seen from the front: the working cord comes from
above behind the holding cord, makes a bar in front of it, crosses its own two ends at the back,
makes a second bar on the side towards which the row runs, and goes down behind again. The half
turn about the axis from front to back takes one half of it to the other.
"""

from __future__ import annotations

import numpy as np

from cordwright.errors import KnotError
from cordwright.knots.spec import Role
from cordwright.knots.tangle import Course, Repeat, Symmetry, Tangle, through

HOLDING_TENSION = 6.0
"""Pull in the holding cord against 1 in the working cords: it is held taut (common practice)."""

ROW_PUSH = 4.0
"""Force that closes a row up, against 1 in a working cord. Hitches are drawn up against the last
one until the holding cord does not show between them (common practice): the two bars of every
hitch then lie side by side, 2 d from hitch to hitch. With a push of 1 they stay 2.9 d apart and
use 1.3 d less (docs/solver.md)."""

_HALF_TURN = ((-1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0))

REACH = 7.0
"""How far above and below the row the working cord is followed, in d."""

_PITCH = 4.6
"""Distance of neighbours as drawn, in d."""


def double_half_hitch(slant_deg: float, holding_d: float = 1.0) -> Tangle:
    """One double half hitch of a row that runs to the left, dipping by ``slant_deg``.

    Args:
        slant_deg: angle of the holding cord below level, 0 to 60.
        holding_d: its diameter in d.
    """
    if not 0.0 <= slant_deg <= 60.0:
        raise KnotError(
            f"a holding cord was to dip by {slant_deg:g} degrees",
            remedy="use 0 (level) to 60 degrees; steeper bands are sinnets of half hitches",
        )
    slant = np.radians(slant_deg)
    along = np.array([-np.cos(slant), 0.0, -np.sin(slant)])
    reach = REACH + 4.0 * np.sin(slant)
    near = 0.5 * holding_d + 1.1
    far = near + 1.3
    first = through(
        [
            (0.6, near, reach),
            (0.6, near, 0.5 * reach),
            (0.6, near, 0.0),
            (0.9, 0.2, -near),
            (1.4, -near, 0.0),
            (1.7, 0.0, near + 0.2),
            (1.9, near, 0.8 * near),
            (1.3, far, 0.4 * near),
        ]
    )
    second = first[::-1] * [-1, 1, -1]
    # The drawing sits square to a level cord; for a slanted one it is sheared along it.
    hitch = np.concatenate([first, [(0.0, far, 0.0)], second])
    hitch[:, 2] += (
        np.tan(slant) * np.clip(hitch[:, 0], -2.2, 2.2) * (np.abs(hitch[:, 2]) < near + 1)
    )
    # Slanted neighbours hang closer together; drawn wider apart, none starts inside another.
    pitch = _PITCH / np.cos(slant)
    k = np.arange(12) / 12.0 - 0.5
    holding = k[:, None] * pitch * along
    return Tangle(
        (
            Course(
                holding,
                "periodic",
                role=Role.HOLDING,
                diameter=holding_d,
                tension=HOLDING_TENSION,
                goes_on_as=0,
                place=0,
            ),
            Course(hitch, "open", place=1),
        ),
        Repeat((float(along[0]), 0.0, float(along[2])), pitch, push=ROW_PUSH - HOLDING_TENSION),
        (Symmetry(_HALF_TURN, (0, 1), reverse=True),),
    )
