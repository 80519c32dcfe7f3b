from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.topology.curves import circle, closed_braid, figure_eight, torus_knot
from tests.topology.diagram import (
    Curve,
    DegenerateProjectionError,
    diagram,
    find_crossings,
)
from tests.topology.kinds import mirrored, spherogram_link

HOPF = [circle((0, 0, 0), 0, 1), circle((1, 0, 0), 0, 2)]


def gauss_linking(a: Curve, b: Curve) -> float:
    """Gauss's integral by the midpoint rule: no diagram, no crossings."""
    da, db = np.roll(a, -1, axis=0) - a, np.roll(b, -1, axis=0) - b
    r = (a + da / 2)[:, None] - (b + db / 2)[None]
    volume = np.einsum("ijk,ijk->ij", r, np.cross(da[:, None], db[None]))
    return float(np.sum(volume / np.linalg.norm(r, axis=2) ** 3) / (4 * np.pi))


def test_each_arc_stands_twice_in_the_code() -> None:
    view = diagram([torus_knot(3, 4), circle((3, 0, 0), 0, 2)])
    arcs = [arc for crossing in view.pd for arc in crossing]
    assert sorted(arcs) == sorted(2 * list(range(2 * len(view.pd))))


def test_a_right_handed_torus_knot_has_right_handed_crossings() -> None:
    # Seen along its axis all crossings of a torus knot have one sign.
    assert [c.sign for c in find_crossings([torus_knot(2, 3)])] == [1, 1, 1]
    assert [c.sign for c in find_crossings(mirrored([torus_knot(2, 3)]))] == [-1, -1, -1]


@pytest.mark.parametrize(
    "curves", [[torus_knot(2, 5)], [figure_eight()], HOPF, closed_braid(3, [1, 1, -2, 1])]
)
def test_spherogram_reads_the_same_crossings_from_the_code(curves: list[Curve]) -> None:
    view = diagram(curves)
    link = spherogram_link(view)
    assert len(link.link_components) == len(curves)
    assert sorted(c.sign for c in link.crossings) == sorted(c.sign for c in view.crossings)


@pytest.mark.parametrize("curves", [HOPF, mirrored(HOPF), closed_braid(2, [1] * 4)])
def test_linking_number_is_gausss_integral(curves: list[Curve]) -> None:
    assert diagram(curves).linking(0, 1) == pytest.approx(gauss_linking(*curves), abs=0.03)
    assert diagram(curves).linking(0, 1) != 0


@given(st.integers(0, 2**32 - 1))
def test_linking_number_does_not_depend_on_the_point_of_view(seed: int) -> None:
    assert diagram(closed_braid(2, [1] * 4), seed).linking(0, 1) == 2


def test_curves_apart_are_counted() -> None:
    view = diagram([circle((0, 0, 0), 0, 1), circle((90, 0, 0), 0, 1)])
    assert (view.curves, view.apart, view.pd) == (2, 2, ())


def test_curves_that_touch_have_no_diagram() -> None:
    with pytest.raises(DegenerateProjectionError):
        diagram([circle((0, 0, 0), 0, 1), circle((0, 0, 0), 0, 1)])
