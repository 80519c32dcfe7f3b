"""The account of a piece's loads, for people and programs alike."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any, Literal

from cordwright.hang import loadanswer as answer
from cordwright.hang.screw import withdrawal
from cordwright.hang.strength import Conditions
from cordwright.hang.tables import table
from cordwright.hang.verdict import Spot, Tensions, Verdict, verdict
from cordwright.hang.weighing import Load, cord_load, held_load, total
from cordwright.plan.hung import BowlBody, PotBody
from cordwright.units.force import weight_n

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.piece.weight import Weight
    from cordwright.plan.hung import Hung


def conditions(told: Hung) -> Conditions:
    """What the cords meet: outdoors, and beside anything that is watered, they get wet."""
    body = told.holds
    watered = isinstance(body, PotBody) or (isinstance(body, BowlBody) and body.content is not None)
    return Conditions(told.outdoors or watered, told.outdoors, told.keeps)


def everything(piece: Piece, told: Hung) -> Load:
    """All that hangs: what the piece holds, and its own cord, wet where it gets wet."""
    return total(held_load(told.holds), cord_load(piece, wet=conditions(told).wet))


def load_report(
    piece: Piece, tensions: Tensions, told: Hung, doubts: Sequence[str] = ()
) -> answer.LoadReport:
    """What a piece's cords carry, with all of the working.

    Args:
        piece: the worked piece.
        tensions: N at rest, by strand and segment; see `cordwright.hang.verdict.Tensions`.
        told: what the plan says of hanging, as `cordwright.plan.hung.hung` gives it.
        doubts: why the tensions cannot be believed: then there is no verdict, and no remedy.

    Raises:
        WorkError: a tension that is none of the piece's.
    """
    load = everything(piece, told)
    found = verdict(
        tensions, piece, conditions(told), bump=told.bump, asked=told.factor, load_g=load.g
    )
    word: Literal["enough", "not enough", "nothing hangs", "not known"] = (
        "not known"
        if doubts
        else "nothing hangs"
        if found.weakest is None
        else "enough" if found.enough else "not enough"
    )  # fmt: skip
    asked = table("conditions")["factor"]
    return answer.LoadReport(
        format=1,
        title=piece.plan.title,
        verdict=word,
        doubts=list(doubts),
        factor=found.factor if found.weakest else None,
        asked=told.factor,
        asked_source=asked.source if told.factor == asked.value else "the plan's choice",
        bump=told.bump,
        parts=[_part(p.what, p.weight) for p in load.parts],
        weight_g=load.g,
        weight_low_g=load.low_g,
        weight_high_g=load.high_g,
        unweighed=list(load.unknown),
        weakest=_spot(piece, found.weakest) if found.weakest else None,
        strands=[_spot(piece, s) for s in found.spots],
        remedies=[] if doubts else _remedies(found),
        screw=_screw(told, load),
        cautions=list(found.cautions),
    )


def load_json(
    piece: Piece, tensions: Tensions, told: Hung, doubts: Sequence[str] = ()
) -> dict[str, Any]:
    """The account as JSON values; `load_schema` describes them."""
    return load_report(piece, tensions, told, doubts).model_dump(mode="json")


def load_schema() -> dict[str, Any]:
    """JSON Schema of `load_json`, with the meaning and unit of every field."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **answer.LoadReport.model_json_schema(mode="serialization"),
    }


def _part(what: str, weight: Weight) -> answer.PartReport:
    return answer.PartReport(
        what=what, g=weight.g, low_g=weight.low_g, high_g=weight.high_g, source=weight.source
    )


def _spot(piece: Piece, spot: Spot) -> answer.SpotReport:
    new = spot.strength.new
    return answer.SpotReport(
        strand=piece.name(spot.strand),
        cord=piece.cords[piece.strands[spot.strand].cord].cord,
        place=spot.place,
        knot=spot.knot,
        load_n=spot.load_n,
        bumped_n=spot.bumped_n,
        new_n=new.n,
        new_about=new.about,
        new_source=new.source,
        fibre_known=new.known,
        factors=[
            answer.FactorReport.model_validate(
                {"name": f.name, "about": f.about, "share": f.share, "source": f.source}
            )
            for f in spot.strength.factors
        ],
        strength_n=spot.strength.n,
        factor=spot.factor,
    )


def _remedies(found: Verdict) -> list[answer.RemedyReport]:
    return [
        answer.RemedyReport(kind=r.kind, cord=r.cord, value=r.value, text=r.text)
        for r in found.remedies
    ]


def _screw(told: Hung, load: Load) -> answer.ScrewReport | None:
    if told.screw is None:
        return None
    held = withdrawal(told.screw)
    pull = weight_n(load.g) * told.bump
    return answer.ScrewReport(
        wood=told.screw.wood,
        gravity=held.gravity,
        load_n=pull,
        allowed_n=held.allowed_n,
        ultimate_n=held.ultimate_n,
        within=pull <= held.allowed_n,
        sources=list(held.sources),
    )
