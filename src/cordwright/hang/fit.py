"""How a piece fits what it holds: where everything comes, whether it sits, and why not.

Heights count from the hook: the inner edge of an upright ring at its top, a level ring, the upper
edge of a rod or of a holding cord. The tilt is an estimate: in the solved shape what is held stands
upright.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from cordwright.errors import WorkError
from cordwright.hang import fitanswer as answer
from cordwright.hang.counted import as_worked, counted
from cordwright.hang.gaps import TOUCH, largest_gap, support_height, under_base
from cordwright.hang.holding import (
    foot_across,
    girth,
    held_of,
    level_girth,
    middle_of_mass,
    slimmest,
    words,
)
from cordwright.hang.mounts import lies_level
from cordwright.hang.mouth import Ways, ways_in
from cordwright.hang.shape import check_mount
from cordwright.hang.sitting import Sitting, left, pushed, sit
from cordwright.hang.strength import knot_words
from cordwright.hang.weighing import held_load
from cordwright.piece.cutlist import cut_list
from cordwright.piece.lengths import finished_length
from cordwright.plan.model import RingMount
from cordwright.plan.sums import length
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.hang.shape import Shape
    from cordwright.hang.sitting import Stretched
    from cordwright.piece.model import Piece
    from cordwright.piece.risk import Known
    from cordwright.plan.hung import Body, Hung
    from cordwright.plan.sizes import Sizes

PUSH = 0.1
"""Push aside against the weight of what is held: about what a cat or an elbow does (a stated
choice, no published figure)."""

UNSTEADY = 0.05
"""Force out of balance, against all weight, from which on what is pushed is still on its way."""

MOST_SHORT = 8


def body_of(piece: Piece, told: Hung | None) -> Body:
    """What a piece holds.

    Raises:
        WorkError: it hangs from nothing, holds nothing, or is flat.
    """
    plan = piece.plan
    check_mount(piece)
    if told is None or told.holds is None:
        raise WorkError(
            "The plan does not say what the piece holds.",
            remedy="add hang: {holds: {pot: ...}} to the plan, or give --pot",
            place=plan.where,
        )
    if not any(k.shape == "round" for k in piece.knots):
        raise WorkError(
            "The piece is flat: nothing can stand in it.",
            remedy="close it with join: round, and gather it below what it holds",
            place=plan.where,
        )
    return told.holds


def fit_json(piece: Piece, told: Hung | None, sizes: Sizes) -> dict[str, Any]:
    """The account as JSON values; `fit_schema` describes them."""
    return fit_report(piece, told, sizes).model_dump(mode="json")


def fit_schema() -> dict[str, Any]:
    """JSON Schema of `fit_json`, with the meaning and unit of every field."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **answer.FitReport.model_json_schema(mode="serialization"),
    }


def fit_report(
    piece: Piece,
    told: Hung | None,
    sizes: Sizes,
    sitting: Sitting | None = None,
    known: Known | None = None,
) -> answer.FitReport:
    """How a piece fits what it holds.

    Args:
        piece: the worked piece.
        told: what the plan says of hanging, as `cordwright.plan.hung.hung` gives it.
        sizes: the sizes that it was worked with.
        sitting: how it sits, if that is known.
        known: what the maker's swatches tell, which makes for less spare cord.

    Raises:
        WorkError: it hangs from nothing, holds nothing, or is flat.
    """
    body = body_of(piece, told)
    assert told is not None  # noqa: S101 - body_of says so
    held = held_of(body)
    sitting = sitting or sit(piece, held)
    shape, above = sitting.shape, holder_height(piece, sizes)
    base = float(shape.x[shape.vessel_node, 2])
    gap = largest_gap(shape)
    push = _push(shape, body, held.weight, above) if sitting.holds else None
    lowest, under = lowest_end(shape), under_base(shape)
    report = answer.FitReport(
        format=1,
        title=piece.plan.title,
        holds=words(body),
        fits=False,
        troubles=[],
        remarks=[],
        weight_g=held_load(body).g,
        base=_height(base, above, told),
        rim=_height(base + held.vessel.height, above, told),
        lowest=_height(lowest, above, told),
        hook_mm=told.hook_mm,
        clear_mm=told.clear_mm,
        length_mm=above - lowest,
        added_up_mm=above + piece.mm(finished_length(piece)),
        cord_mm=cord_to_cut(piece, known),
        strain=sitting.strain,
        residual=shape.settled.residual,
        under_mm=under if math.isfinite(under) else None,
        push=push,
        gap=answer.GapReport(
            across_mm=gap.across_mm,
            up_mm=gap.up_mm,
            passes_mm=slimmest(body),
            slips_mm=foot_across(body),
        ),
        way=_way(ways_in(shape), body),
        short=_short(sitting, sizes),
        lengthen=[],
        refit=None,
    )
    troubles = list(_troubles(report, sitting))
    return report.model_copy(
        update={"troubles": troubles, "fits": not troubles, "remarks": list(_remarks(report))}
    )


