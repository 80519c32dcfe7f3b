"""The page of published figures shows what the atlas says now."""

from __future__ import annotations

from cordwright.knots.atlas import Atlas
from tools.published import PAGE, filled, rows


def test_page_is_up_to_date() -> None:
    page = PAGE.read_text(encoding="utf-8")
    assert filled(page, Atlas()) == page


def test_computed_figures_lie_near_the_published_ones() -> None:
    # Real cord differs from ideal cord by up to a half either way; a factor of two is a mistake.
    for row in rows(Atlas()):
        assert 0.6 * row.low < row.computed < 1.5 * row.high, row.what
