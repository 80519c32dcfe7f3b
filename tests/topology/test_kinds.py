from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.topology.curves import circle, closed_braid, figure_eight, torus_knot
from tests.topology.kinds import kind_by_topoly, mirrored, signs_mirrored, summands, whole

if TYPE_CHECKING:
    from tests.topology.diagram import Curve

TREFOIL = [torus_knot(2, 3)]
SQUARE = closed_braid(3, [1, 1, 1, -2, -2, -2])  # a trefoil and its mirror image
GRANNY = closed_braid(3, [1, 1, 1, 2, 2, 2])  # two trefoils of one hand
HOPF = [circle((0, 0, 0), 0, 1), circle((1, 0, 0), 0, 2)]


def names(curves: list[Curve]) -> list[str]:
    return [kind.name for kind in summands(curves)]


@pytest.mark.parametrize("curve", [circle((0, 0, 0), 0, 1), torus_knot(1, 7), torus_knot(5, 1)])
def test_unknots(curve: Curve) -> None:
    pytest.importorskip("topoly")
    assert names([curve]) == []
    assert whole([curve]).name == "unknot"
    assert kind_by_topoly([curve]) == "0_1"


def test_trefoils_of_both_hands() -> None:
    assert names(TREFOIL) == ["right trefoil"]
    assert names(mirrored(TREFOIL)) == ["left trefoil"]
    assert whole(TREFOIL).signature == -whole(mirrored(TREFOIL)).signature == 2


# Alexander polynomials, signatures and genera as in Rolfsen's table (from memory, unchecked).
@pytest.mark.parametrize(
    ("curve", "alexander", "signature", "genus"),
    [
        (torus_knot(2, 3), (1, -1, 1), 2, 1),
        (figure_eight(), (1, -3, 1), 0, 1),
        (torus_knot(2, 5), (1, -1, 1, -1, 1), 4, 2),
        (torus_knot(3, 4), (1, -1, 0, 1, 0, -1, 1), 6, 3),
    ],
)
def test_invariants_of_prime_knots(
    curve: Curve, alexander: tuple[int, ...], signature: int, genus: int
) -> None:
    (kind,) = summands([curve])
    assert (kind.alexander, kind.signature, kind.genus) == (alexander, signature, genus)
    assert kind.fibred


def test_square_knot_is_a_trefoil_and_its_mirror_image() -> None:
    assert names(SQUARE) == ["left trefoil", "right trefoil"]
    assert whole(SQUARE).signature == 0
    assert whole(SQUARE).determinant == 9


def test_granny_is_not() -> None:
    assert names(GRANNY) == ["right trefoil", "right trefoil"]
    assert names(mirrored(GRANNY)) == ["left trefoil", "left trefoil"]
    assert [whole(GRANNY).signature, whole(mirrored(GRANNY)).signature] == [4, -4]
    assert whole(GRANNY).alexander == whole(SQUARE).alexander


def test_links() -> None:
    assert [k.components for k in summands(HOPF)] == [2]
    assert whole(HOPF).determinant == 2
    assert whole(closed_braid(2, [1] * 4)).determinant == 4


def test_a_link_that_falls_apart_is_refused() -> None:
    with pytest.raises(ValueError, match="apart"):
        whole([*TREFOIL, circle((90, 0, 0), 0, 1)])
    with pytest.raises(ValueError, match="apart"):
        summands(closed_braid(2, [1, 1, -1, -1]))


def test_topoly_agrees() -> None:
    pytest.importorskip("topoly")
    assert kind_by_topoly(TREFOIL) == "+3_1"
    assert kind_by_topoly([figure_eight()]) == "4_1"
    assert kind_by_topoly([torus_knot(2, 5)]) == "+5_1"
    assert kind_by_topoly(HOPF) == "L2a1"
    assert kind_by_topoly(closed_braid(2, [1] * 4)) == "+L4a1"  # 4^2_1 in Rolfsen's table


@pytest.mark.parametrize("curves", [TREFOIL, [torus_knot(2, 5)], SQUARE, GRANNY])
def test_topoly_sees_a_mirror_image_as_one(curves: list[Curve]) -> None:
    pytest.importorskip("topoly")
    seen = kind_by_topoly(mirrored(curves))
    assert sorted(seen.split("#")) == sorted(signs_mirrored(kind_by_topoly(curves)).split("#"))


def test_topoly_tells_square_from_granny() -> None:
    pytest.importorskip("topoly")
    assert sorted(kind_by_topoly(SQUARE).split("#")) == ["+3_1", "-3_1"]
    assert kind_by_topoly(GRANNY) == "+3_1#+3_1"


def test_a_braid_and_a_formula_give_the_same_knot() -> None:
    assert summands(closed_braid(2, [1, 1, 1])) == summands(TREFOIL)
    assert summands(closed_braid(3, [1, -2, 1, -2])) == summands([figure_eight()])
