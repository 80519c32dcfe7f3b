"""Fills the tables of the examples' figures in docs/examples.md and docs/shape.md.

Run ``python tools/examples_page.py`` after a change of the atlas or of an example; tests hold
the pages to it.
"""

from __future__ import annotations

import re
from pathlib import Path

import cordwright.examples
from cordwright.hang.counted import as_worked, counted
from cordwright.knots.atlas import Atlas
from cordwright.piece.cutlist import cut_list
from cordwright.piece.report import cut_json
from cordwright.piece.work import work
from cordwright.plan.read import read_plan

PAGE = Path(__file__).parent.parent / "docs" / "examples.md"
FOLDER = Path(cordwright.examples.__path__[0])
SHAPE = PAGE.with_name("shape.md")
COUNTED = re.compile(
    r"^\| `([a-z-]+)` \| [\d.]+ m \| [\d.]+ m \| [-+\d.]+ % \| (.*) \|$", re.MULTILINE
)
ROW = re.compile(r"^\| `([a-z-]+)` \|.*$", re.MULTILINE)


def row(name: str, atlas: Atlas) -> str:
    """One example's row of the table."""
    piece = counted(as_worked(work(read_plan(FOLDER / f"{name}.yaml"), atlas)))
    answer = cut_json(piece, cut_list(piece))
    finished = answer["finished_length_mm"] / 10
    metres = answer["total_mm"] / 1000
    grams = sum(kind["weight_g"] for kind in answer["kinds"])
    knots = answer["knots"]
    return f"| `{name}` | {finished:.0f} cm | {metres:.1f} m | {knots} | {grams:.0f} g |"


def filled(page: str, atlas: Atlas) -> str:
    """The page with its figures made anew."""
    return ROW.sub(lambda found: row(found[1], atlas), page)


def counted_row(name: str, why: str, atlas: Atlas) -> str:
    """One example's row of the table of counted lengths; the reason stays as it is written."""
    piece = work(read_plan(FOLDER / f"{name}.yaml"), atlas)
    added, found = (cut_list(p).used_mm / 1000 for p in (piece, counted(as_worked(piece))))
    change = 100 * (found / added - 1)
    return f"| `{name}` | {added:.2f} m | {found:.2f} m | {change:+.1f} % | {why} |"


def counted_filled(page: str, atlas: Atlas) -> str:
    """The page about the shape with its figures made anew."""
    return COUNTED.sub(lambda found: counted_row(found[1], found[2], atlas), page)


if __name__ == "__main__":
    tight = Atlas()
    for path, fill in ((PAGE, filled), (SHAPE, counted_filled)):
        path.write_text(fill(path.read_text(encoding="utf-8"), tight), encoding="utf-8")
