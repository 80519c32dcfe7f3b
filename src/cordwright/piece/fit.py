"""Tight knots in the piece's own cords: figures in diameters become lengths."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.knots.spec import KnotFigures, Role


class Fit(NamedTuple):
    """One tight knot in given working cords.

    Args:
        figures: the ideal cord's knot.
        d: the working diameter; the mean where the working cords differ.
        height: how far the knot reaches down.
        height_mm: its value.
        width: how far it reaches across.
        take_ups: cord used, by place.
        roles: by place.
        exits: place at the bottom by place at the top; None if nobody changes place.
    """

    figures: KnotFigures
    d: Form
    height: Form
    height_mm: float
    width: Form
    take_ups: tuple[Form, ...]
    roles: tuple[Role, ...]
    exits: tuple[int, ...] | None


def mean_diameter(cords: Sequence[str]) -> Form:
    """The mean of cords' diameters.

    >>> mean_diameter(["main", "fine"]).terms
    {'d:main': 0.5, 'd:fine': 0.5}
    """
    terms: dict[str, float] = {}
    for cord in cords:
        terms[f"d:{cord}"] = terms.get(f"d:{cord}", 0.0) + 1.0 / len(cords)
    return Form(0.0, terms)


def fit(
    figures: KnotFigures,
    cords: Sequence[str],
    values: Mapping[str, float],
    handling: Mapping[str, Handling],
) -> Fit:
    """A tight knot in given working cords.

    Args:
        figures: the ideal cord's knot.
        cords: the plan's names of the working cords, one or more.
        values: value in mm of every symbol.
        handling: by name, how knots in that cord differ; cords without an entry are ideal.
    """
    d = mean_diameter(cords)
    known = [handling[c] for c in cords if c in handling]
    ideal = len(cords) - len(known)
    higher = (sum(h.height for h in known) + ideal) / len(cords)
    longer = (sum(h.take_up for h in known) + ideal) / len(cords)
    height = d * (figures.height_d * higher)
    exits = figures.exit_order
    return Fit(
        figures,
        d,
        height,
        height.at(values),
        d * figures.width_d,
        tuple(d * (t * longer) for t in figures.take_up_d),
        figures.roles,
        None if exits == tuple(range(len(exits))) else exits,
    )
