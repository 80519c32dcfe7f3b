"""A small planter whose every length is a named size or a number of millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.hang.fit import fit_report
from cordwright.piece.work import work
from cordwright.plan.hung import hung
from cordwright.plan.read import parse_plan
from cordwright.plan.sizes import resolve_sizes
from tests.piece.conftest import MadeUpFigures

if TYPE_CHECKING:
    from cordwright.hang.fitanswer import FitReport
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Plan

NET = """\
cordwright: 1
title: Trial cradle
cords:
  main: {{fibre: cotton, diameter: {d} mm}}
sizes:
  # the arm, with its bounds
  arm: {{value: {arm} mm, at_least: {arm_least} mm, at_most: {arm_most} mm}}
  mesh: {{value: {mesh} mm, at_least: {mesh_least} mm, at_most: {mesh_most} mm}}
tail: {tail} mm
mount:
  ring: {{inside: {ring} mm, wire: {d} mm}}
  cords: [{{cord: main, count: 6}}]
hang:
  hook: {hook} mm
  holds:
    pot: {{rim: {rim} mm, base: {base} mm, height: {high} mm, weight: 800 g, filled: 30 ml}}
work:
  - {{free: arm}}
  - {{tie: square-knot, each: 4}}
  - {{join: round}}
  - {{tie: square-knot, each: 4, skip: 2, free: mesh}}
  - {{tie: square-knot, each: 4, free: mesh}}
  - {{free: mesh}}
  - {{gather: all, turns: 4, with: {{cord: main}}}}
"""
SIZES = {
    "d": 4.0,
    "arm": 300.0,
    "arm_least": 150.0,
    "arm_most": 400.0,
    "mesh": 95.0,
    "mesh_least": 50.0,
    "mesh_most": 160.0,
    "tail": 100.0,
    "ring": 40.0,
    "hook": 2000.0,
    "rim": 130.0,
    "base": 95.0,
    "high": 115.0,
}


def net_text(scale: float = 1.0, **other: float) -> str:
    """The plan's text, with other lengths in mm, all of them times ``scale``."""
    lengths = {**SIZES, **other}
    return NET.format(**{k: f"{scale * v:.4f}" for k, v in lengths.items()})


def net(scale: float = 1.0, **other: float) -> tuple[Plan, Piece, FitReport]:
    """The plan, the piece and how it fits."""
    plan = parse_plan(net_text(scale, **other))
    piece, sizes = work(plan, MadeUpFigures()), resolve_sizes(plan)
    assert plan.hang is not None
    return plan, piece, fit_report(piece, hung(plan.hang, sizes), sizes)
