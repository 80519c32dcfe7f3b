"""Cards beside the piece: in order, apart, and as near as can be to where they belong."""

from __future__ import annotations

import random
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.optimize import isotonic_regression

if TYPE_CHECKING:
    from tests.frontend.conftest import Run

SCRIPT = """
import { arranged, type Card } from "SRC/bench/layout";
declare const given: { cards: Card[]; room: number; gap: number }[];
tell(given.map(({ cards, room, gap }) => arranged(cards, room, gap)));
"""


def cases() -> list[dict[str, Any]]:
    chance = random.Random(3)  # noqa: S311 -- cases for a test
    found = []
    for _ in range(60):
        count = chance.randint(1, 7)
        wanted = sorted(chance.uniform(0, 700) for _ in range(count))
        cards = [{"wanted": w, "height": chance.uniform(30, 90)} for w in wanted]
        found.append({"cards": cards, "room": 700.0, "gap": 8.0})
    return found


def test_cards_keep_apart_and_inside(run: Run) -> None:
    given = cases()
    for case, tops in zip(given, run(SCRIPT, given), strict=True):
        cards = case["cards"]
        assert tops[0] >= -1e-9
        assert tops[-1] + cards[-1]["height"] <= case["room"] + 1e-6
        for (a, top), below in zip(zip(cards, tops, strict=True), tops[1:], strict=False):
            assert below >= top + a["height"] + case["gap"] - 1e-6


def test_cards_that_have_room_are_moved_as_little_as_can_be(run: Run) -> None:
    """Against a general solver for least squares under the same constraints."""
    given = cases()
    for case in given:
        # Far from both ends, so that only the cards themselves are in each other's way.
        for card in case["cards"]:
            card["wanted"] += 5000.0
        case["room"] = 20000.0
    for case, tops in zip(given, run(SCRIPT, given), strict=True):
        heights = np.array([c["height"] for c in case["cards"]])
        best = np.array([c["wanted"] for c in case["cards"]]) - heights / 2
        # Cards less what stands above them must not decrease: isotonic regression.
        above = np.concatenate([[0.0], np.cumsum(heights + case["gap"])[:-1]])
        found = isotonic_regression(best - above).x + above
        assert np.allclose(tops, found, atol=1e-6)


def test_more_cards_than_room_hold_their_order(run: Run) -> None:
    cards = [{"wanted": 10.0, "height": 100.0}] * 9
    (tops,) = run(SCRIPT, [{"cards": cards, "room": 300.0, "gap": 8.0}])
    assert tops == [108.0 * i for i in range(9)]
