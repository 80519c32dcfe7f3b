"""Two legs of a sling against a rigger's table.

Tension factor on each leg's share of the load, by the leg's angle from the horizontal: the chart of
ashleysling.com ('Calculating sling angles'); page 99 of Sharrow's sling catalogue has the same.
"""

from __future__ import annotations

import numpy as np
import pytest

from cordwright.hang import forces
from tests.hang.links import at_rest, net

FACTORS = {80: 1.015, 70: 1.064, 60: 1.155, 55: 1.221, 50: 1.305, 45: 1.414, 40: 1.555,
           35: 1.742, 30: 2.0}  # fmt: skip
LEG, LOAD = 1000.0, 40.0  # mm, N


@pytest.mark.parametrize(("angle", "factor"), FACTORS.items())
def test_a_leg_carries_its_share_times_the_table_s_factor(angle: int, factor: float) -> None:
    half = LEG * np.cos(np.radians(angle))
    start = np.array([[-half, 0.0, 0.0], [half, 0.0, 0.0], [30.0, 20.0, -400.0]])
    frame = net(start, [0, 1], [(0, 2), (1, 2)], np.full(2, LEG), np.array([0.0, 0.0, LOAD]))
    settled = at_rest(frame)
    assert settled.balanced
    pulls = forces.tensions(frame, settled.x, forces.Pull(settled.rest, settled.stiffness))
    assert pulls == pytest.approx(factor * LOAD / 2, rel=1e-3)
    # The same as W / (2 sin a): 0.577, 0.707 and 1.000 of the load at 60, 45 and 30 degrees.
    assert pulls == pytest.approx(LOAD / (2 * np.sin(np.radians(angle))), rel=5e-4)
    assert settled.x[2] == pytest.approx([0.0, 0.0, -LEG * np.sin(np.radians(angle))], abs=0.5)


def test_unlike_legs_share_by_the_sines_of_the_other_s_angle() -> None:
    """Lami's theorem: with angles a and b from the vertical T_a = W sin b / sin(a + b)."""
    a, b = np.radians(25.0), np.radians(50.0)
    deep = 800.0
    start = np.array([[-deep * np.tan(a), 0, 0], [deep * np.tan(b), 0, 0], [10.0, 5.0, -700.0]])
    rest = np.array([deep / np.cos(a), deep / np.cos(b)])
    frame = net(start, [0, 1], [(0, 2), (1, 2)], rest, np.array([0.0, 0.0, LOAD]))
    settled = at_rest(frame)
    pulls = forces.tensions(frame, settled.x, forces.Pull(settled.rest, settled.stiffness))
    wanted = LOAD / np.sin(a + b) * np.sin([b, a])
    assert pulls == pytest.approx(wanted, rel=1e-3)
