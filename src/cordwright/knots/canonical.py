"""One name for each tight shape: specs that differ in nothing that matters share one."""

from __future__ import annotations

from dataclasses import replace

from cordwright.knots.places import exit_order, roles
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec

RATIO_DIGITS = 2
"""Diameters are told apart to a hundredth of the working cord's: closer than any cord is made."""


def canonical(spec: KnotSpec) -> KnotSpec:
    """The left-hand knot with the same tight shape, its unused parameters at their defaults.

    A lark's head in reverse is the same shape seen from behind.
    """
    name = spec.name
    thick = name in _WITH_FILLERS
    mount = name is KnotName.LARKS_HEAD
    return replace(
        spec,
        hand="left",
        turns=spec.turns if name is KnotName.GATHERING else 1,
        face="face",
        over=spec.over if mount else "none",
        over_d=round(spec.over_d, RATIO_DIGITS) if mount else 0.0,
        slant_deg=round(spec.slant_deg, 1) if name is KnotName.DOUBLE_HALF_HITCH else 0.0,
        filler_d=round(spec.filler_d, RATIO_DIGITS) if thick else 1.0,
    )


_WITH_FILLERS = frozenset(
    {
        KnotName.SQUARE_KNOT,
        KnotName.HALF_KNOT,
        KnotName.HALF_HITCH,
        KnotName.DOUBLE_HALF_HITCH,
        KnotName.GATHERING,
    }
)


def key(spec: KnotSpec) -> str:
    """Text that names a tight shape, as in ``square-knot n4`` or ``larks-head n2 rod 3``."""
    c = canonical(spec)
    parts = [c.name.value, f"n{c.strands}"]
    if c.name is KnotName.GATHERING:
        parts.append(f"t{c.turns}")
    if c.name is KnotName.LARKS_HEAD:
        parts += [c.over, f"{c.over_d:g}"]
    if c.slant_deg:
        parts.append(f"slant {c.slant_deg:g}")
    if c.filler_d != 1.0:
        parts.append(f"f{c.filler_d:g}")
    return " ".join(parts)


def as_asked(left: KnotFigures, spec: KnotSpec) -> KnotFigures:
    """Figures of the left-hand shape, for the hand that was asked for."""
    take_up, enter = left.take_up_d, left.enter_d
    in_line = spec.name not in {KnotName.DOUBLE_HALF_HITCH, KnotName.GATHERING}
    if spec.hand == "right" and in_line:
        take_up, enter = take_up[::-1], tuple(-x for x in enter[::-1])
    elif spec.hand == "right":
        enter = tuple(-x for x in enter)
    twist = -left.twist_deg if spec.hand == "right" else left.twist_deg
    return replace(
        left,
        spec=spec,
        roles=roles(spec),
        take_up_d=take_up,
        exit_order=exit_order(spec),
        twist_deg=twist,
        enter_d=enter,
    )
