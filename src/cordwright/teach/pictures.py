"""The pictures of printed pages: as the draw room makes them; mirrored for left-handed readers."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING, NamedTuple

from cordwright.draw.tying import tying
from cordwright.teach.bookdata import Picture
from cordwright.teach.labels import Labels
from cordwright.teach.moves import told_moves
from cordwright.teach.words import Words

if TYPE_CHECKING:
    from cordwright.draw.placed import Placed
    from cordwright.draw.tying import Step
    from cordwright.draw.wording import Wording
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec
    from cordwright.piece.model import Piece

_TEXT = re.compile(r"<text\b([^>]*)>(.*?)</text>", re.DOTALL)
_GROUND = re.compile(r'<rect width="100%" height="100%"[^>]*/>')
_ROOT = re.compile(r"(<svg\b[^>]*>)(.*)(</svg>)", re.DOTALL)
_ANCHOR = re.compile(r'text-anchor="(\w+)"')
_X = re.compile(r'(?<![\w-])x="([^"]*)"')
_UP = re.compile(r'transform="(translate\([^)]*\))(rotate\(-90\))"')

CHART_ROOM = ((162.0, 222.0), (245.0, 135.0))
"""Widths and heights that a chart may have below its title, on a sheet upright and on its side; of
both sizes that booklets are printed on the smaller, mm."""


def mirrored(svg: str, width: float) -> str:
    """The mirror image of one of our pictures; its lettering can still be read.

    Args:
        svg: the picture, whose viewBox begins at 0.
        width: of its viewBox.
    """
    found = _ROOT.search(svg)
    if found is None:
        return svg
    inside = _TEXT.sub(_readable, found[2])
    before, after = svg[: found.start()], svg[found.end() :]
    turned = f'<g transform="translate({width:.2f} 0)scale(-1 1)">{inside}</g>'
    return f"{before}{found[1]}{turned}{found[3]}{after}"


def _readable(found: re.Match[str]) -> str:
    """A text within a mirrored picture, turned back about its own anchor."""
    attributes, words = found[1], found[2]
    upwards = _UP.search(attributes)
    if upwards is not None:
        turned = f'transform="{upwards[1]}scale(-1 1){upwards[2]}"'
        return f"<text{_UP.sub(turned, attributes)}>{words}</text>"
    x = _X.search(attributes)
    about = 2.0 * float(x[1]) if x is not None else 0.0
    anchor = _ANCHOR.search(attributes)
    other = {"start": "end", "end": "start"}.get(anchor[1] if anchor else "start", "middle")
    bare = _ANCHOR.sub("", attributes)
    return (
        f'<text{bare} text-anchor="{other}" transform="translate({about:.2f} 0)scale(-1 1)">'
        f"{words}</text>"
    )


class Whole(NamedTuple):
    """A whole piece.

    Args:
        page: as large as a page has room for.
        life: the same, with its width and height in life.
        tall_mm: from the top of what it hangs on to its lowest end, as it hangs.
    """

    page: Picture
    life: Picture
    tall_mm: float


def whole_piece(what: Placed, alt: str, *, left_handed: bool) -> Whole:
    """The piece alone, without title, measures and legend."""
    from cordwright.draw.piece_measures import reach
    from cordwright.draw.piece_sheet import piece_sheet

    sheet = piece_sheet(what, bare=True)
    extent = reach(what)
    svg = mirrored(sheet.svg, sheet.width) if left_handed else sheet.svg
    return Whole(
        Picture(svg, alt, sheet.width, sheet.height),
        Picture(svg, alt, sheet.width / sheet.scale, sheet.height / sheet.scale),
        max(0.0, float(extent.cord_high[1])) - float(extent.cord_low[1]),
    )


def measured_piece(
    what: Placed, wording: Wording, title: str, alt: str, *, left_handed: bool
) -> Picture:
    """The piece with its measures and the names of its parts, under a title if one is given."""
    from cordwright.draw.piece_sheet import piece_sheet

    sheet = piece_sheet(what, wording=wording, title=title)
    return _on_paper(sheet.svg, sheet.width, sheet.height, alt, left_handed=left_handed)


def charted(
    piece: Piece, atlas: Atlas, wording: Wording, alt: str, *, left_handed: bool
) -> Picture:
    """The chart to work from."""
    from cordwright.draw.chart_sheet import chart_sheet

    chart = chart_sheet(piece, atlas, wording=wording, paper=CHART_ROOM)
    return _on_paper(chart.svg, chart.width, chart.height, alt, left_handed=left_handed)


def _on_paper(svg: str, width: float, height: float, alt: str, *, left_handed: bool) -> Picture:
    bare = without_ground(svg)
    return Picture(mirrored(bare, width) if left_handed else bare, alt, width, height)


def without_ground(svg: str) -> str:
    """A picture without the sheet that is painted behind it: paper is there already."""
    return _GROUND.sub("", svg, count=1)


def tying_pictures(
    atlas: Atlas, spec: KnotSpec, name: str, say: Labels, *, left_handed: bool
) -> list[tuple[Picture, str]]:
    """Every step of a knot's tying, with what happens in it in words."""
    found = []
    steps = _steps(atlas, spec)
    for step, words in zip(steps, _told(atlas, spec, say.language), strict=True):
        f = step.figure
        alt = say("alt-tying", knot=name, number=step.number, of=len(steps), moves=words)
        svg = mirrored(f.svg, f.width_mm) if left_handed else f.svg
        found.append((Picture(svg, alt, f.width_mm, f.height_mm), words))
    return found


def tight_picture(atlas: Atlas, spec: KnotSpec, *, left_handed: bool) -> Picture:
    """A knot, drawn tight; without words of its own."""
    f = _steps(atlas, spec)[-1].figure
    svg = mirrored(f.svg, f.width_mm) if left_handed else f.svg
    return Picture(svg, "", f.width_mm, f.height_mm)


@cache
def _steps(atlas: Atlas, spec: KnotSpec) -> tuple[Step, ...]:
    return tying(atlas, spec)


@cache
def _told(atlas: Atlas, spec: KnotSpec, language: str) -> tuple[str, ...]:
    return tuple(told_moves(spec, _steps(atlas, spec), Labels(Words(language))))
