"""Answers of the room for programs: plain JSON values, and their schemas."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from pydantic import TypeAdapter

from cordwright.supply import answer
from cordwright.supply.money import rounded

if TYPE_CHECKING:
    from cordwright.supply.cutting import CuttingPlan, Need, Piece
    from cordwright.supply.demand import Demand
    from cordwright.supply.fittings import Fitted
    from cordwright.supply.kits import Parcel
    from cordwright.supply.makeable import Makeable, Resized
    from cordwright.supply.pricing import Costing

G_PER_LITRE = 200.0
"""Weight that a litre of parcel is charged as, 5 litres a kilogram: common practice of carriers."""


def supply_json(
    title: str,
    kits: int,
    keep_mm: float,
    demand: Demand,
    plans: Mapping[str, CuttingPlan],
    parcel: Parcel,
    price: tuple[str, Costing] | None,
    fittings: Iterable[Fitted] = (),
    entry: int | None = None,
) -> dict[str, Any]:
    """What to cut, what it weighs and what it costs, as JSON values.

    Args:
        title: of the piece.
        kits: how many.
        keep_mm: the least rest worth keeping.
        demand: what is to be cut.
        plans: the cutting plan of each cord.
        parcel: what a kit weighs.
        price: currency and costs, if asked for.
        fittings: of the plan, as the shelf has them.
        entry: of the shelf's log, where the plan was carried out there.
    """
    return answer.SupplyReport(
        format=1,
        title=title,
        kits=kits,
        keep_mm=keep_mm,
        cords=[_cord(cord, demand[cord], plan) for cord, plan in plans.items()],
        enough=all(p.enough for p in plans.values()),
        weight=answer.WeightReport(
            cord_g=parcel.cord_g,
            low_g=parcel.low_g,
            high_g=parcel.high_g,
            things_g=parcel.things_g,
            gross_g=parcel.gross_g,
            box_mm=parcel.box_mm,
            volumetric_g=parcel.volumetric_g(G_PER_LITRE),
        ),
        fittings=[_fitting(f) for f in fittings],
        price=None if price is None else _price(*price),
        taken=entry,
    ).model_dump(mode="json")


def _fitting(found: Fitted) -> answer.FittingReport:
    thing = found.on_shelf
    price = thing.price if thing is not None else None
    return answer.FittingReport(
        sort=found.wanted.sort,
        measures_mm=found.wanted.measures,
        needed=found.needed,
        on_shelf=thing.name if thing is not None else None,
        count=thing.count if thing is not None else 0,
        short=found.short,
        price=None if price is None else str(price),
    )


def _cord(cord: str, needs: Iterable[Need], plan: CuttingPlan) -> answer.CordSupply:
    wanted = list(needs)
    return answer.CordSupply(
        cord=cord,
        needs=[_piece(n) for n in wanted],
        need_mm=sum(n.length_mm * n.count for n in wanted),
        spools=[
            answer.SpoolReport(
                id=s.source.id,
                bought=s.bought,
                number=s.number,
                length_mm=s.source.length_mm,
                pieces=[_piece(p) for p in s.pieces],
                rest_mm=s.rest_mm,
                kept=s.kept,
            )
            for s in plan.spools
        ],
        missing=[_piece(p) for p in plan.missing],
        enough=plan.enough,
        lost_mm=plan.lost_mm,
        kept_mm=plan.kept_mm,
        set_ups=plan.set_ups,
        cost_mm=plan.cost_mm,
        bound_mm=plan.bound_mm,
        first_fit_mm=plan.first_fit_mm,
        gap=plan.gap,
        proved=plan.proved,
        end=plan.end,
    )


def _piece(piece: Need | Piece) -> answer.PieceReport:
    return answer.PieceReport(id=piece.id, length_mm=piece.length_mm, count=piece.count)


def _price(currency: str, costs: Costing) -> answer.PriceReport:
    return answer.PriceReport(
        currency=currency,
        lines=[answer.LineReport(what=n, amount=str(a)) for n, a in costs.lines.items()],
        total=str(costs.total),
        per_kit=str(costs.per_kit),
        wholesale=str(costs.wholesale),
        retail=str(costs.retail),
        asked=str(rounded(costs.asked, currency)),
        break_even=costs.break_even,
        unpriced=list(costs.unpriced),
    )


Tried = tuple[str, str | None, "Makeable | None", str | None]
"""One plan of a folder: its file, its title, what can be made of it, what is wrong with it."""


def make_json(folder: str, tried: Iterable[Tried]) -> dict[str, Any]:
    """What can be made of the plans in a folder, as JSON values."""
    return answer.MakeReport(
        format=1,
        folder=folder,
        plans=[
            answer.MakeableReport(
                file=file,
                title=title,
                fits=found.fits if found else None,
                together=_resized(found.together) if found and found.together else None,
                alone=[_resized(r) for r in found.alone.values()] if found else [],
                lacking=list(found.lacking) if found else [],
                trouble=trouble,
            )
            for file, title, found, trouble in tried
        ],
    ).model_dump(mode="json")


def _resized(found: Resized) -> answer.ResizedReport:
    sizes = [answer.SizeReport(name=n, value=v) for n, v in found.sizes.items()]
    return answer.ResizedReport(share=found.share, sizes=sizes)


def supply_schema() -> dict[str, Any]:
    """JSON Schema of both answers, with the meaning and unit of every field."""
    either: TypeAdapter[Any] = TypeAdapter(answer.SupplyReport | answer.MakeReport)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **either.json_schema(mode="serialization"),
    }