def _troubles(report: answer.FitReport, sitting: Sitting) -> Iterator[answer.TroubleReport]:
    what = report.holds
    gap = report.gap
    ways = list(_ways(what, report.way))
    yield from ways
    if sitting.fallen and ways:
        return  # it was never in
    if sitting.fallen:
        yield answer.TroubleReport(
            kind="falls through",
            what=f"The {what} falls through the net.",
            remedy="make the net's free cord shorter, or use more strands",
        )
        return
    if sitting.tight:
        yield answer.TroubleReport(
            kind="too tight",
            what=f"The net is too tight for the {what}: {_tightest(report)}.",
            remedy=f"lengthen {_named(report)}, or take a smaller {what}",
        )
    elif not sitting.still:
        yield answer.TroubleReport(
            kind="not at rest",
            what=(
                f"The shape did not come to rest: {100 * report.residual:.2g} % of the weight is "
                "out of balance at one place."
            ),
            remedy=f"the net is far too large for the {what}, or leaves it no rest: change its "
            "free cord",
        )
    if gap.across_mm >= gap.passes_mm:
        yield answer.TroubleReport(
            kind="gap",
            what=(
                f"An opening {gap.across_mm:.0f} mm across lets the {what} through, which needs "
                f"{gap.passes_mm:.0f} mm."
            ),
            remedy="make the net's free cord shorter, or use more strands",
        )
    yield from _standing(report)
    yield from _low(report)


def _standing(report: answer.FitReport) -> Iterator[answer.TroubleReport]:
    what, push = report.holds, report.push
    if push is None:
        return
    if what in ("pot", "box") and (report.under_mm is None or report.under_mm > TOUCH):
        free = "" if report.under_mm is None else f": {report.under_mm:.0f} mm are free below it"
        yield answer.TroubleReport(
            kind="not down",
            what=f"The {what} does not come down to the cords that meet under it{free}.",
            remedy=f"lengthen the net's free cord, or take a smaller {what}",
        )
    if not push.held:
        yield answer.TroubleReport(
            kind="comes out",
            what=(
                f"Pushed aside by a tenth of its weight ({push.push_n:.1f} N), the {what} leaves "
                "the net."
            ),
            remedy=f"make the net's free cord shorter, or take a larger {what}",
        )
    elif push.support_mm < push.middle_of_mass_mm:
        yield answer.TroubleReport(
            kind="tips",
            what=(
                f"The {what} may tip over: cord touches it no higher than {push.support_mm:.0f} mm "
                f"above its base, and its mass lies at {push.middle_of_mass_mm:.0f} mm."
            ),
            remedy="lengthen the free cord below the net's lowest round, so that it reaches higher",
        )


def _ways(what: str, way: answer.WayReport | None) -> Iterator[answer.TroubleReport]:
    if way is None:
        return
    if way.mouth_mm < way.round_mm:
        yield answer.TroubleReport(
            kind="cannot go in",
            what=(
                f"The {what} cannot go in: it is {way.round_mm:.0f} mm round, and the net's "
                f"uppermost round opens to {way.mouth_mm:.0f} mm."
            ),
            remedy=f"lengthen the net's free cord: {way.round_mm - way.mouth_mm:.0f} mm more in "
            "all round it",
        )
    elif way.between_mm is not None and way.between_mm < way.girth_mm:
        yield answer.TroubleReport(
            kind="cannot go in",
            what=(
                f"The {what} cannot go in between the arms: that takes a loop of "
                f"{way.girth_mm:.0f} mm, and the longest is {way.between_mm:.0f} mm."
            ),
            remedy=f"lengthen the arms by {(way.girth_mm - way.between_mm) / 2:.0f} mm",
        )


def _low(report: answer.FitReport) -> Iterator[answer.TroubleReport]:
    over = report.lowest.above_floor_mm
    if over is not None and over < report.clear_mm - 0.5:
        asked = f"{report.clear_mm:.0f} mm" if report.clear_mm else "the floor"
        yield answer.TroubleReport(
            kind="too low",
            what=(
                f"It hangs too low: its lowest end comes {_floor(over)}, {asked} "
                f"{'is asked' if report.clear_mm else 'being its end'}."
            ),
            remedy=f"shorten it by {report.clear_mm - over:.0f} mm, or hang it higher",
        )


def _floor(mm: float) -> str:
    return f"{mm:.0f} mm above the floor" if mm >= 0.0 else f"{-mm:.0f} mm below the floor"


def _remarks(report: answer.FitReport) -> Iterator[str]:
    gap = report.gap
    if gap.slips_mm <= gap.across_mm < gap.passes_mm:
        yield (
            f"The largest opening, {gap.across_mm:.0f} mm across, is wider than the narrow end of "
            f"the {report.holds} ({gap.slips_mm:.0f} mm): it may slip out to the side when "
            "knocked."
        )
    if report.push is not None:
        yield (
            "The tilt is an estimate: in the solved shape what is held stands upright, and there "
            "is no friction."
        )


