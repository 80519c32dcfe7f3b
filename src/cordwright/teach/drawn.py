"""Everything that is drawn for a booklet, from worked pieces and the atlas."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from cordwright.teach.bookdata import Chart, KnotPart, KnotStep, Picture
from cordwright.teach.booklet import Pictures
from cordwright.teach.drawwords import wording
from cordwright.teach.knotnames import alike, headings, spec_of
from cordwright.teach.pictures import (
    charted,
    measured_piece,
    tight_picture,
    tying_pictures,
    whole_piece,
)

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from cordwright.draw.placed import Placed
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.teach.booklet import Version
    from cordwright.teach.labels import Labels
    from cordwright.teach.needs import KnotKind

KNOT_SCALE = 0.9
"""Printed mm for each mm of a tying picture, where there is room."""

WIDE = 1.15
"""How much wider than high a picture is that gets a page lying on its side."""


def drawn(
    pieces: Sequence[Piece],
    versions: Sequence[Version],
    atlas: Atlas,
    say: Labels,
    *,
    measured: bool = True,
) -> Pictures:
    """All pictures of a booklet.

    Args:
        pieces: every edition's, as worked.
        versions: the editions; mirrored lessons get mirrored pictures.
        atlas: where tight curves come from.
        say: labels in the booklet's language.
        measured: whether to draw every piece with its measures too.
    """
    from cordwright.draw.placed_shape import as_it_looks

    hand = versions[0].lesson.mirrored
    looks = [as_it_looks(piece, atlas) for piece in pieces]
    bare = [
        whole_piece(what, say("alt-cover", title=_title(v)), left_handed=hand)
        for what, v in zip(looks, versions, strict=True)
    ]
    headed = headings([k for v in versions for k in v.lesson.knots], say)
    knots = _knots(versions, headed, atlas, say)
    first, *others = _beside(versions, headed, atlas, say)
    whole = _measured(looks, versions, say) if measured else ()
    return Pictures(
        bare[0].page,
        (*whole, *_charts(pieces, versions, atlas, say)),
        tuple(knots.values()),
        first,
        tuple(others),
        tuple(b.life for b in bare) if len(bare) > 1 else (),
        tuple(b.tall_mm for b in bare),
    )


def _title(version: Version) -> str:
    name = version.edition.name
    return f"{version.lesson.title}, {name}" if name else version.lesson.title


def _measured(
    looks: Sequence[Placed], versions: Sequence[Version], say: Labels
) -> tuple[Chart, ...]:
    """Every edition with its measures, a page each."""
    hand = versions[0].lesson.mirrored
    said = wording(say.words, left_handed=hand)
    found = []
    for what, version in zip(looks, versions, strict=True):
        alt = say("alt-measured", title=_title(version))
        picture = measured_piece(what, said, _title(version), alt, left_handed=hand)
        name = version.edition.name
        title = ", ".join((say("whole"), name)) if name else say("whole")
        found.append(Chart(title, picture, (), _is_wide(picture)))
    return tuple(found)


def _charts(
    pieces: Sequence[Piece], versions: Sequence[Version], atlas: Atlas, say: Labels
) -> tuple[Chart, ...]:
    """The chart of every edition that has one of its own."""
    hand = versions[0].lesson.mirrored
    said = wording(say.words, left_handed=hand)
    found: dict[str, tuple[Picture, list[str]]] = {}
    for piece, version in zip(pieces, versions, strict=True):
        alt = say("alt-chart", title=version.lesson.title)
        picture = charted(piece, atlas, said, alt, left_handed=hand)
        found.setdefault(picture.svg, (picture, []))[1].append(version.edition.name)
    return tuple(
        Chart(
            ", ".join((say("chart"), *names)) if len(found) > 1 else say("chart"),
            picture,
            (say("chart-about"),),
            _is_wide(picture),
        )
        for picture, names in found.values()
    )


def _is_wide(picture: Picture) -> bool:
    return bool(picture.width_mm > WIDE * picture.height_mm)


def _knots(
    versions: Sequence[Version],
    headed: Mapping[tuple[object, ...], str],
    atlas: Atlas,
    say: Labels,
) -> dict[tuple[object, ...], KnotPart]:
    hand = versions[0].lesson.mirrored
    found: dict[tuple[object, ...], KnotPart] = {}
    for kind in (k for v in versions for k in v.lesson.knots):
        key = alike(kind)
        if key not in found:
            steps = tying_pictures(atlas, spec_of(kind), headed[key], say, left_handed=hand)
            told = tuple(KnotStep(picture, words) for picture, words in steps)
            found[key] = KnotPart(headed[key], (), told, KNOT_SCALE)
    return found


def _beside(
    versions: Sequence[Version],
    headed: Mapping[tuple[object, ...], str],
    atlas: Atlas,
    say: Labels,
) -> tuple[dict[int, Picture], ...]:
    """Tight knots, as they lie in the work: for every edition, by index of the knot."""
    hand = versions[0].lesson.mirrored
    seen: dict[tuple[object, ...], Picture] = {}
    for kind in (k for v in versions for k in v.lesson.knots):
        if shown(kind) not in seen:
            alt = say("alt-knot", knot=headed[alike(kind)])
            picture = tight_picture(atlas, spec_of(kind), left_handed=hand)
            seen[shown(kind)] = replace(picture, alt=alt)
    return tuple({k.id: seen[shown(k)] for k in v.lesson.knots} for v in versions)


def shown(kind: KnotKind) -> tuple[object, ...]:
    """What makes two kinds of knot look unlike beside a step: their slant too."""
    return (*alike(kind), kind.spec["slant_deg"])
