"""Pictures of many knots at once: what they are called, and contact sheets to look them over."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from html import escape
from typing import TYPE_CHECKING

from cordwright.draw.caption import title
from cordwright.draw.ink import TEXT
from cordwright.draw.knotfigure import Figure, knot_figure
from cordwright.draw.piece_layout import wrapped
from cordwright.draw.piece_text import FAMILY, Text
from cordwright.draw.tying import tying
from cordwright.draw.wording import english
from cordwright.knots.canonical import key

if TYPE_CHECKING:
    from cordwright.draw.wording import Wording
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec


@dataclass(frozen=True, slots=True)
class Pictures:
    """All pictures of one knot.

    Args:
        name: which no two knots share, fit for a file.
        title: the knot in words.
        tight: the tight knot.
        steps: the steps of its tying.
    """

    name: str
    title: str
    tight: Figure
    steps: tuple[Figure, ...]

    def files(self) -> dict[str, str]:
        """SVG texts by the names of their files."""
        steps = {f"{self.name}-step-{n}.svg": f.svg for n, f in enumerate(self.steps, start=1)}
        return {f"{self.name}.svg": self.tight.svg, **steps}


def pictures(atlas: Atlas, spec: KnotSpec, wording: Wording | None = None) -> Pictures:
    """The pictures of one knot, with titles in a language; in English if no wording is given.

    Raises:
        KnotError: if the knot cannot be tied as specified.
    """
    parts = [key(spec).replace(" ", "-")]
    parts += [spec.hand] if spec.hand == "right" else []
    parts += [spec.face] if spec.face == "reverse" else []
    said = wording or english()
    steps = tuple(step.figure for step in tying(atlas, spec, said))
    tight = knot_figure(atlas, spec, wording=said)
    return Pictures("-".join(parts), title(spec, said), tight, steps)


COLUMNS = 10
"""Figures side by side on a sheet."""

GAP_MM = 6.0
"""Room between figures on a sheet."""


CAPTION = 3.2
"""Size of lettering below the figures, mm."""


def sheet_svg(all_pictures: Sequence[Pictures]) -> tuple[str, float, float]:
    """Tight knots in rows with their names, and the width and height of the whole in mm."""
    cell = max(p.tight.width_mm for p in all_pictures) + GAP_MM
    body: list[str] = []
    top = GAP_MM
    for first in range(0, len(all_pictures), COLUMNS):
        row = all_pictures[first : first + COLUMNS]
        high = max(p.tight.height_mm for p in row)
        low = top
        for n, p in enumerate(row):
            left = GAP_MM / 2 + n * cell
            x = left + (cell - GAP_MM - p.tight.width_mm) / 2
            # Inside a picture whose unit is the mm already, sizes are given without it.
            opened = f'<svg x="{x:.2f}" y="{top + high - p.tight.height_mm:.2f}" '
            body.append(p.tight.svg.replace("<svg ", opened, 1).replace('mm"', '"', 2))
            names = _caption(p.title, left + (cell - GAP_MM) / 2, top + high, cell - GAP_MM)
            body += [t.svg() for t in names]
            low = max([low, *(t.box.bottom for t in names)])
        top = low + GAP_MM
    width = min(COLUMNS, len(all_pictures)) * cell
    opening = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width:.2f} {top:.2f}"'
    size = f' width="{width:.2f}mm" height="{top:.2f}mm">\n'
    font = f"<style>text{{font-family:'{FAMILY}',sans-serif;fill:{TEXT}}}</style>\n"
    return opening + size + font + "\n".join(body) + "</svg>\n", width, top


def _caption(words: str, middle: float, top: float, most: float) -> list[Text]:
    """A name in lines below a figure, centred."""
    lines = wrapped(words, most, CAPTION)
    first = top + 1.2 * CAPTION
    return [
        Text(line, middle, first + 1.3 * CAPTION * i, CAPTION, anchor="middle")
        for i, line in enumerate(lines)
    ]


STYLE = """\
body { font-family: sans-serif; background: #fffdf8; color: #33292b; margin: 2rem; }
section { break-inside: avoid; margin-bottom: 2rem; }
h2 { font-size: 1rem; font-weight: 600; }
div { display: flex; gap: 1rem; align-items: flex-start; overflow-x: auto; }
img { height: 16rem; width: auto; }
"""


def sheet_html(all_pictures: Sequence[Pictures]) -> str:
    """A page with every knot and its steps, which shows the files beside it."""
    sections = []
    for p in all_pictures:
        images = "".join(
            f'<img src="{escape(name)}" alt="{escape(p.title)}">' for name in p.files()
        )
        sections.append(f"<section><h2>{escape(p.title)}</h2><div>{images}</div></section>")
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8"><title>Knots</title>\n'
        f"<style>\n{STYLE}</style></head><body>\n" + "\n".join(sections) + "\n</body></html>\n"
    )