def _tightest(report: answer.FitReport) -> str:
    if not report.short:
        return f"one strand would pull {report.strain:.1f} times all that hangs"
    worst = report.short[0]
    where = f"in {worst.section} " if worst.section else ""
    return (
        f"{where}the {worst.length_mm:.0f} mm of free cord above the {worst.above} is at least "
        f"{worst.stretched_mm:.1f} mm too short"
    )


def _named(report: answer.FitReport) -> str:
    names = list(dict.fromkeys(name for s in report.short for name in s.sizes))
    return " or ".join(f"'{name}'" for name in names[:3]) or "the free cord of the net"


def _short(sitting: Sitting, sizes: Sizes) -> list[answer.ShortReport]:
    """The worst places, those of one row and section together."""
    piece = sitting.shape.piece
    groups: dict[tuple[object, ...], list[Stretched]] = {}
    for s in sitting.stretched:
        knot = piece.knots[piece.strands[s.strand].course[s.stop].knot]
        groups.setdefault((knot.step, knot.section, knot.row, knot.number), []).append(s)
    found = []
    for group in list(groups.values())[:MOST_SHORT]:
        worst = group[0]
        stop = piece.strands[worst.strand].course[worst.stop]
        knot = piece.knots[stop.knot]
        found.append(
            answer.ShortReport(
                section=" / ".join(knot.section),
                above=knot_words(knot.spec.name),
                sizes=_sizes_of(piece, stop.free.terms, sizes),
                strands=[piece.name(s.strand) for s in group],
                length_mm=max(piece.mm(stop.free), 0.0),
                stretched_mm=worst.mm,
                pull_n=worst.pull,
            )
        )
    return found


def _sizes_of(piece: Piece, terms: Mapping[str, float], sizes: Sizes) -> list[str]:
    """Named sizes that a length is made of: itself, if it has a name, then those in its sum."""
    bases = [s.removeprefix("s:") for s, k in terms.items() if k and s.startswith("s:")]
    same = [
        name
        for name, amount in sizes.env.items()
        if isinstance(amount, Form)
        and amount.terms
        and math.isclose(piece.mm(amount), piece.mm(Form(0.0, terms)), abs_tol=1e-6)
        and set(amount.terms) == {s for s, k in terms.items() if k}
    ]
    return list(dict.fromkeys([*same, *bases]))


def _height(z: float, above: float, told: Hung) -> answer.HeightReport:
    below = above - z
    floor = None if told.hook_mm is None else told.hook_mm - below
    return answer.HeightReport(below_hook_mm=below, above_floor_mm=floor)


def _way(way: Ways | None, body: Body) -> answer.WayReport | None:
    if way is None:
        return None
    return answer.WayReport(
        mouth_mm=way.mouth_mm,
        round_mm=level_girth(body),
        between_mm=way.between_mm,
        girth_mm=girth(body),
    )


def _push(shape: Shape, body: Body, weight: float, above: float) -> answer.PushReport:
    force = PUSH * weight
    after = pushed(shape, force)
    moved = after.x[shape.vessel_node] - shape.x[shape.vessel_node]
    shift = math.hypot(float(moved[0]), float(moved[1]))
    middle = middle_of_mass(body)
    down = above - float(shape.x[shape.vessel_node, 2]) - middle
    return answer.PushReport(
        push_n=force,
        held=after.settled.residual < UNSTEADY and not left(after),
        shift_mm=shift,
        tilt_deg=math.degrees(math.atan2(shift, down)) if down > 0.0 else 0.0,
        middle_of_mass_mm=middle,
        support_mm=support_height(shape),
    )


def holder_height(piece: Piece, sizes: Sizes) -> float:
    """How far the hook is above the top of the work, mm: a ring's inside, else nothing.

    What a level ring hangs by is not in the plan: heights count from the ring then.
    """
    on = piece.plan.mount.on
    if not isinstance(on, RingMount) or lies_level(piece):
        return 0.0
    return length(on.inside, sizes.env, sizes.values).at(sizes.values)


def cord_to_cut(piece: Piece, known: Known | None = None) -> float:
    """Cord to cut in all, mm, as ``cordwright cut`` says it."""
    return cut_list(counted(as_worked(piece)), known=known).total_mm


def lowest_end(shape: Shape) -> float:
    """Height of the lowest point of piece and body, mm; ends hang straight down."""
    piece = shape.piece
    low = float(shape.x[:, 2].min())
    for strand in piece.strands:
        if strand.end.kind == "laid in" or not strand.course:
            continue
        bottom = shape.frame.bars.bottom[strand.course[-1].knot]
        low = min(low, float(shape.x[bottom, 2]) - piece.mm(strand.end.length))
    return low
