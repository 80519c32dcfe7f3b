"""The cut list for programs: plain JSON values, and the schema that gives every field's meaning."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Literal

from cordwright.piece import answer
from cordwright.piece.lengths import KNOTTED, Use
from cordwright.piece.spare import WHY_FREE, WHY_KNOTS
from cordwright.piece.weight import weight

if TYPE_CHECKING:
    from collections.abc import Collection, Mapping

    from cordwright.piece.cutlist import CutCord, CutEntry, CutList
    from cordwright.piece.model import Piece, Remark
    from cordwright.units.form import Form


Size = tuple[float | None, float | None]
"""Width and height of a piece as worked, mm; None where they are not computed."""


def cut_json(piece: Piece, cuts: CutList, size: Size = (None, None)) -> dict[str, Any]:
    """The cut list of a piece as JSON values; `cut_schema` describes them.

    Args:
        piece: as worked.
        cuts: its cut list.
        size: of the piece, where its shape is known.
    """
    return _report(piece, cuts, size).model_dump(mode="json")


def cut_schema() -> dict[str, Any]:
    """JSON Schema of `cut_json`, with the meaning and unit of every field."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        **answer.CutReport.model_json_schema(mode="serialization"),
    }


def _report(piece: Piece, cuts: CutList, size: Size) -> answer.CutReport:
    lengths = cuts.lengths
    return answer.CutReport(
        format=1,
        title=piece.plan.title,
        system=cuts.system,
        cords=[_entry(piece, cuts, entry) for entry in cuts.entries],
        total_mm=cuts.total_mm,
        used_mm=cuts.used_mm,
        finished_length_mm=piece.mm(lengths.finished),
        finished_length_form=_form(lengths.finished),
        width_mm=size[0],
        height_mm=size[1],
        knots=len(piece.knots),
        strands=_strands(piece, cuts),
        uses_mm=_uses(piece, lengths.uses),
        kinds=[_kind(piece, cuts, name) for name in _names(piece)],
        sections=[
            answer.SectionReport(path=list(path), used_mm=piece.mm(form))
            for path, form in lengths.sections.items()
        ],
        values_mm=dict(piece.values),
        spare_parts=answer.SpareParts(
            knots=_spare_parts(piece, cuts, "knots", KNOTTED),
            free=_spare_parts(piece, cuts, "free", (Use.FREE,)),
            known_from={
                name: "swatches" if name in cuts.swatches else "published figures"
                for name in piece.plan.cords
            },
            risk=cuts.risk,
            why_knots=WHY_KNOTS,
            why_free=WHY_FREE,
        ),
        warnings=[_warning(w) for w in (*piece.warnings, *cuts.warnings)],
    )


def _spare_parts(
    piece: Piece, cuts: CutList, what: Literal["knots", "free"], uses: Collection[Use]
) -> dict[str, float]:
    """Spare as a part of the cord of some uses, by the plan's name of the cord; 0 without any."""
    parts = {}
    for name in piece.plan.cords:
        cords = [c for c in cuts.cords if piece.cords[c.cord].cord == name]
        spare = sum(getattr(s, what) for c in cords for s in c.spare)
        strands = (cuts.lengths.strands[s] for c in cords for s in piece.cords[c.cord].strands)
        mm = sum(piece.mm(used[use]) for used in strands for use in uses if use in used)
        parts[name] = spare / mm if mm else 0.0
    return parts


def _names(piece: Piece) -> list[str]:
    return list(dict.fromkeys(cord.cord for cord in piece.cords))


def _form(form: Form) -> answer.FormReport:
    return answer.FormReport(mm=form.mm, terms={s: k for s, k in form.terms.items() if k})


def _uses(piece: Piece, uses: Mapping[Use, Form]) -> dict[Use, float]:
    return {use: piece.mm(uses[use]) if use in uses else 0.0 for use in Use}


def _entry(piece: Piece, cuts: CutList, entry: CutEntry) -> answer.CordReport:
    neediest = max(
        (cuts.cords[c] for c in entry.cords), key=lambda c: (c.used_mm + c.spare_mm, -c.cord)
    )
    strands = piece.cords[neediest.cord].strands
    spec = piece.plan.cords[entry.cord]
    wanted = sum(s.all for s in neediest.spare)
    share = neediest.spare_mm / wanted if wanted else 0.0  # a cord already cut may have less
    return answer.CordReport(
        id=entry.id,
        count=entry.count,
        cord=entry.cord,
        fibre=spec.fibre,
        colour=spec.colour,
        diameter_mm=entry.diameter_mm,
        length_mm=entry.length_mm,
        fold=entry.fold,
        fold_mm=entry.fold_mm,
        used_mm=entry.used_mm,
        spare_mm=entry.spare_mm,
        spare_knots_mm=share * sum(s.knots for s in neediest.spare),
        spare_free_mm=share * sum(s.free for s in neediest.spare),
        rounding_mm=entry.rounding_mm,
        chance=min(cuts.chances[c] for c in entry.cords),
        already_cut=entry.given,
        part=piece.cords[entry.cords[0]].part,
        numbers=[c + 1 for c in entry.cords],
        forms=[_form(cuts.lengths.used[s]) for s in strands],
    )


def _strands(piece: Piece, cuts: CutList) -> list[answer.StrandReport]:
    entry_of = {c: entry.id for entry in cuts.entries for c in entry.cords}
    return [
        _strand(piece, cuts, cut, place, entry_of[cut.cord])
        for cut in cuts.cords
        for place in range(len(piece.cords[cut.cord].strands))
    ]


def _strand(
    piece: Piece, cuts: CutList, cut: CutCord, place: int, entry: str
) -> answer.StrandReport:
    strand = piece.strands[piece.cords[cut.cord].strands[place]]
    used = piece.mm(cuts.lengths.used[strand.id])
    return answer.StrandReport(
        id=piece.name(strand.id),
        cord=piece.cords[cut.cord].cord,
        cut=entry,
        half=strand.half,
        used_mm=used,
        over_mm=cut.parts_mm[place] - used,
        uses_mm=_uses(piece, cuts.lengths.strands[strand.id]),
        ends=strand.end.kind,
        end_mm=piece.mm(strand.end.length),
        form=_form(cuts.lengths.used[strand.id]),
    )


def _kind(piece: Piece, cuts: CutList, name: str) -> answer.KindReport:
    cords = [c for c in cuts.cords if piece.cords[c.cord].cord == name]
    cut_mm = sum(c.length_mm for c in cords)
    heavy = weight(piece, name, cut_mm)
    return answer.KindReport(
        cord=name,
        diameter_mm=piece.values[f"d:{name}"],
        cut_mm=cut_mm,
        used_mm=sum(c.used_mm for c in cords),
        weight_g=None if heavy is None else heavy.g,
        weight_low_g=None if heavy is None else heavy.low_g,
        weight_high_g=None if heavy is None else heavy.high_g,
    )


def _warning(remark: Remark) -> answer.WarningReport:
    step = remark.step
    return answer.WarningReport(
        what=remark.what,
        file=step.file if step else None,
        line=step.line if step else None,
        column=step.column if step else None,
    )
