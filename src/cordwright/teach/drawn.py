"""Everything that is drawn for a booklet, from a worked piece and the atlas."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.teach.bookdata import Chart, KnotPart, KnotStep, Picture
from cordwright.teach.booklet import Pictures
from cordwright.teach.pictures import mirrored, tying_pictures, whole_piece, without_ground

if TYPE_CHECKING:
    from collections.abc import Mapping

    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.teach.labels import Labels
    from cordwright.teach.steps import KnotKind, Lesson
    from cordwright.units.length import System

KNOT_SCALE = 0.9
"""Printed mm for each mm of a tying picture, where there is room."""


def drawn(
    piece: Piece,
    lesson: Lesson,
    atlas: Atlas,
    names: Mapping[int, str],
    say: Labels,
    system: System,
) -> Pictures:
    """All pictures of a booklet.

    Args:
        piece: as worked.
        lesson: of that piece; a mirrored one gets mirrored pictures.
        atlas: where tight curves come from.
        names: of the knots, by their index in the lesson.
        say: labels in the booklet's language.
        system: what the chart writes lengths in.
    """
    from cordwright.draw.chart_sheet import chart_sheet
    from cordwright.draw.placed_shape import as_it_looks
    from cordwright.draw.wording import english

    hand = lesson.mirrored
    cover = whole_piece(
        as_it_looks(piece, atlas), say("alt-cover", title=lesson.title), left_handed=hand
    )
    chart = chart_sheet(piece, atlas, wording=english(system))
    bare = without_ground(chart.svg)
    svg = mirrored(bare, chart.width) if hand else bare
    charted = Picture(svg, say("alt-chart", title=lesson.title), chart.width, chart.height)
    knots: list[KnotPart] = []
    beside: dict[int, Picture] = {}
    seen: dict[tuple[object, ...], Picture] = {}
    for kind in lesson.knots:
        alike = _alike(kind)
        if alike not in seen:
            name = _called(kind, lesson, names)
            part = _knot(atlas, kind, name, say, left_handed=hand)
            knots.append(part)
            last = part.steps[-1].figure
            alt = say("alt-knot", knot=part.name)
            seen[alike] = Picture(last.svg, alt, last.width_mm, last.height_mm)
        beside[kind.id] = seen[alike]
    pages = (Chart("", charted, (say("chart-about"),)),)
    return Pictures(cover, pages, tuple(knots), beside)


def spec_of(kind: KnotKind) -> KnotSpec:
    """The knot that a kind was tightened as."""
    return KnotSpec(**{**kind.spec, "name": KnotName(kind.spec["name"])})


def _alike(kind: KnotKind) -> tuple[object, ...]:
    """What makes two kinds of knot worth two sets of pictures: thickness alone does not."""
    spec = spec_of(kind)
    if spec.name == KnotName.GATHERING:  # turns and strands change nothing in how it is tied
        return (spec.name,)
    return (spec.name, spec.fillers, spec.strands, spec.hand, spec.face, spec.over)


def _called(kind: KnotKind, lesson: Lesson, names: Mapping[int, str]) -> str:
    """A knot's name as a heading; numbered where others have the same name."""
    name = names[kind.id]
    alike = list(dict.fromkeys(_alike(k) for k in lesson.knots if names[k.id] == name))
    headed = name[:1].upper() + name[1:]
    return f"{headed} {alike.index(_alike(kind)) + 1}" if len(alike) > 1 else headed


def _knot(atlas: Atlas, kind: KnotKind, name: str, say: Labels, *, left_handed: bool) -> KnotPart:
    pictures = tying_pictures(atlas, spec_of(kind), name, say, left_handed=left_handed)
    return KnotPart(name, (), tuple(KnotStep(p, words) for p, words in pictures), KNOT_SCALE)
