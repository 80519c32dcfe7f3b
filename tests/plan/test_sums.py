import pytest
from hypothesis import given
from hypothesis import strategies as st

from cordwright.errors import Place, PlanError
from cordwright.plan.sums import Sum, count, length
from cordwright.units.form import Form

ENV: dict[str, Form | float] = {
    "arm": Form(0.0, {"s:arm": 1.0}),
    "leg": Form(0.0, {"s:leg": 1.0}),
    "rows": 6.0,
    "none": 0.0,
}
VALUES = {"s:arm": 350.0, "s:leg": 100.0}


def worth(text: str) -> Form | float:
    return Sum.parse(text).evaluate(ENV, VALUES)


@pytest.mark.parametrize(
    ("text", "mm", "terms"),
    [
        ("arm + 2 cm", 20.0, {"s:arm": 1.0}),
        ("2 * arm - 3 cm", -30.0, {"s:arm": 2.0}),
        ("arm / 2", 0.0, {"s:arm": 0.5}),
        ("arm * (rows - 1) / 2 + leg", 0.0, {"s:arm": 2.5, "s:leg": 1.0}),
        ("3 ft 6 in", 1066.8, {}),
        ("-leg + arm", 0.0, {"s:arm": 1.0, "s:leg": -1.0}),
        ("max(arm, leg)", 0.0, {"s:arm": 1.0}),
        ("min(arm, leg)", 0.0, {"s:leg": 1.0}),
        ("max(0, arm - 5 cm)", -50.0, {"s:arm": 1.0}),
        ("max(0, leg - 50 cm)", 0.0, {}),
        ("round(arm / 3, 1 cm)", 120.0, {}),
        ("floor(arm / 3, 1 cm)", 110.0, {}),
        ("ceil(arm, 20 cm)", 400.0, {}),
        ("2.5 * 1/2 in", 31.75, {}),
    ],
)
def test_lengths_stay_linear_in_named_lengths(
    text: str, mm: float, terms: dict[str, float]
) -> None:
    got = worth(text)
    assert isinstance(got, Form)
    assert got.mm == pytest.approx(mm)
    assert dict(got.terms) == pytest.approx(terms)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 * rows - 1", 11.0),
        ("rows // 4", 1.0),
        ("rows % 4", 2.0),
        ("arm / leg", 3.5),
        ("floor(arm / leg)", 3.0),
        ("ceil(arm / leg)", 4.0),
        ("round(2.5)", 3.0),
        ("max(rows, 9, 2)", 9.0),
        ("1 + 2 * 3", 7.0),
        ("10 - 4 - 3", 3.0),
        ("(1 + 2) * -3", -9.0),
        ("floor(3 * (1 / 3))", 1.0),
    ],
)
def test_numbers_follow_the_rules_of_arithmetic(text: str, value: float) -> None:
    assert worth(text) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("arm * leg", "length times a length"),
        ("arm + 2", "a length and a number"),
        ("2 / arm", "divided by a length"),
        ("max(arm, 2)", "a length and a number"),
        ("arm % 2", "works on numbers"),
        ("rows / 0", "divides by zero"),
        ("rows // none", "divides by zero"),
        ("arm / (leg - leg)", "divides by zero"),
        ("round(arm)", "to what"),
        ("round(arm, 0 cm)", "not above zero"),
        ("round(1, 2, 3)", "a step"),
        ("2 ** 9", "no powers"),
        ("10**10**10", "no powers"),
        ("9999999999 * 9999999999", "too large"),
        ("99999999999999999999", "15 digits"),
        ("1 / 0.0000000000001 / 0.0000000000001", "too large"),
        ("(" * 200 + "1" + ")" * 200, "300 is the most"),
        ("(" * 100 + "1" + ")" * 100, "nested"),
        ("-" * 100 + "1", "Two signs"),
        ("2 - -1", "Two signs"),
        ("3 +", "missing at the end"),
        ("* 3", "missing before"),
        ("(3", "not closed"),
        ("3)", "not opened"),
        ("2 arm", "nothing in between"),
        ("1,5 cm", "comma"),
        ("arm.real", "no meaning"),
        ("arm[0]", "no meaning"),
        ("'a'", "no meaning"),
        ("open(1)", "not a function"),
        ("__import__(1)", "no meaning"),
        ("amr", "did you mean arm"),
        ("cm", "not a value"),
        ("nan", "not a name"),
        ("1/0 in", "zero"),
        ("", "missing"),
    ],
)
def test_says_what_is_wrong_with_a_sum(text: str, part: str) -> None:
    with pytest.raises(PlanError) as caught:
        worth(text)
    assert part in str(caught.value)
    assert caught.value.remedy


def test_names_the_column_of_the_fault() -> None:
    with pytest.raises(PlanError) as caught:
        Sum.parse("arm + amr", Place("a.yaml", 3, 8)).evaluate(ENV, VALUES)
    assert caught.value.place == Place("a.yaml", 3, 14)


@pytest.mark.parametrize(
    ("text", "part"),
    [("35", "35 cm"), ("leg - arm", "below zero"), ("2000 m", "1 km"), ("rows", "a number")],
)
def test_a_length_has_a_unit_and_bounds(text: str, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        length(Sum.parse(text), ENV, VALUES)


def test_nought_is_a_length() -> None:
    assert length(Sum.parse("0"), ENV) == Form()


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("2.5", "not a whole number"),
        ("rows / 4", "comes to 1.5"),
        ("arm", "is a length"),
        ("-1", "from 0"),
        ("200001", "200,000"),
    ],
)
def test_a_count_is_whole_and_bounded(text: str, part: str) -> None:
    with pytest.raises(PlanError, match=part):
        count(Sum.parse(text), ENV, VALUES)


sums = st.recursive(
    st.sampled_from(["arm", "leg", "rows", "none", "0", "2", "3.5", "5 cm", "1/2 in", "nix"]),
    lambda parts: (
        st.tuples(parts, st.sampled_from(["+", "-", "*", "/", "//", "%"]), parts).map(
            lambda t: f"({t[0]} {t[1]} {t[2]})"
        )
        | st.tuples(st.sampled_from(["min", "max", "round", "floor"]), parts, parts).map(
            lambda t: f"{t[0]}({t[1]}, {t[2]})"
        )
    ),
    max_leaves=12,
)


@given(sums | st.text(max_size=60) | st.text("0123456789+-*/%() .,arm cin", max_size=60))
def test_any_text_is_an_amount_or_a_clear_error(text: str) -> None:
    try:
        amount = worth(text)
    except PlanError:
        return
    value = amount.at(VALUES) if isinstance(amount, Form) else amount
    assert abs(value) < 1e16


@given(sums, st.floats(1.0, 999.0))
def test_a_form_holds_for_other_sizes_while_no_branch_is_picked(text: str, arm: float) -> None:
    if any(word in text for word in ("min", "max", "round", "floor")):
        return
    try:
        amount = worth(text)
        other = Sum.parse(text).evaluate(ENV, {**VALUES, "s:arm": arm})
    except PlanError:
        return
    if isinstance(amount, Form) and isinstance(other, Form) and text.count("arm") == 1:
        changed = {**VALUES, "s:arm": arm}
        assert amount.at(changed) == pytest.approx(other.at(changed), rel=1e-6, abs=1e-6) or (
            "/" in text
        )
