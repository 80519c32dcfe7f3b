"""Fills the table of makers' figures in docs/published.md from the atlas of tight knots.

Run ``python tools/published.py`` after the atlas was regenerated; a test holds the page to it.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from cordwright.knots.atlas import Atlas
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec

PAGE = Path(__file__).parent.parent / "docs" / "published.md"
START = "<!-- makers' figures: written by tools/published.py -->"
END = "<!-- end of makers' figures -->"
INCH = 25.4


@dataclass(frozen=True, slots=True)
class Row:
    """One published figure beside the computed one.

    Args:
        what: what was measured.
        published: as published.
        low: published value, or the low end of its range.
        high: high end of its range.
        computed: the same from the atlas.
        unit: of low, high and computed.
        digits: shown.
        source: where it was published.
    """

    what: str
    published: str
    low: float
    high: float
    computed: float
    unit: str
    digits: int
    source: str

    def __str__(self) -> str:
        shown = f"{self.computed:.{self.digits}f}{self.unit}"
        return f"| {self.what} | {self.published} | {shown} | {self.difference()} | {self.source} |"

    def difference(self) -> str:
        """How far the computed figure lies outside of the published one, in per cent of it."""
        if self.low <= self.computed <= self.high:
            return "within" if self.low < self.high else "0 %"
        near = self.low if self.computed < self.low else self.high
        return f"{100 * (self.computed / near - 1):+.0f} %"


def rows(atlas: Atlas) -> list[Row]:
    """Every published figure of a maker that the atlas can be held against."""
    square = atlas.figures(KnotSpec(KnotName.SQUARE_KNOT, 4))
    half = atlas.figures(KnotSpec(KnotName.HALF_KNOT, 4))
    overhand = atlas.figures(KnotSpec(KnotName.OVERHAND, 1))
    head = atlas.figures(KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=3.0))
    return [*_sinnets(square), *_spirals(half), *_alone(overhand, head)]


def _sinnets(square: KnotFigures) -> list[Row]:
    per_length = square.take_up_d[0] / square.height_d
    in_all = sum(square.take_up_d) / square.height_d
    log = "a maker's log, devilchasnme.blogspot.com, 2008"
    used = (37 - 3) / 7
    return [
        Row(
            "Square-knot bar, braided nylon, two fillers: working strand per length of bar",
            "4.86 (two working strands of 37 in each, 3 in left of each, gave 7 in)",
            used,
            used,
            per_length,
            "",
            2,
            log,
        ),
        Row(
            "Square-knot bar: cord in all per inch of bar",
            "12 in",
            12,
            12,
            in_all,
            " in",
            1,
            "common rule",
        ),
        Row(
            "Working strands of a square-knot sinnet: times its length",
            "about 4",
            4,
            4,
            per_length,
            "",
            2,
            "common practice",
        ),
        Row(
            "Four square knots abreast, 16 strands of 1.4 mm polyester: width",
            "about 33 mm, about 5.9 d a knot",
            33,
            33,
            4 * square.width_d * 1.4,
            " mm",
            1,
            "jbknotting.blogspot.com",
        ),
        *(
            Row(
                f"One square knot, single-twist or 3-ply cotton, {d:g} mm: one working strand uses",
                f"{cm} cm",
                cm,
                cm,
                square.take_up_d[0] * d / 10,
                " cm",
                1,
                "urbaki.com",
            )
            for d, cm in ((1.5, 3), (3.0, 5), (5.0, 6))
        ),
    ]


def _spirals(half: KnotFigures) -> list[Row]:
    return [
        Row(
            "Spiral of about 24 half knots over two fillers, 4 mm: length",
            "about 6 in",
            6,
            6,
            24 * half.height_d * 4 / INCH,
            " in",
            1,
            "onelittleproject.com",
        ),
        Row(
            "Half-knot sinnet over two fillers: half a turn in",
            "four to six knots",
            4,
            6,
            180 / abs(half.twist_deg),
            " knots",
            1,
            "common practice",
        ),
    ]


def _alone(overhand: KnotFigures, head: KnotFigures) -> list[Row]:
    shortens = (overhand.take_up_d[0] - overhand.height_d) * 0.8 / INCH
    return [
        Row(
            "One overhand knot in 0.8 mm waxed linen: shortens 4 in by",
            "0.25 in (to 3.75 in)",
            0.25,
            0.25,
            shortens,
            " in",
            2,
            "jewelrytutorialhq.com",
        ),
        Row(
            "Cords folded over a rod, side by side: width of one (lark's head)",
            "about 3 d",
            3,
            3,
            head.width_d,
            " d",
            1,
            "common practice",
        ),
    ]


def table(atlas: Atlas) -> str:
    """The table in Markdown."""
    head = "| what | published | computed | difference | source |\n| --- | --- | --- | --- | --- |"
    return "\n".join([head, *(str(r) for r in rows(atlas))])


def filled(page: str, atlas: Atlas) -> str:
    """The page with its table made anew."""
    before, rest = page.split(START)
    _, after = rest.split(END)
    return f"{before}{START}\n{table(atlas)}\n{END}{after}"


if __name__ == "__main__":
    PAGE.write_text(filled(PAGE.read_text(encoding="utf-8"), Atlas()), encoding="utf-8")
