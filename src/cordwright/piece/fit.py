"""Tight knots in the piece's own cords: figures in diameters become lengths."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, NamedTuple

from cordwright.knots.spec import Role
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.cords.handling import Handling
    from cordwright.knots.spec import KnotFigures


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
            Where the working cords' handling differs, its mean is used.
    """
    d = mean_diameter(cords)
    higher, longer = _factors(cords, handling)
    height_d = figures.height_d * higher
    height = d * height_d
    exits = figures.exit_order
    return Fit(
        figures,
        d,
        height,
        height.at(values),
        d * figures.width_d,
        tuple(d * k for k in _take_ups(figures, higher, longer)),
        figures.roles,
        None if exits == tuple(range(len(exits))) else exits,
    )


def _factors(cords: Sequence[str], handling: Mapping[str, Handling]) -> tuple[float, float]:
    """Mean factors of the working cords on height and on take-up."""
    known = [handling[c] for c in cords if c in handling]
    ideal = len(cords) - len(known)
    higher = sum(h.height_factor for h in known) + ideal
    longer = sum(h.take_up_factor for h in known) + ideal
    return higher / len(cords), longer / len(cords)


def _take_ups(figures: KnotFigures, higher: float, longer: float) -> list[float]:
    """Take-ups by place in d, handled.

    A filler runs straight down: it follows the knot's height, and only what it uses beyond that is
    scaled as take-up.
    """
    return [
        figures.height_d * higher + (take - figures.height_d) * longer
        if role is Role.FILLER
        else take * longer
        for take, role in zip(figures.take_up_d, figures.roles, strict=True)
    ]
