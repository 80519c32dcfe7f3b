from __future__ import annotations

from cordwright.plan.freesizes import FreeSize, free_sizes
from cordwright.plan.read import parse_plan

TEXT = """\
cordwright: 1
title: Trial
cords: {main: {fibre: cotton, diameter: 4 mm}}
sizes:
  arm: {value: 40 cm, at_least: 20 cm, at_most: 1.5 * fixed}
  rows: {value: 10, at_least: 4}
  fixed: 40 cm
  twice: {value: 2 * fixed, at_most: 2 m}
mount: {rod: {length: 20 cm, thick: 12 mm}, cords: [{cord: main, count: 4}]}
work:
  - {free: arm}
  - {tie: square-knot, each: 4, times: rows}
"""


def test_sizes_with_bounds_are_free_unless_others_give_them() -> None:
    assert free_sizes(parse_plan(TEXT)) == (
        FreeSize("arm", 400.0, 200.0, 600.0, count=False),
        FreeSize("rows", 10.0, 4.0, None, count=True),
    )


def test_a_plan_without_sizes_has_none_free() -> None:
    plain = TEXT[: TEXT.index("sizes:")] + TEXT[TEXT.index("mount:") :]
    plain = plain.replace("arm}", "4 cm}").replace("times: rows", "times: 3")
    assert free_sizes(parse_plan(plain)) == ()
