"""The knots of the atlas, by the names that they have in addresses, and their figures."""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches
from functools import cache
from statistics import fmean
from typing import TYPE_CHECKING, Final

from cordwright.bench.models_knots import Knot, KnotFamily, KnotLength, Knots, TakeUp
from cordwright.draw.caption import title
from cordwright.draw.wording import ENGLISH, Wording, english
from cordwright.errors import KnotError
from cordwright.knots.canonical import key
from cordwright.knots.shipped import SHIPPED
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import Hand, KnotFigures

K = KnotName
FAMILIES: Final[tuple[tuple[KnotSpec, str, str], ...]] = (
    (KnotSpec(K.SQUARE_KNOT, 4), "Square knots", "Two working cords round fillers; lies flat."),
    (KnotSpec(K.HALF_KNOT, 4), "Half knots", "Half of a square knot, again and again; it turns."),
    (KnotSpec(K.HALF_HITCH, 4), "Half hitches", "One working cord round the others; it turns."),
    (
        KnotSpec(K.DOUBLE_HALF_HITCH, 2),
        "Double half hitches",
        "Two loops on a holding cord; rows of them make lines.",
    ),
    (
        KnotSpec(K.LARKS_HEAD, 2, over="ring", over_d=1.5),
        "Lark's heads",
        "A folded cord on a ring or rod; how most pieces begin.",
    ),
    (KnotSpec(K.OVERHAND, 2), "Overhand knots", "All strands of a group in one knot."),
    (
        KnotSpec(K.GATHERING, 5, turns=4),
        "Gathering knots",
        "A cord wrapped round all strands, its ends drawn in.",
    ),
    (KnotSpec(K.BRAID, 3), "Braids", "Strands plaited with one another."),
)
"""For every kind of knot the one that stands for it, what they are called, what sets them apart."""


def name_of(spec: KnotSpec) -> str:
    """A knot's name in addresses; both hands share it.

    >>> name_of(KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=3.0))
    'larks-head-n2-rod-3'
    """
    return key(spec).replace(" ", "-")


@cache
def _named() -> dict[str, KnotSpec]:
    usual = {spec.name.value: spec for spec, _, _ in FAMILIES}
    return {name_of(spec): spec for spec in SHIPPED} | usual


def spec_named(name: str, hand: Hand) -> KnotSpec:
    """The knot with a name; a kind of knot means the one that stands for it.

    Raises:
        NoSuchKnotError: there is none.
    """
    spec = _named().get(name)
    if spec is None:
        near = get_close_matches(name, _named(), 1)
        raise NoSuchKnotError(
            f"The atlas has no knot '{name}'.", remedy=f"did you mean {near[0]}?" if near else ""
        )
    return replace(spec, hand=hand)


class NoSuchKnotError(KnotError):
    """The atlas has no knot of that name."""


def knots(atlas: Atlas, cord_mm: float) -> Knots:
    """All shapes that the atlas comes with, by kind."""
    families = [
        KnotFamily(
            name=usual.name.value,
            title=called,
            about=about,
            usual=name_of(usual),
            knots=[knot(atlas, s, cord_mm) for s in SHIPPED if s.name is usual.name],
        )
        for usual, called, about in FAMILIES
    ]
    return Knots(cord_mm=cord_mm, families=families)


def knot(atlas: Atlas, spec: KnotSpec, cord_mm: float) -> Knot:
    """One shape, with its lengths for a cord of some thickness too."""
    figures = atlas.figures(spec)

    def length(d: float) -> KnotLength:
        return KnotLength(d=round(d, 3), mm=round(d * cord_mm, 2))

    return Knot(
        name=name_of(spec),
        family=spec.name.value,
        title=title(spec, _without_hand()),
        hand=spec.hand,
        strands=spec.strands,
        height=length(figures.height_d),
        width=length(figures.width_d),
        depth=length(figures.depth_d),
        twist_deg=round(figures.twist_deg, 1),
        take_up=[
            TakeUp(role=role, strands=len(used), each=length(fmean(used)))
            for role, used in _by_role(figures)
        ],
    )


def _by_role(figures: KnotFigures) -> list[tuple[object, list[float]]]:
    roles = dict.fromkeys(figures.roles)
    pairs = list(zip(figures.roles, figures.take_up_d, strict=True))
    return [(role, [d for r, d in pairs if r is role]) for role in roles]


@cache
def _without_hand() -> Wording:
    """English that says nothing of hands: they are chosen apart from the knot."""

    def say(name: str, /, **values: str | int) -> str:
        one = f"{name}-one"
        words = ENGLISH[one] if values.get("n") == 1 and one in ENGLISH else ENGLISH[name]
        for hand in (", {hand} hand", ", to the {hand}"):
            words = words.replace(hand, "")
        return words.format(**values)

    plain = english()
    return Wording(say, plain.length, plain.number)
