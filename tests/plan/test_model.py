import pydantic
import pytest

from cordwright.cords.cord import mass_per_metre
from cordwright.plan.model import VERBS, HitchStep, PassStep, Plan
from cordwright.plan.read import parse_plan
from cordwright.plan.strands import Places
from tests.plan.texts import EVERY_STEP, SMALL, bent


def test_a_plan_cannot_be_changed() -> None:
    plan = parse_plan(SMALL)
    with pytest.raises(pydantic.ValidationError):
        plan.title = "other"  # type: ignore[misc]


def test_a_cord_of_a_plan_has_a_weight() -> None:
    plan = parse_plan(bent("build: single twist", "build: single twist, weight: 7 g/m"))
    weighed = mass_per_metre(plan.cords["main"].bought)
    estimated = mass_per_metre(plan.cords["fine"].bought)
    assert weighed is not None
    assert weighed.value == 7.0
    assert estimated is not None
    assert estimated.low < estimated.value < estimated.high


def test_words_for_slants_are_degrees() -> None:
    slants = [s.slant_deg for s in parse_plan(EVERY_STEP).work if isinstance(s, HitchStep)]
    assert slants == [30.0, 60.0]


def test_a_pass_knows_the_group_that_is_passed() -> None:
    front, behind = (s for s in parse_plan(EVERY_STEP).work if isinstance(s, PassStep))
    assert front.passed == behind.passed == Places.parse("3-4")
    assert (front.behind, behind.in_front_of) == (None, None)


def test_the_example_uses_every_verb() -> None:
    used = {type(step) for step in parse_plan(EVERY_STEP).work}
    assert used == set(VERBS.values())


def test_plain_data_makes_the_same_plan_as_the_text() -> None:
    plan = parse_plan(SMALL)
    data = plan.model_dump(mode="json", by_alias=True, exclude_none=True)
    assert Plan.model_validate(data) == plan
