"""Fills the table of docs/swatches.md: whether the stated chance holds, and what swatches save.

Makers are made up: each has hands and cords drawn at random, ties swatches and then a piece. Run
``python tools/swatch_study.py`` after the model was changed; a test holds the page to it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import numpy as np

from cordwright.cords.handling import IDEAL_RATIO, PUBLISHED
from cordwright.cords.swatch import FREE_SD, RULE_MM
from cordwright.cords.swatch_length import Doubts, length_for
from cordwright.cords.swatch_model import Trial, Work, learn, predict
from cordwright.cords.swatch_prior import Prior, published_prior

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Floats = NDArray[np.float64]

PAGE = Path(__file__).parent.parent / "docs" / "swatches.md"
START = "<!-- study: written by tools/swatch_study.py -->"
END = "<!-- end of study -->"
MAKERS = 4000
SEED = 20_261
SWATCH_KNOTS = 10
SWATCH_MM = 670.0  # cord that a working strand uses in ten square knots of 4 mm cord
PIECE_KNOTS = 30
KNOTTED_MM, FREE_MM, TAIL_MM = 2000.0, 1000.0, 100.0
SWATCHES = (0, 1, 3, 6)
RISKS = (0.2, 0.05, 0.01)
OTHERS_RISK = 0.05

Draw = Callable[[np.random.Generator, int, int], tuple["Floats", "Floats"]]
"""Draws makers: log factors of (makers, swatches), as measured, and of (makers,) pieces."""


def from_prior(prior: Prior, *, other_knots: bool = False) -> Draw:
    """Makers as the model takes them to be.

    With ``other_knots`` every swatch is in a knot of its own, and the piece in yet another.
    """

    def draw(rng: np.random.Generator, makers: int, swatches: int) -> tuple[Floats, Floats]:
        times = np.sqrt(prior.dof / rng.chisquare(prior.dof, (makers, 1)))  # session / best guess
        shared, kind = np.hypot(prior.maker, prior.cord), prior.kind
        kinds = swatches + 1 if other_knots else 1
        own = prior.middle + shared * times * rng.standard_normal((makers, 1))
        own = own + kind * times * rng.standard_normal((makers, kinds))
        own = np.broadcast_to(own, (makers, swatches + 1))

        def tied(mine: Floats, knots: int, error: float) -> Floats:
            sd = np.sqrt(prior.repeat**2 + prior.knot**2 / knots + error**2)
            found: Floats = mine + sd * times * rng.standard_normal(mine.shape)
            return found

        seen = tied(own[:, :swatches], SWATCH_KNOTS, RULE_MM / SWATCH_MM)
        return seen, tied(own[:, swatches], PIECE_KNOTS, 0.0)

    return draw


def between_published(
    rng: np.random.Generator, makers: int, swatches: int
) -> tuple[Floats, Floats]:
    """Other makers: evenly between the published ends, every one repeating within 3 %."""
    ends = np.log([f.ratio / IDEAL_RATIO for f in PUBLISHED])
    own = rng.uniform(ends.min(), ends.max(), (makers, 1))
    tied = own + 0.03 * rng.standard_normal((makers, swatches + 1))
    return tied[:, :-1], tied[:, -1]


@dataclass(frozen=True, slots=True)
class Found:
    """What came out for one number of swatches and one risk.

    Args:
        enough: part of the makers whose strand was long enough.
        spare: mean spare, as a part of the cord that was expected to be used.
        left: mean length left over, as a part of the cord used, of those who had enough.
    """

    enough: float
    spare: float
    left: float


@cache
def study(
    draw: Draw, swatches: int, risk: float, makers: int = MAKERS, other_knots: bool = False
) -> Found:
    """Many makers tie swatches, cut a strand with the risk, and tie the piece.

    With ``other_knots`` the model is told that every swatch is in a knot of its own.
    """
    rng = np.random.default_rng([SEED, swatches])
    seen, piece = draw(rng, makers, swatches)
    free = 1.0 + FREE_SD * rng.standard_normal(makers)
    used = TAIL_MM + FREE_MM * free + KNOTTED_MM * np.exp(piece)
    prior = published_prior()
    error = RULE_MM / SWATCH_MM
    knots = [f"knot {n}" if other_knots else "square knot" for n in range(swatches)]
    of = [Work("a maker", "a cord", {knot: 1.0}, SWATCH_KNOTS) for knot in knots]
    new = Work("a maker", "a cord", {"square knot": 1.0}, PIECE_KNOTS)
    ahead = [
        predict(learn(prior, [Trial(o, y, error) for o, y in zip(of, row, strict=True)]), new)
        for row in seen
    ]
    location = np.array([s.location for s in ahead])
    every = np.ones(makers)
    cut = length_for(
        Doubts(
            TAIL_MM * every,
            FREE_MM * every,
            KNOTTED_MM * every,
            location,
            np.array([s.scale for s in ahead]),
            np.array([s.dof for s in ahead]),
        ),
        risk,
    )
    expected = TAIL_MM + FREE_MM + KNOTTED_MM * np.exp(location)
    enough = used <= cut
    return Found(
        float(enough.mean()),
        float((cut / expected - 1.0).mean()),
        float((cut / used - 1.0)[enough].mean()),
    )


OWN = from_prior(published_prior())
IN_OTHERS = from_prior(published_prior(), other_knots=True)


def table() -> str:
    """Every number of swatches at every risk; other makers at one risk."""
    lines = [
        "| swatches | chance stated | had enough | spare | left over "
        "| other makers: had enough | spare | left over |",
        "| --- | --- | --- | --- | --- | --- | --- | --- |",
    ]
    for swatches in SWATCHES:
        for risk in RISKS:
            cells = [f"{swatches}", f"{100 * (1 - risk):.0f} %", *_cells(OWN, swatches, risk)]
            if risk == OTHERS_RISK:
                cells += _cells(between_published, swatches, risk)
            else:
                cells += ["", "", ""]
            lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


def others_table() -> str:
    """The same where every swatch is in another knot than the piece."""
    lines = ["| swatches | chance stated | had enough | spare | left over |"]
    lines.append("| --- | --- | --- | --- | --- |")
    for swatches in SWATCHES[1:]:
        for risk in RISKS:
            cells = _cells(IN_OTHERS, swatches, risk, other_knots=True)
            lines.append(f"| {swatches} | {100 * (1 - risk):.0f} % | {' | '.join(cells)} |")
    return "\n".join(lines)


def _cells(draw: Draw, swatches: int, risk: float, *, other_knots: bool = False) -> list[str]:
    found = study(draw, swatches, risk, other_knots=other_knots)
    return [f"{100 * v:.1f} %" for v in (found.enough, found.spare, found.left)]


def saved() -> str:
    """By how much three swatches cut the spare."""
    before, after = study(OWN, 0, OTHERS_RISK), study(OWN, 3, OTHERS_RISK)
    return (
        f"At {100 * (1 - OTHERS_RISK):.0f} in 100 the spare of the whole strand falls from "
        f"{100 * before.spare:.0f} % without a swatch to {100 * after.spare:.0f} % with three: by "
        f"{100 * (1 - after.spare / before.spare):.0f} %."
    )


def filled(page: str) -> str:
    """The page with its tables made anew."""
    head, rest = page.split(START)
    tail = rest.split(END)[1]
    others = f"Every swatch in a knot of its own, and the piece in yet another:\n\n{others_table()}"
    return f"{head}{START}\n{saved()}\n\n{table()}\n\n{others}\n{END}{tail}"


if __name__ == "__main__":
    PAGE.write_text(filled(PAGE.read_text(encoding="utf-8")), encoding="utf-8")
