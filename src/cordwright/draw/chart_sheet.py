"""The chart to work from: rows from top to bottom, every knot by its sign, repeats in brackets."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

import numpy as np

from cordwright.draw.caption import cord_words
from cordwright.draw.chart_gaps import EDGE, FILL
from cordwright.draw.chart_key import line, part_svg, sign_key, sign_svg
from cordwright.draw.chart_layout import Layout, layout
from cordwright.draw.chart_lines import Ending, endings, holding, passed_over, tracks
from cordwright.draw.chart_rows import Rows, rows_of
from cordwright.draw.chart_signs import sign
from cordwright.draw.ink import PAPER, SOFT, TEXT, coloured, mixed
from cordwright.draw.piece_colours import rgb_of
from cordwright.draw.piece_layout import SMALL, heading, legend
from cordwright.draw.piece_notes import Notes, joined, moved
from cordwright.draw.piece_text import FAMILY, Box, Text, printable, stacked, width
from cordwright.draw.placed_cell import cell
from cordwright.draw.wording import Wording, english

if TYPE_CHECKING:
    from cordwright.draw.placed_cell import CurvesSource
    from cordwright.knots.spec import KnotSpec
    from cordwright.piece.model import Piece

LANE, NARROW_LANE = 5.0, 2.4
"""Width of a lane, page mm, and the least that it is made in wide work."""

WIDEST = 380.0
"""Wider charts have narrower lanes, page mm."""

SIZE = 2.6
"""Of lettering in the chart, page mm."""

READABLE = 2.47
"""Least size of lettering on paper, mm: 7 points."""

LEAST_LANE = 1.2
"""Narrower lanes are not read, page mm, whatever size they are printed in."""

TRIES = 6
"""In how many steps a chart is brought to a size that prints well."""

MARGIN, SIDE = 8.0, 14.0
"""Round the page, and for row numbers, mm."""


@dataclass(frozen=True, slots=True)
class Chart:
    """A chart as SVG.

    Args:
        svg: its text.
        width: of its page, mm.
        height: of its page, mm.
        texts: its lettering.
        rows: which rows it shows.
        uses: how many signs stand in it.
    """

    svg: str
    width: float
    height: float
    texts: tuple[Text, ...]
    rows: Rows
    uses: int


def chart_sheet(
    piece: Piece,
    source: CurvesSource,
    *,
    wording: Wording | None = None,
    paper: Sequence[tuple[float, float]] = (),
) -> Chart:
    """The chart of a piece.

    Args:
        piece: as worked.
        source: of tight curves.
        wording: how words and lengths are written; English and metric if None.
        paper: widths and heights of the rooms that a sheet has for it, upright and on its side,
            mm: lanes are then so narrow that lettering can be read where the chart fits best.
    """
    wording = wording or english()
    names = list(piece.plan.cords)
    styles = [names.index(piece.cords[s.cord].cord) for s in piece.strands]
    signs = {spec: sign(cell(f, source)) for spec, f in piece.figures.items() if _used(piece, spec)}
    plan = layout(piece, rows_of(piece, styles), signs)
    lane = float(np.clip(WIDEST / (2 * plan.half_width), NARROW_LANE, LANE))
    sheet = _composed(plan, styles, lane, wording)
    for _ in range(TRIES):
        if not paper or (short := READABLE / SIZE / _fitted(sheet, paper)) <= 1.0:
            break
        lane = max(0.97 * lane / short, LEAST_LANE)
        sheet = _composed(plan, styles, lane, wording)
    return sheet


def _fitted(chart: Chart, paper: Sequence[tuple[float, float]]) -> float:
    """How large a chart can be where it fits best, against its own size."""
    return max(min(wide / chart.width, high / chart.height, 1.0) for wide, high in paper)


def _composed(plan: Layout, styles: Sequence[int], lane: float, wording: Wording) -> Chart:
    """The chart with lanes so wide, page mm."""
    piece = plan.piece
    fills = [rgb_of(spec.colour) for spec in piece.plan.cords.values()]
    drawing = _Drawing(plan, styles, lane, wording)
    notes = drawing.notes()
    left = max([lane * plan.half_width + SIDE, *(-t.box.left for t in notes.texts)])
    inner = left + max([lane * plan.half_width, *(t.box.right for t in notes.texts)])
    above = heading(piece.plan.title, wording.say("chart-about"), max(inner, 80.0))
    inner = max(inner, max(t.box.right for t in above), 90.0)
    top = MARGIN + max(t.box.bottom for t in above) + 3.0
    # The lowest sign hangs its strands below the last row.
    bottom = top + max([lane * (plan.bottom + 3.0), *(t.box.bottom for t in notes.texts)]) + 4.0
    key = sign_key(plan, plan.signs, max(lane, NARROW_LANE), (MARGIN, bottom, inner), wording)
    words = [cord_words(piece, n, wording) for n in piece.plan.cords]
    rows = list(zip(fills, words, strict=True))
    swatches, cord_texts = legend(rows, MARGIN, key.bottom, inner)
    height = max(t.box.bottom for t in cord_texts) + MARGIN
    every = joined(
        [
            moved(Notes(above, ()), MARGIN, MARGIN),
            moved(notes, MARGIN + left, top),
            Notes((*key.texts, *cord_texts), ()),
        ]
    )
    page = (inner + 2 * MARGIN, height)
    css = "".join(_css(i, f, lane) for i, f in enumerate(fills))
    body = drawing.defs() + (
        f'<g transform="translate({MARGIN + left:.2f} {top:.2f})">{drawing.body()}</g>'
    )
    svg = _svg(
        page,
        wording.say("chart-title", title=piece.plan.title),
        css,
        body + key.svg + swatches + every.svg(),
    )
    return Chart(svg, *page, every.texts, plan.rows, drawing.uses)


def _used(piece: Piece, spec: KnotSpec) -> bool:
    return any(k.spec == spec for k in piece.knots)


def _css(style: int, fill: str, lane: float) -> str:
    ink = coloured(fill)
    # Pale cord is read by its outline.
    edge = mixed(ink.edge, TEXT, 0.5)
    return (
        f".e{style}{{stroke:{edge};stroke-width:{EDGE * lane:.3f}}}"
        f".f{style}{{stroke:{fill};stroke-width:{FILL * lane:.3f}}}"
        f"path.p{style}{{fill:{fill}}}"
        f".q{style}{{stroke:{edge};stroke-width:{0.5 * (EDGE - FILL) * lane:.3f}}}"
        f".a{style}{{fill:{fill};stroke:{edge};stroke-width:.2}}"
    )


def _svg(page: tuple[float, float], title: str, css: str, body: str) -> str:
    w, h = page
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{w:.1f}mm" height="{h:.1f}mm" '
        f'viewBox="0 0 {w:.1f} {h:.1f}"><title>{escape(printable(title))}</title>'
        "<style>path{fill:none;stroke-linejoin:round;stroke-linecap:butt}"
        f".n{{stroke:{SOFT};stroke-width:.2}}"
        f".b{{stroke:{TEXT};stroke-width:.3}}.g{{stroke:{SOFT};stroke-width:.25;"
        "stroke-dasharray:1.2 .8}"
        f"text{{font-family:'{FAMILY}',sans-serif;fill:{TEXT};paint-order:stroke;"
        f"stroke:{PAPER};stroke-width:.7;stroke-linejoin:round}}{css}</style>"
        f'<rect width="100%" height="100%" fill="{PAPER}"/>{body}</svg>'
    )


class _Drawing:
    """The chart's marks; the origin is the middle of the mount, y down, page mm."""

    def __init__(self, plan: Layout, styles: Sequence[int], lane: float, wording: Wording) -> None:
        self.plan, self.styles, self.lane, self.wording = plan, styles, lane, wording
        self.shown = [s for s in plan.rows.seats if plan.is_shown(s)]
        self.ids: dict[tuple[KnotSpec, tuple[int, ...]], int] = {}
        for s in self.shown:
            self.ids.setdefault(self._look(s.knot), len(self.ids))
        self.uses = len(self.shown)

    def _look(self, knot: int) -> tuple[KnotSpec, tuple[int, ...]]:
        k = self.plan.piece.knots[knot]
        return k.spec, tuple(self.styles[s] for s in k.strands)

    def defs(self) -> str:
        """Every sign in every choice of colours that is used, in lanes times a lane's width."""
        parts = []
        for (spec, styles), i in self.ids.items():
            lines = sign_svg(self.plan.signs[spec], styles, self.lane)
            parts.append(f'<g id="s{i}">{lines}</g>')
        return f"<defs>{''.join(parts)}</defs>"

    def body(self) -> str:
        """Seam, strands, holding cords, signs."""
        return self._seams() + self._strands() + self._holding() + self._signs()

    def _signs(self) -> str:
        return "".join(
            f'<use href="#s{self.ids[self._look(s.knot)]}" '
            f'x="{self.plan.middle(s) * self.lane:.2f}" y="{self.plan.upper(s) * self.lane:.2f}"/>'
            for s in self.shown
        )

    def _strands(self) -> str:
        every = tracks(self.plan)
        under = passed_over(every)
        parts: dict[tuple[int, int], list[str]] = {}
        cut: list[str] = []
        for i, t in enumerate(every):
            style = self.styles[t.strand]
            if i in under:
                cut += [part_svg(part, style, self.lane) for part in under[i]]
            else:
                parts.setdefault((t.order, style), []).append(line(t.points, self.lane))
        out = []
        for (_, style), lines in sorted(parts.items()):
            d = "".join(lines)
            out.append(f'<path class="e{style}" d="{d}"/><path class="f{style}" d="{d}"/>')
        return "".join(cut + out)

    def _holding(self) -> str:
        out = []
        for row in holding(self.plan):
            style = self.styles[row.strand]
            out += [part_svg(part, style, self.lane) for part in row.seen]
            out.append(_arrow(row.first, row.last, style, self.lane))
        return "".join(out)

    def _seams(self) -> str:
        """Dashed lines where work in the round is cut open."""
        d = []
        rows = self.plan.rows
        for row in range(rows.count):
            if rows.round[row] and rows.shown(row) == row:
                x = 0.5 * rows.of[row] * self.lane
                y0 = (self.plan.top[row] - self.plan.band[row]) * self.lane
                y1 = (self.plan.top[row] + self.plan.height[row]) * self.lane
                d.append(f"M{-x:.2f} {y0:.2f}V{y1:.2f}M{x:.2f} {y0:.2f}V{y1:.2f}")
        return f'<path class="g" d="{"".join(d)}"/>' if d else ""

    def notes(self) -> Notes:
        """Row numbers, free lengths, ends, brackets round repeats, names of sections."""
        free, margin = self._free()
        return joined([self._numbers(margin), free, self._ends(), self._right()])

    def _numbers(self, margin: dict[int, str]) -> Notes:
        x = -self.plan.half_width * self.lane - 2.0
        texts = []
        for row in range(1, self.plan.rows.count):
            if self.plan.rows.shown(row) != row:
                continue
            y = (self.plan.top[row] + 0.5 * min(self.plan.height[row], 1.6)) * self.lane
            texts.append(Text(str(row), x, y + 0.3 * SIZE, SIZE, "bold", "end", "d"))
            if row in margin:
                y = self.plan.top[row] * self.lane - 0.45 * SIZE
                texts.append(Text(margin[row], x, y, SIZE, anchor="end", kind="d"))
        return Notes(tuple(_apart(texts)), ())

    def _free(self) -> tuple[Notes, dict[int, str]]:
        """Free lengths beside their knots, or in the margin where a row has one or no room."""
        rows: dict[int, list[tuple[float, float, str]]] = {}
        lengths: dict[int, list[float]] = {}
        for s in self.shown:
            free = self.plan.free[s.knot]
            if free and s.row:
                y = self.plan.top[s.row] * self.lane
                label = (self.plan.middle(s) * self.lane, y, self._lengths(free))
                rows.setdefault(s.row, []).append(label)
                lengths.setdefault(s.row, []).extend(free)
        texts: list[Text] = []
        margin: dict[int, str] = {}
        for row, labels in rows.items():
            placed = _in_place(labels)
            alike = len({w for _, _, w in labels}) == 1
            if alike or {w for _, _, w in labels} - {t.words for t in placed}:
                margin[row] = self.wording.say("leave", lengths=self._lengths(lengths[row]))
            else:
                texts += placed
        return Notes(tuple(texts), ()), margin

    def _lengths(self, free: Sequence[float]) -> str:
        """One or two lengths as they are, more as from the least to the most."""
        told = list(dict.fromkeys(self.wording.length(mm) for mm in sorted(free)))
        return " / ".join(told) if len(told) < 3 else f"{told[0]} \N{EN DASH} {told[-1]}"

    def _ends(self) -> Notes:
        """Cord below the last knots: once for neighbours that end alike."""
        texts: list[Text] = []
        for y, ends in _grouped(endings(self.plan)).items():
            run: list[tuple[float, int]] = []
            for x, mm in [*sorted(ends), (np.inf, -1)]:
                if run and (mm != run[-1][1] or x > run[-1][0] + 1.6):
                    middle = 0.5 * (run[0][0] + run[-1][0]) * self.lane
                    words = self.wording.length(run[0][1])
                    room = (run[-1][0] - run[0][0] + 1.0) * self.lane
                    low = y * self.lane
                    if width(words, SIZE) <= room:
                        text = Text(words, middle, low + SIZE, SIZE, anchor="middle", kind="d")
                    else:
                        text = Text(
                            words, middle + 0.3 * SIZE, low + 1.0 + width(words, SIZE), SIZE,
                            kind="d", upwards=True,
                        )  # fmt: skip
                    if not any(text.box.overlaps(t.box) for t in texts):
                        texts.append(text)
                    run = []
                run.append((x, mm))
        return Notes(tuple(texts), ())

    def _right(self) -> Notes:
        """Brackets with the number of repeats, and the names of sections."""
        x = self.plan.half_width * self.lane + 2.0
        texts, lines = [], []
        for b in self.plan.rows.blocks:
            if b.times < 2:
                continue
            y0 = (self.plan.top[b.first] - 0.2) * self.lane
            last = b.first + b.rows - 1
            y1 = (self.plan.top[last] + self.plan.height[last] + 0.2) * self.lane
            lines += [(x, y0, x + 1.5, y0), (x + 1.5, y0, x + 1.5, y1), (x, y1, x + 1.5, y1)]
            last_row = b.first + b.rows * b.times - 1
            words = self.wording.say("repeat", times=b.times, first=b.first, last=last_row)
            texts.append(Text(words, x + 3.0, 0.5 * (y0 + y1) + 0.3 * SIZE, SIZE, kind="d"))
        seen: set[str] = set()
        for s in self.shown:
            for section in self.plan.piece.knots[s.knot].section[-1:]:
                if section not in seen:
                    seen.add(section)
                    y = self.plan.top[s.row] * self.lane + 0.3 * SIZE
                    texts.append(Text(section, x + 3.0, y, SMALL, "bold", kind="d"))
        bottom = self.plan.bottom * self.lane + 20.0
        return Notes(tuple(stacked(texts, 0.0, bottom, 0.3)), tuple(lines))


