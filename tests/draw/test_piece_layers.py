from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.piece_layers import painted
from cordwright.draw.placed_cell import cell, evenly
from cordwright.knots.spec import KnotName, KnotSpec
from tests.examples.conftest import ATLAS

if TYPE_CHECKING:
    from cordwright.draw.placed_cell import Points

SPECS = [
    KnotSpec(KnotName.SQUARE_KNOT, 4),
    KnotSpec(KnotName.SQUARE_KNOT, 4, hand="right"),
    KnotSpec(KnotName.HALF_KNOT, 4),
    KnotSpec(KnotName.HALF_HITCH, 2),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, slant_deg=45.0),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=3.0),
    KnotSpec(KnotName.BRAID, 3),
    KnotSpec(KnotName.OVERHAND, 3),
    KnotSpec(KnotName.GATHERING, 5, turns=4),
]


def seen(spec: KnotSpec) -> list[Points]:
    ways = cell(ATLAS.figures(spec), ATLAS).ways[: spec.strands]
    return [w.points[:, [0, 2, 1]] for w in ways]


def crossings(cords: list[Points]) -> list[tuple[int, int, int, int]]:
    """Front cord and its segment, cord behind and its segment, wherever two lines cross."""
    found = []
    rows = [(c, k) for c, way in enumerate(cords) for k in range(len(way) - 1)]
    for x, (c, k) in enumerate(rows):
        a, b = cords[c][k], cords[c][k + 1]
        for e, m in rows[x + 1 :]:
            if c == e and abs(k - m) < 8:
                continue
            p, q = cords[e][m], cords[e][m + 1]
            det = (b - a)[0] * (q - p)[1] - (b - a)[1] * (q - p)[0]
            if abs(det) < 1e-12:
                continue
            g = p - a
            t = (g[0] * (q - p)[1] - g[1] * (q - p)[0]) / det
            u = (g[0] * (b - a)[1] - g[1] * (b - a)[0]) / det
            if 0 <= t < 1 and 0 <= u < 1:
                deeper = a[2] + t * (b - a)[2] - p[2] - u * (q - p)[2]
                if abs(deeper) < 0.5:
                    continue  # one cord going on in the other, as at the fold of a lark's head
                behind = deeper > 0.0
                found.append((e, m, c, k) if behind else (c, k, e, m))
    return found


@pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{s.name.value}-{s.hand}")
def test_what_is_in_front_is_painted_later(spec: KnotSpec) -> None:
    cords = seen(spec)
    order = {
        (s.cord, k): n
        for n, s in enumerate(painted(cords, [1.0] * len(cords)))
        for k in range(s.first, s.last)
    }
    wanted = crossings(cords)
    assert wanted
    for front, i, back, j in wanted:
        assert order[front, i] > order[back, j]


@pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{s.name.value}-{s.hand}")
def test_every_cord_is_painted_whole_and_once(spec: KnotSpec) -> None:
    cords = seen(spec)
    parts: dict[int, list[tuple[int, int]]] = {}
    for s in painted(cords, [1.0] * len(cords)):
        parts.setdefault(s.cord, []).append((s.first, s.last))
    for c, way in enumerate(cords):
        ends = sorted(parts[c])
        assert ends[0][0] == 0
        assert ends[-1][1] == len(way) - 1
        assert all(a[1] == b[0] for a, b in itertools.pairwise(ends))


def test_one_cord_alone_is_one_stretch() -> None:
    way = evenly(np.array([[0.0, 0.0, 0.0], [10.0, 0.0, 0.0]]), 0.25)
    assert len(painted([way], [1.0])) == 1


def test_two_cords_that_cross_once_are_cut_once_at_most() -> None:
    a = evenly(np.array([[-5.0, 0.0, 0.0], [5.0, 0.0, 0.0]]), 0.25)
    b = evenly(np.array([[0.0, -5.0, 1.5], [0.0, 5.0, 1.5]]), 0.25)
    order = painted([a, b], [1.0, 1.0])
    assert [s.cord for s in order] == [1, 0]
