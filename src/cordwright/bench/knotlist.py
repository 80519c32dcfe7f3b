"""The knots of the atlas, by the names that they have in addresses, and their figures."""

from __future__ import annotations

import re
from dataclasses import replace
from difflib import get_close_matches
from functools import cache, lru_cache
from statistics import fmean
from typing import TYPE_CHECKING, Final, Literal, cast

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


_NUMBER = r"\d{1,3}(?:\.\d{1,2})?"
_NAME: Final = re.compile(
    rf"(?P<knot>[a-z-]+)-n(?P<strands>\d{{1,2}})(?:-t(?P<turns>\d{{1,2}}))?"
    rf"(?:-(?P<over>ring|rod|none)-(?P<over_d>{_NUMBER}))?"
    rf"(?:-slant-(?P<slant>{_NUMBER}))?(?:-f(?P<filler>{_NUMBER}))?"
)
"""What a name in addresses is made of."""


@lru_cache(4096)
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


def shipped(name: str) -> bool:
    """Whether the atlas comes with the knot of a name; others have to be tightened first."""
    return name in _named()


def spec_named(name: str, hand: Hand) -> KnotSpec:
    """The knot with a name; a kind of knot means the one that stands for it.

    Raises:
        NoSuchKnotError: no knot has such a name.
    """
    spec = _named().get(name) or _other(name)
    if spec is None:
        near = get_close_matches(name, _named(), 1)
        raise NoSuchKnotError(
            f"The atlas has no knot '{name}'.", remedy=f"did you mean {near[0]}?" if near else ""
        )
    return replace(spec, hand=hand)


def _other(name: str) -> KnotSpec | None:
    """A shape that the atlas does not come with, from its name.

    >>> _other("gathering-n6-t5-f1.5")
    KnotSpec(name=<KnotName.GATHERING: 'gathering'>, strands=6, turns=5, hand='left', \
face='face', over='none', over_d=0.0, slant_deg=0.0, filler_d=1.5)
    """
    found = _NAME.fullmatch(name)
    if found is None or found["knot"] not in {k.value for k in KnotName}:
        return None
    spec = KnotSpec(
        KnotName(found["knot"]),
        int(found["strands"]),
        turns=int(found["turns"] or 1),
        over=cast("Literal['ring', 'rod', 'none']", found["over"] or "none"),
        over_d=float(found["over_d"] or 0.0),
        slant_deg=float(found["slant"] or 0.0),
        filler_d=float(found["filler"] or 1.0),
    )
    return spec if name_of(spec) == name else None


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
