import pytest

from cordwright.errors import PlanError
from cordwright.plan.read import parse_plan
from cordwright.plan.sizes import resolve_sizes
from cordwright.units.form import Form
from tests.plan.texts import SMALL, bent

PLAN = parse_plan(SMALL)


def test_written_lengths_are_symbols_and_others_combine_them() -> None:
    sizes = resolve_sizes(PLAN)
    assert sizes.env["arm"] == Form(0.0, {"s:arm": 1.0})
    assert sizes.env["half_arm"] == Form(0.0, {"s:arm": 0.5})
    assert sizes.env["rows"] == 6.0
    assert sizes.values == {"s:arm": 350.0, "s:drop": 200.0}
    assert sizes.mm("half_arm") == 175.0
    assert sizes.mm("rows") == 6.0


def test_overrides_change_what_hangs_on_them() -> None:
    sizes = resolve_sizes(PLAN, {"arm": "1 ft", "rows": "2 * 4"})
    assert sizes.mm("half_arm") == pytest.approx(152.4)
    assert sizes.env["rows"] == 8.0


def test_an_override_may_be_a_sum_over_other_sizes() -> None:
    assert resolve_sizes(PLAN, {"drop": "arm - 5 cm"}).mm("drop") == 300.0


@pytest.mark.parametrize(
    ("override", "part"),
    [
        ({"amr": "1 m"}, "did you mean arm"),
        ({"drop": "9 cm"}, "at least 10 cm"),
        ({"drop": "41 cm"}, "at most 40 cm"),
        ({"drop": "3"}, "bound '10 cm' is a length"),
        ({"arm": "half_arm"}, "circle"),
        ({"arm": "1 parsec"}, "nothing in between"),
        ({"arm": "-5 cm"}, "below zero"),
        ({"arm": ""}, "missing"),
        ({"rows": "-5"}, "from 0"),
    ],
)
def test_refuses_sizes_that_cannot_be(override: dict[str, str], part: str) -> None:
    with pytest.raises(PlanError, match=part):
        resolve_sizes(PLAN, override)


def test_sizes_may_use_later_ones() -> None:
    plan = parse_plan(bent("arm: 35 cm", "arm: 2 * later\n  later: 1 cm"))
    assert resolve_sizes(plan).mm("half_arm") == 10.0


def test_a_circle_names_its_sizes_and_line() -> None:
    with pytest.raises(PlanError, match="circle") as caught:
        parse_plan(bent("arm: 35 cm", "arm: 2 * half_arm"))
    assert caught.value.place is not None
    assert caught.value.place.line in (7, 9)


def test_a_thousand_sizes_in_a_chain_resolve() -> None:
    chain = "".join(f"  c{i}: c{i + 1} + 1 mm\n" for i in range(900))
    plan = parse_plan(bent("  rows: 6\n", f"  rows: 6\n{chain}  c900: 1 cm\n"))
    assert resolve_sizes(plan).mm("c0") == pytest.approx(910.0)
