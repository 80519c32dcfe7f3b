"""What figures show is the knot that was drawn: crossings of their layers against the tangle's.

A strand's crossings over another one, right-handed ones counted as +1 and left-handed ones as -1,
keep their sum however the strands are moved, as long as their ends stay and no strand goes through
another: Reidemeister's second move adds one of each, the third only moves them.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.curves import part
from cordwright.draw.poses import tying_pose
from cordwright.draw.tying import tying
from cordwright.knots.drawn import draw
from cordwright.knots.spec import KnotName, KnotSpec
from tests.draw.knotpictures import drawn_runs
from tests.examples.conftest import ATLAS

if TYPE_CHECKING:
    from collections.abc import Sequence

    from numpy.typing import NDArray

    Floats = NDArray[np.float64]
    Sums = dict[tuple[int | None, int | None], int]

K = KnotName
SPECS = [
    KnotSpec(K.HALF_KNOT, 3),
    KnotSpec(K.HALF_KNOT, 4, hand="right"),
    KnotSpec(K.HALF_KNOT, 4),
    KnotSpec(K.DOUBLE_HALF_HITCH, 2),
    KnotSpec(K.OVERHAND, 2),
    KnotSpec(K.OVERHAND, 3, hand="right"),
]
"""In square knots and lark's heads every sum is nought, as their second half undoes the first."""


def sums(ways: Sequence[tuple[int | None, Floats]]) -> Sums:
    """For each strand over another one the sum of its crossings' signs, where it is not nought.

    Args:
        ways: place of a strand, and points: right, up, towards the viewer.
    """
    found: Counter[tuple[int | None, int | None]] = Counter()
    for i, (one, a) in enumerate(ways):
        for other, b in ways[i + 1 :]:
            if one == other:
                continue
            p, d, q, e = a[:-1, None], np.diff(a, axis=0)[:, None], b[None, :-1], np.diff(b, axis=0)
            turn = d[..., 0] * e[..., 1] - d[..., 1] * e[..., 0]
            way = q - p
            with np.errstate(divide="ignore", invalid="ignore"):
                s = (way[..., 0] * e[..., 1] - way[..., 1] * e[..., 0]) / turn
                t = (way[..., 0] * d[..., 1] - way[..., 1] * d[..., 0]) / turn
                nearer = p[..., 2] + s * d[..., 2] - q[..., 2] - t * e[..., 2]
            hit = (s >= 0) & (s < 1) & (t >= 0) & (t < 1)
            over = hit & (nearer > 0)
            found[one, other] += int(np.sign(turn[over]).sum())
            found[other, one] -= int(np.sign(turn[hit & ~over]).sum())
    return {pair: n for pair, n in found.items() if n}


def of_the_tangle(spec: KnotSpec) -> Sums:
    """Of the way points that the knot was drawn with, before it was tightened."""
    tangle = draw(spec)
    ways = []
    for c in tangle.courses:
        points = c.points
        if c.path == "periodic" and c.goes_on_as is not None and tangle.repeat is not None:
            r = tangle.repeat
            following = tangle.courses[c.goes_on_as].points[0] @ _turned(r.twist)
            points = np.vstack([points, following + r.period * np.array(r.direction)])
        # No edge may begin on another: seen from a hair beside the front.
        ways.append(
            (c.place, points[:, [0, 2, 1]] * [1.0, 1.0, -1.0] + 1e-7 * points[:, [1, 1, 1]])
        )
    return sums(ways)


def _turned(angle: float) -> Floats:
    c, s = np.cos(angle), np.sin(angle)
    return np.array([[c, s, 0.0], [-s, c, 0.0], [0.0, 0.0, 1.0]])


def of_the_layers(spec: KnotSpec) -> Sums:
    """Of the strokes of the last picture before the knot is drawn up, by their painting order."""
    figure = tying(ATLAS, spec)[-2].figure
    strokes = drawn_runs(figure)
    places = [c.place for c in tying_pose(ATLAS, spec).cords]
    ways = []
    for n, run in enumerate(figure.runs):
        # What is wholly hidden is not in the file; it lies where its cord is.
        points = (
            strokes[n].points
            if n in strokes
            else figure.page.on(part(figure.tubes[run.cord].points, run.start, run.end))
        )
        flat = np.column_stack([points * [1.0, -1.0], np.full(len(points), float(n))])
        ways.append((places[run.cord], flat))
    return sums(ways)


@pytest.mark.parametrize("spec", SPECS, ids=str)
def test_layers_are_crossed_as_the_tangle_is(spec: KnotSpec) -> None:
    assert of_the_layers(spec) == of_the_tangle(spec)


def test_another_knot_is_noticed() -> None:
    left, right = KnotSpec(K.HALF_KNOT, 4), KnotSpec(K.HALF_KNOT, 4, hand="right")
    assert of_the_layers(left) != of_the_tangle(right)
    assert of_the_layers(left)
