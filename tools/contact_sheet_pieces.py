"""Draws all example plans, pieces and charts, as PNG on one sheet each, to look at.

Run ``python tools/contact_sheet_pieces.py FOLDER``; beside the two sheets the folder then has every
picture as SVG and PNG. Pieces hang with what their plans say that they hold.
"""

from __future__ import annotations

import base64
import sys
from pathlib import Path

import cordwright.examples
from cordwright.draw.chart_sheet import chart_sheet
from cordwright.draw.ink import PAPER
from cordwright.draw.piece_png import png
from cordwright.draw.piece_sheet import piece_sheet
from cordwright.draw.placed_shape import as_it_looks
from cordwright.knots.atlas import Atlas
from cordwright.piece.work import work
from cordwright.plan.read import read_plan

EXAMPLES = Path(cordwright.examples.__path__[0])
COLUMNS, WIDE, HIGH = 4, 240.0, 300.0

Picture = tuple[bytes, float, float]
"""A PNG with the width and height of its page, mm."""


def draw(folder: Path) -> None:
    """Every example's pictures, and the two sheets."""
    atlas = Atlas()
    pieces: list[Picture] = []
    charts: list[Picture] = []
    folder.mkdir(parents=True, exist_ok=True)
    for path in sorted(EXAMPLES.glob("*.yaml")):
        piece = work(read_plan(path), atlas)
        whole = piece_sheet(as_it_looks(piece, atlas))
        pieces.append(_saved(folder / f"{path.stem}-piece", whole.svg, whole.width, whole.height))
        chart = chart_sheet(piece, atlas)
        charts.append(_saved(folder / f"{path.stem}-chart", chart.svg, chart.width, chart.height))
    for name, pictures in (("pieces", pieces), ("charts", charts)):
        svg, width, height = _sheet(pictures)
        (folder / f"{name}.png").write_bytes(png(svg, width, height, 3.0))


def _saved(stem: Path, svg: str, width: float, height: float) -> Picture:
    stem.with_suffix(".svg").write_text(svg, encoding="utf-8")
    data = png(svg, width, height)
    stem.with_suffix(".png").write_bytes(data)
    return data, width, height


def _sheet(pictures: list[Picture]) -> tuple[str, float, float]:
    """An SVG with all pictures in rows, each as large as its place lets it be."""
    rows = -(-len(pictures) // COLUMNS)
    width, height = COLUMNS * WIDE, rows * HIGH
    parts = []
    for i, (data, w, h) in enumerate(pictures):
        scale = min(0.96 * WIDE / w, 0.96 * HIGH / h)
        x, y = (i % COLUMNS) * WIDE, (i // COLUMNS) * HIGH
        parts.append(
            f'<image x="{x:.1f}" y="{y:.1f}" width="{w * scale:.1f}" height="{h * scale:.1f}" '
            f'href="data:image/png;base64,{base64.b64encode(data).decode()}"/>'
        )
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}"><rect width="100%" height="100%" fill="{PAPER}"/>'
        f"{''.join(parts)}</svg>"
    )
    return svg, width, height


if __name__ == "__main__":
    draw(Path(sys.argv[1] if len(sys.argv) > 1 else "contact-sheets"))
