"""``cordwright knots``."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import astuple, dataclass, replace
from difflib import get_close_matches
from statistics import fmean
from typing import TYPE_CHECKING, Any, cast

from cordwright.cli import atlas_access
from cordwright.cli.describe import describe
from cordwright.cli.show import Column, Screen, show_json
from cordwright.errors import KnotError

if TYPE_CHECKING:
    from cordwright.knots.spec import Hand, KnotFigures, KnotName, KnotSpec

COLUMNS = (
    Column("knot"),
    Column("height", "right"),
    Column("width", "right"),
    Column("depth", "right"),
    Column("working", "right"),
    Column("filler", "right"),
    Column("holding", "right"),
    Column("overlap", "right"),
)


@dataclass(frozen=True, slots=True)
class Asked:
    """Which knots are asked for; None leaves open.

    Args:
        name: name of the knot.
        fillers: strands that it runs round.
        strands: strands that take part in all.
        turns: turns of a gathering knot.
        hand: left or right.
    """

    name: str | None = None
    fillers: int | None = None
    strands: int | None = None
    turns: int | None = None
    hand: str | None = None


def show_knots(asked: Asked, as_json: bool) -> None:
    """Show the knots of the atlas that fit; tighten the one that is asked for if none does.

    Raises:
        KnotError: no knot has that name, or it cannot be tied so.
    """
    specs = asked_for(asked)
    with atlas_access.figures_source() as source:
        found = [source.figures(spec) for spec in specs]
    if as_json:
        show_json([entry(figures) for figures in found])
    else:
        _show(found)


def asked_for(asked: Asked) -> list[KnotSpec]:
    """The knots of the atlas that fit, or else the one that is named.

    Raises:
        KnotError: no knot has that name, or it cannot be tied so.
    """
    known = atlas_access.entries()
    name = _name(asked.name) if asked.name is not None else None
    specs = sorted((f.spec for f in known if _fits(f.spec, asked, name)), key=astuple)
    if not specs:
        if name is None:
            raise KnotError(
                "The atlas has no such knot.", remedy="name the knot, and it is tightened now"
            )
        specs = [_spec(known, name, asked)]
    if asked.hand is not None:  # each shape of the atlas stands for its mirror image too
        hand = cast("Hand", asked.hand)
        specs = list(dict.fromkeys(replace(spec, hand=hand) for spec in specs))
    return specs


def regenerate_atlas() -> None:
    """Tighten every knot of the atlas again, and say where the data is."""
    path = atlas_access.regenerate()
    Screen().line(f"Wrote {path}.")


def entry(figures: KnotFigures) -> dict[str, Any]:
    """One knot for programs; docs/commands.md says what each field means."""
    spec = figures.spec
    return {
        "name": spec.name.value,
        "strands": spec.strands,
        "fillers": spec.fillers,
        "turns": spec.turns,
        "hand": spec.hand,
        "face": spec.face,
        "over": spec.over,
        "over_d": spec.over_d,
        "slant_deg": spec.slant_deg,
        "filler_d": spec.filler_d,
        "height_d": figures.height_d,
        "width_d": figures.width_d,
        "depth_d": figures.depth_d,
        "take_up_d": take_up_by_role(figures),
        "roles": [role.value for role in figures.roles],
        "take_up_by_place_d": list(figures.take_up_d),
        "exit_order": list(figures.exit_order),
        "twist_deg": figures.twist_deg,
        "overlap_d": figures.overlap_d,
        "mesh_error_d": figures.mesh_error_d,
    }


def take_up_by_role(figures: KnotFigures) -> dict[str, float]:
    """What each strand in a role uses, on the mean, in d."""
    by_role: dict[str, list[float]] = {}
    for role, take_up in zip(figures.roles, figures.take_up_d, strict=True):
        by_role.setdefault(role.value, []).append(take_up)
    return {role: fmean(take_ups) for role, take_ups in by_role.items()}


def _show(found: Sequence[KnotFigures]) -> None:
    screen = Screen()
    screen.line(
        "Tight round cord, in diameters d of the working cord: height down the strands, width "
        "across, depth front to back, and the cord that each strand uses in its role."
    )
    screen.table(COLUMNS, [_row(figures) for figures in found])


def _row(figures: KnotFigures) -> list[str]:
    used = take_up_by_role(figures)
    return [
        describe(figures.spec),
        *(f"{d:.2f}" for d in (figures.height_d, figures.width_d, figures.depth_d)),
        *(f"{used[r]:.2f}" if r in used else "" for r in ("working", "filler", "holding")),
        f"{figures.overlap_d:.4f}",
    ]


def _name(text: str) -> KnotName:
    from cordwright.knots.spec import KnotName

    names = [name.value for name in KnotName]
    if text in names:
        return KnotName(text)
    near = get_close_matches(text.lower(), names, 1, 0.4)
    raise KnotError(
        f"No knot is called '{text}'.",
        remedy=f"did you mean {near[0]}?" if near else f"there are {', '.join(names)}",
    )


def _fits(spec: KnotSpec, asked: Asked, name: KnotName | None) -> bool:
    wanted = (
        (name, spec.name),
        (asked.fillers, spec.fillers),
        (asked.strands, spec.strands),
        (asked.turns, spec.turns),
    )
    return all(want is None or want == has for want, has in wanted)


def _spec(known: Sequence[KnotFigures], name: KnotName, asked: Asked) -> KnotSpec:
    """The knot that is asked for, of either hand, otherwise like the atlas's first of that name."""
    like = next((f.spec for f in known if f.spec.name is name), None)
    if like is None:
        raise KnotError(f"The atlas has no {name.value}.", remedy="regenerate it")
    spec = like
    if asked.fillers is not None:
        spec = replace(spec, strands=like.strands - like.fillers + asked.fillers)
    if asked.strands is not None:
        spec = replace(spec, strands=asked.strands)
    if asked.turns is not None:
        spec = replace(spec, turns=asked.turns)
    if not _fits(spec, asked, name):
        raise KnotError(
            f"A {name.value} of {spec.strands} strands has {spec.fillers} fillers.",
            remedy="give --strands or --fillers, not both",
        )
    return spec
