from __future__ import annotations

from functools import cache

import pytest

from cordwright.cords.handling import Handling
from cordwright.hang.asking import with_hang
from cordwright.hang.fit import cord_to_cut
from cordwright.hang.freesizes import free_sizes
from cordwright.hang.refit import Asked, Hands, Refit, refit
from cordwright.piece.work import work
from cordwright.plan.read import parse_plan
from cordwright.plan.write import edit_plan
from tests.hang.cradles import net_text
from tests.piece.conftest import MadeUpFigures


def found(asked: Asked, **other: float) -> Refit:
    return refit(parse_plan(net_text(**other)), MadeUpFigures(), asked, lambda _what, _share: None)


@cache
def low_ceiling() -> Refit:
    return found(Asked(), hook=700.0)


def test_free_sizes_are_those_with_bounds() -> None:
    plan = parse_plan(net_text())
    free = free_sizes(plan, work(plan, MadeUpFigures()))
    assert [(f.name, f.value, f.least, f.most, f.net) for f in free] == [
        ("arm", 300.0, 150.0, 400.0, False),
        ("mesh", 95.0, 50.0, 160.0, True),
    ]


def test_a_lower_ceiling_shortens_the_arm_and_leaves_the_net() -> None:
    result = low_ceiling()
    assert result.missed == ()
    assert set(result.changes) == {"arm"}
    assert result.report.fits
    assert result.report.lowest.above_floor_mm is not None
    assert result.report.lowest.above_floor_mm >= -0.5
    # No shorter than it has to be.
    assert result.report.lowest.above_floor_mm < 15.0


def test_what_is_impossible_says_by_how_much_and_why() -> None:
    result = found(Asked(), hook=500.0)
    assert result.changes == {"arm": "15 cm"}
    (missed,) = result.missed
    assert f"{result.report.length_mm - 500.0:.0f} mm more than asked" in missed
    assert "'arm' is at its least, 15 cm" in missed


def test_cord_in_hand_is_enough_afterwards() -> None:
    before = net_cord()
    result = found(Asked(cord_mm=before - 1000.0))
    assert result.missed == ()
    assert result.report.cord_mm <= before - 1000.0


@cache
def net_cord() -> float:
    return cord_to_cut(work(parse_plan(net_text()), MadeUpFigures()))


def test_a_larger_pot_gets_a_net_that_it_goes_into() -> None:
    result = found(Asked(), rim=190.0, base=150.0, high=160.0, mesh=62.0, arm=350.0)
    assert result.missed == ()
    assert set(result.changes) == {"mesh"}
    mesh = float(result.changes["mesh"].removesuffix(" cm"))
    assert 6.2 < mesh <= 16.0
    assert result.report.fits


def test_the_new_plan_keeps_its_comments_and_gives_what_was_told() -> None:
    changes = {f"sizes.{k}": v for k, v in low_ceiling().changes.items()}
    text = edit_plan(net_text(hook=700.0), changes)
    assert "# the arm, with its bounds" in text
    plan = parse_plan(text)
    assert plan.sizes["arm"].value.text == low_ceiling().changes["arm"]
    assert plan.sizes["arm"].at_most is not None


@pytest.mark.parametrize("has", [True, False])
def test_another_hook_and_pot_are_written_into_the_plan(has: bool) -> None:
    text = net_text()
    if not has:
        start = text.index("hang:")
        text = text[:start] + text[text.index("work:") :]
    pot = {"rim": "18 cm", "base": "12 cm", "height": "16 cm", "weight": "1.2 kg"}
    plan = parse_plan(with_hang(text, "<text>", hook="2.4 m", clear="30 cm", pot=pot))
    assert plan.hang is not None
    assert plan.hang.holds is not None
    assert plan.hang.holds.pot is not None
    assert plan.hang.holds.pot.rim.text == "18 cm"
    assert plan.hang.hook is not None
    assert (plan.hang.hook.text, plan.hang.clear.text) == ("2.4 m", "30 cm")
    assert with_hang(text, "<text>") == text


REPEATED = (
    net_text(hook=2000.0)
    .replace("  mesh:", "  knots: {value: 4, at_least: 2, at_most: 9}\n  mesh:")
    .replace("  - {tie: square-knot, each: 4}\n", "  - {tie: square-knot, each: 4, times: knots}\n")
    .replace("arm: {value: 300.0000 mm, at_least: 150.0000 mm, at_most: 400.0000 mm}", "arm: 30 cm")
)


def test_counts_of_repeats_are_found_within_their_bounds() -> None:
    """Where only a number of knots is free above the net, it changes, and stays whole."""
    plan = parse_plan(REPEATED)
    free = {f.name: f for f in free_sizes(plan, work(plan, MadeUpFigures()))}
    assert (free["knots"].count, free["knots"].least, free["knots"].most) == (True, 2.0, 9.0)
    before = cord_to_cut(work(plan, MadeUpFigures()))
    result = refit(
        plan, MadeUpFigures(), Asked(cord_mm=before - 1000.0), lambda _what, _share: None
    )
    assert result.missed == ()
    assert set(result.changes) == {"knots"}
    assert int(result.changes["knots"]) in (2, 3)
    assert result.report.cord_mm <= before - 1000.0


def test_what_even_the_fewest_repeats_do_not_reach_is_told() -> None:
    plan = parse_plan(REPEATED)
    result = refit(plan, MadeUpFigures(), Asked(cord_mm=8_000.0), lambda _what, _share: None)
    (missed,) = result.missed
    over = result.report.cord_mm - 8_000.0
    assert result.changes == {"knots": "2"}
    assert f"{over:.0f} mm more than asked" in missed
    assert "'knots' is at its least, 2" in missed


def test_other_hands_are_reckoned_with() -> None:
    plan = parse_plan(REPEATED)
    hands = Hands({"main": Handling(height_factor=1.1, take_up_factor=1.6)})
    before = cord_to_cut(work(plan, MadeUpFigures(), handling=hands.handling))
    # More goes into the knots, and less spare is needed where hands are known.
    assert abs(before - cord_to_cut(work(plan, MadeUpFigures()))) > 50.0
    result = refit(
        plan, MadeUpFigures(), Asked(cord_mm=before + 1.0), lambda _what, _share: None, hands
    )
    assert result.changes == {}
    assert result.report.cord_mm == pytest.approx(before)