def _grouped(ends: Sequence[Ending]) -> dict[float, list[tuple[float, int]]]:
    found: dict[float, list[tuple[float, int]]] = {}
    for e in ends:
        found.setdefault(round(e.y, 3), []).append((e.x, e.mm))
    return found


def _in_place(labels: Sequence[tuple[float, float, str]]) -> list[Text]:
    """Labels at their knots, left out where they would run into their neighbour of other words."""
    texts: list[Text] = []
    taken: list[Box] = []
    for x, y, words in sorted(labels):
        text = Text(words, x, y - 0.35 * SIZE, SIZE, anchor="middle", kind="d")
        if not any(text.box.overlaps(b) for b in taken):
            texts.append(text)
            taken.append(text.box)
    return texts


def _apart(texts: Sequence[Text]) -> list[Text]:
    """Texts of the margin, those that would overlap moved down."""
    return stacked(texts, min((t.box.top for t in texts), default=0.0), 1e6, 0.1)


def _arrow(a: tuple[float, float], b: tuple[float, float], style: int, lane: float) -> str:
    """An arrow head at the end of a holding cord."""
    p, q = np.array(a) * lane, np.array(b) * lane
    along = (q - p) / max(float(np.linalg.norm(q - p)), 1e-9)
    side = np.array([-along[1], along[0]])
    tip = q + 0.55 * lane * along
    corners = (tip, q + 0.26 * lane * side, q - 0.26 * lane * side)
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in corners)
    return f'<polygon class="a{style}" points="{points}"/>'
