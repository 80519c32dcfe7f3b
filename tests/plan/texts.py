"""Short plans that tests bend."""

from __future__ import annotations

SMALL = """\
cordwright: 1  # the format
title: Fern cradle
cords:
  main: {fibre: cotton, build: single twist, diameter: 4 mm, colour: sand}
  fine: {fibre: cotton, diameter: 2 mm}
sizes:
  arm: 35 cm  # from ring to basket
  rows: 6
  half_arm: arm / 2
  drop: {value: 20 cm, at_least: 10 cm, at_most: 40 cm}
tail: 10 cm
mount:
  ring: {inside: 50 mm, wire: 6 mm}
  cords:
    - {cord: main, count: 8}
motifs:
  diamond:
    takes: {n: 8, gap: 0 cm}
    work:
      - {rows: n / 2, tie: square-knot, each: 4, gap: gap}
work:
  - {tie: square-knot, each: 4, times: rows}
  - {motif: diamond, on: 1-8, with: {n: 6}}
  - {fringe: half_arm}
"""

EVERY_STEP = """\
cordwright: 1
title: Every step
cords: {main: {fibre: jute, diameter: 1/8 in}}
sizes: {n: 4, long: 1 ft}
mount: {nothing: , cords: [{cord: main, count: 8, fold: none, tail: 3 cm}]}
motifs: {dot: {work: [{tie: overhand, note: one dot}]}}
work:
  - {tie: half-hitch, on: [1, 2, 7-8], each: 2, workers: last, hand: alternate}
  - {tie: square-knot, each: 4, workers: [1, 4]}
  - {rows: n, tie: half-knot, each: 4, shift: 2, shrink: 2}
  - {free: long / 2}
  - {hitch: right, on: 1 to n, slant: 30, rows: 2, free: 1 cm}
  - {hitch: left, cord: main, tail: 5 cm, slant: steep}
  - {pass: 1-2, in_front_of: 3-4}
  - {pass: 1-2, behind: 3-4}
  - {reorder: [2, 1, 4, 3], each: 4}
  - {join: round}
  - {seam: 3}
  - {open: flat, seam: 2}
  - {braid: 4, length: 10 cm}
  - {braid: 3, on: 1-3, times: 8}
  - {gather: all, turns: 8, with: {cord: main}}
  - {gather: 1-4, height: 3 cm, with: 1}
  - {add: 2, cord: main, after: end}
  - {leave: 1-2, tail: 4 cm}
  - {motif: dot}
  - {repeat: 3, counter: i, work: [{free: i * 1 cm, on: i to end}]}
  - {section: Foot, work: [{tie: overhand}]}
  - {fringe: 20 cm, trim: slant, to: left, rise: 8 cm}
"""


def bent(old: str, new: str, text: str = SMALL) -> str:
    """The plan with one part changed; it must be there."""
    assert old in text
    return text.replace(old, new, 1)
