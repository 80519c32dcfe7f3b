"""Steps of knots that turn.

A straight step makes a bar that turns longer, by the square of its turn, which the stiffness of a
bar would punish: steps would have to be tiny.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

if TYPE_CHECKING:
    from cordwright.hang.frame import Frame, Points


def swung(frame: Frame, x: Points, step: Points) -> Points:
    """The position after a step, in which knots that turn keep the height that the step gives them.

    Args:
        frame: what hangs.
        x: (n, 3) float, mm, before it.
        step: (n, 3) float, mm.
    """
    bars, moved = frame.bars, x + step
    before = x[bars.top] - x[bars.bottom]
    size = np.maximum(np.linalg.norm(before, axis=1), 1e-9)
    change = step[bars.top] - step[bars.bottom]
    meant = size + np.einsum("ij,ij->i", before, change) / size
    after = before + change
    length = np.maximum(np.linalg.norm(after, axis=1), 1e-9)
    fix = 0.5 * after * (meant / length - 1.0)[:, None]
    free = frame.free[bars.top, 0] & frame.free[bars.bottom, 0]
    moved[bars.top[free]] += fix[free]
    moved[bars.bottom[free]] -= fix[free]
    return moved
