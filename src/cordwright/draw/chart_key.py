"""The chart's legend of signs: each that is used, with its knot's name."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

import numpy as np

from cordwright.draw.caption import name
from cordwright.draw.chart_gaps import Part
from cordwright.draw.chart_signs import Line, Sign
from cordwright.draw.piece_layout import LINE, SMALL, wrapped
from cordwright.draw.piece_text import Text, width

if TYPE_CHECKING:
    from cordwright.draw.chart_layout import Layout
    from cordwright.draw.wording import Wording
    from cordwright.knots.spec import KnotSpec

BROADEST = 26.0
"""Wider signs are shown narrower in the legend, page mm."""

LEAST_WORDS = 30.0
"""Narrower than this no name is set, page mm."""


@dataclass(frozen=True, slots=True)
class Key:
    """The legend of signs.

    Args:
        svg: the signs.
        texts: their names.
        bottom: where what follows may begin, page mm.
    """

    svg: str
    texts: tuple[Text, ...]
    bottom: float


@dataclass(frozen=True, slots=True)
class _Entry:
    """One sign with its name, at (0, 0) of the page; mm."""

    svg: str
    texts: tuple[Text, ...]
    wide: float
    high: float


def sign_key(
    plan: Layout,
    signs: Mapping[KnotSpec, Sign],
    lane: float,
    page: tuple[float, float, float],
    wording: Wording,
) -> Key:
    """Each sign that is used, with its name, as many beside each other as there is room for.

    Args:
        plan: of the chart.
        signs: by knot.
        lane: width of a lane, page mm.
        page: left and upper edge of the legend and its greatest width, page mm.
        wording: of the names.
    """
    left, y, most = page
    # Knots that differ only in the thickness of what they are tied on have one entry.
    used = {name(k.spec, wording): k.spec for k in reversed(plan.piece.knots)}
    x, tallest = left, 0.0
    parts: list[str] = []
    texts: list[Text] = []
    for words, spec in reversed(used.items()):
        entry = _entry(signs[spec], spec.strands, words, lane, most)
        if x > left and x + entry.wide > left + most:
            x, y, tallest = left, y + tallest + 3.0, 0.0
        parts.append(f'<g transform="translate({x:.2f} {y:.2f})">{entry.svg}</g>')
        texts += [Text(t.words, t.x + x, t.y + y, t.size, kind="d") for t in entry.texts]
        x += entry.wide + 8.0
        tallest = max(tallest, entry.high)
    return Key("".join(parts), tuple(texts), y + tallest + 5.0)


def _entry(shape: Sign, strands: int, words: str, lane: float, most: float) -> _Entry:
    """A sign, narrower than in the chart where it is broad, and its name to the right of it."""
    reach = max(float(np.abs(line.part.points[:, 0]).max()) for line in shape.lines) * lane
    narrower = min(1.0, 0.5 * BROADEST / reach) if reach > 0.0 else 1.0
    reach *= narrower
    high = shape.height * lane
    lines = wrapped(words, max(most - 2 * reach - 3.0, LEAST_WORDS), SMALL)
    tall = max(high, SMALL + LINE * (len(lines) - 1))
    first = 0.5 * (tall - LINE * (len(lines) - 1)) + 0.3 * SMALL
    texts = tuple(
        Text(said, 2 * reach + 3.0, first + LINE * i, SMALL, kind="d")
        for i, said in enumerate(lines)
    )
    narrow = np.array([narrower, 1.0])
    parts = [Part(n.part.left * narrow, n.part.right * narrow) for n in shape.lines]
    shape = replace(shape, lines=tuple(map(Line, [n.place for n in shape.lines], parts)))
    drawn = sign_svg(shape, [0] * strands, lane)
    place = f"translate({reach:.2f} {0.5 * (tall - high):.2f})"
    wide = 2 * reach + 3.0 + max((width(said, SMALL) for said in lines), default=0.0)
    return _Entry(f'<g transform="{place}">{drawn}</g>', texts, wide, tall)


def sign_svg(what: Sign, styles: Sequence[int], lane: float) -> str:
    """A sign's strands, from back to front; its origin is the middle of its upper edge.

    Args:
        what: the sign.
        styles: of its strands, by place.
        lane: width of a lane, page mm.
    """
    return "".join(
        part_svg(stretch.part, styles[min(stretch.place, len(styles) - 1)], lane)
        for stretch in what.lines
    )


def part_svg(part: Part, style: int, lane: float) -> str:
    """What is seen of a line: its colour, and its two outlines."""
    left, right = (
        [(float(x), float(y)) for x, y in points] for points in (part.left, part.right[::-1])
    )
    return (
        f'<path class="p{style}" d="{line([*left, *right], lane)}Z"/>'
        f'<path class="q{style}" d="{line(left, lane)}{line(right, lane)}"/>'
    )


def line(points: Sequence[tuple[float, float]], lane: float) -> str:
    """SVG path data of a way in lanes."""
    return "M" + "L".join(f"{x * lane:.2f} {y * lane:.2f}" for x, y in points)
