from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.hang.frame import Ports, cross, ports
from tests.hang.links import net

coordinate = st.floats(-100.0, 100.0)
vector = st.tuples(coordinate, coordinate, coordinate)


def at(along: float, aside: float) -> Ports:
    return ports([(0, 1, along, aside, (0.0, 1.0, 0.0))])


def test_a_port_stands_beside_its_bar() -> None:
    x = np.array([[5.0, 0.0, 0.0], [5.0, 0.0, -20.0]])
    assert at(0.0, 0.0).at(x)[0] == pytest.approx(x[0])
    assert at(1.0, 0.0).at(x)[0] == pytest.approx(x[1])
    # Aside is in heights of the bar, to the right of who looks along 'facing'.
    assert at(0.5, 0.1).at(x)[0] == pytest.approx([7.0, 0.0, -10.0])


@given(vector, vector, st.floats(0.0, 1.0), st.floats(-2.0, 2.0), vector)
def test_slopes_are_those_of_the_place(
    top: tuple[float, ...],
    bottom: tuple[float, ...],
    along: float,
    aside: float,
    way: tuple[float, ...],
) -> None:
    """A port is linear in its bar's ends, so differences are exact."""
    x, way_of = np.array([top, bottom]), np.array(way)
    port = at(along, aside)
    slopes = port.slopes(way_of[None])
    before = port.at(x)[0] @ way_of
    for node in (0, 1):
        for axis in range(3):
            moved = x.copy()
            moved[node, axis] += 1.0
            change = port.at(moved)[0] @ way_of - before
            assert change == pytest.approx(slopes[node][0, axis], abs=1e-6)


def test_turned_ports_face_the_other_way() -> None:
    x = np.array([[0.0, 0.0, 0.0], [0.0, 0.0, -10.0]])
    port = at(0.0, 0.3)
    back = port.turned(np.array([[0.0, -1.0, 0.0]]))
    assert back.at(x)[0] == pytest.approx(port.at(x)[0] * [-1.0, 1.0, 1.0])
    assert len(back) == 1


@given(st.lists(st.floats(0.0, 5.0), min_size=3, max_size=3), st.floats(0.0, 4.0))
def test_all_weight_is_at_some_node(own: list[float], cord: float) -> None:
    start = np.zeros((3, 3))
    weight = np.array([cord, 2 * cord])
    frame = net(start, [0], [(0, 1), (1, 2)], np.ones(2), np.array(own), weight)
    assert frame.weight.sum() == pytest.approx(sum(own) + 3 * cord)
    assert frame.weight[0] == pytest.approx(own[0] + 0.5 * cord)


@given(st.lists(st.tuples(vector, vector), max_size=4))
def test_vector_products_are_numpy_s(
    rows: list[tuple[tuple[float, ...], tuple[float, ...]]],
) -> None:
    a, b = (np.array([r[k] for r in rows]).reshape(-1, 3) for k in (0, 1))
    assert cross(a, b) == pytest.approx(np.cross(a, b))
