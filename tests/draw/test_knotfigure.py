from __future__ import annotations

import re
from dataclasses import replace
from itertools import combinations, pairwise
from xml.etree import ElementTree as ET

import numpy as np
import pytest

from cordwright.draw.cords import cords_of
from cordwright.draw.curves import at, even, lengths
from cordwright.draw.ink import INKS, PAPER
from cordwright.draw.knotfigure import CORD_MM, Figure, inks_of, knot_figure
from cordwright.draw.layers import Tube, View
from cordwright.draw.tying import tying
from cordwright.knots.atlas import Atlas
from cordwright.knots.canonical import key
from cordwright.knots.spec import KnotName, KnotSpec
from tests.draw.knotpictures import (
    HANDED,
    SPECS,
    SVG,
    Stroke,
    crossings_in_space,
    drawn_runs,
    gaps,
    run_at,
    strokes,
)

ATLAS = Atlas()
every_knot = pytest.mark.parametrize("spec", SPECS, ids=lambda s: f"{key(s)} {s.hand}")


def wrong_crossings(figure: Figure) -> tuple[int, int]:
    """How many crossings can be seen, and how many the painted layers have the other way.

    The layers are those of the SVG: at each crossing both cords' outlines must pass, and the
    upper one's must be painted later. What lies wholly behind other cord is not painted.
    """
    runs = drawn_runs(figure)
    order = list(runs)
    wrong = count = 0
    for over, s, under, t, place in crossings_in_space(figure.tubes):
        upper, lower = run_at(figure.runs, over, s), run_at(figure.runs, under, t)
        if upper not in runs or lower not in runs:
            continue
        paper = figure.page.on(place[None])[0]
        for n in (upper, lower):
            near = np.hypot(*(even(runs[n].points, 0.05) - paper).T).min()
            assert near < 0.05 * CORD_MM, "the outline does not pass where the cord does"
        count += 1
        wrong += order.index(upper) < order.index(lower)
    return count, wrong


@every_knot
def test_every_crossing_is_painted_as_it_is_in_space(spec: KnotSpec) -> None:
    figure = knot_figure(ATLAS, spec)
    count, wrong = wrong_crossings(figure)
    assert count > 2
    assert wrong == 0
    # Most crossings of most knots are seen.
    assert count > 0.4 * len(crossings_in_space(figure.tubes))


def test_layers_in_the_wrong_order_are_noticed() -> None:
    figure = knot_figure(ATLAS, KnotSpec(KnotName.SQUARE_KNOT, 4))
    lines = figure.svg.splitlines()
    first, last = lines.index("</defs>") + 1, lines.index("</g>")
    upside_down = "\n".join(lines[:first] + lines[first:last][::-1] + lines[last:])
    count, wrong = wrong_crossings(replace(figure, svg=upside_down))
    assert wrong == count


@every_knot
def test_cords_end_at_gaps_where_others_cross_over_them(spec: KnotSpec) -> None:
    figure = knot_figure(ATLAS, spec)
    found = gaps(figure.svg)
    runs = drawn_runs(figure)
    order = list(runs)
    for behind, uppers in found.items():
        # Runs share masks, which then take away what comes nowhere near some of them too.
        above = [upper for upper in uppers if overlap(runs[behind], runs[upper])]
        assert above
        assert all(order.index(upper) > order.index(behind) for upper in above)
    seen = met = 0
    for over, s, under, t, _ in crossings_in_space(figure.tubes):
        for end in (-1.0, 1.0):
            where = comes_out(figure.tubes, over, s, under, t, end)
            if where is not None:
                seen += 1
                upper = run_at(figure.runs, over, s)
                met += upper in found.get(run_at(figure.runs, under, where), ())
    assert seen > 0
    assert met >= 0.85 * seen  # some graze the next run of the same cord instead


def overlap(one: Stroke, other: Stroke) -> bool:
    """Whether two strokes cover a place together."""
    gap = one.points[:, None] - other.points[None]
    return float(np.hypot(gap[..., 0], gap[..., 1]).min()) < 0.5 * (one.width + other.width)


def comes_out(
    tubes: tuple[Tube, ...], over: int, s: float, under: int, t: float, end: float
) -> float | None:
    """Where along the lower cord it comes out beside the upper one, if it is in front there."""
    upper, lower = tubes[over], tubes[under]
    near = np.linspace(max(0.0, s - 1.5), s + 1.5, 60)
    rim = at(upper.points, near)[:, :2]
    for where in t + end * np.arange(0.2, 1.6, 0.05) * upper.diameter:
        if not 0.0 < where < float(lengths(lower.points)[-1]):
            return None
        spot = at(lower.points, np.array([where]))[0]
        if np.hypot(*(rim - spot[:2]).T).min() > upper.diameter / 2 + 0.03:
            front = front_by_depth(tubes, spot[:2])
            deep = float(at(upper.points, np.array([s]))[0, 2] - spot[2])
            plain = front[0][1] == under and abs(front[0][2] - where) < 0.3
            return where if plain and deep > 0.5 * (upper.diameter + lower.diameter) / 2 else None
    return None


def test_gaps_are_open() -> None:
    """Nothing of the ground's colour is painted, and nothing white but in masks."""
    svg = knot_figure(ATLAS, KnotSpec(KnotName.SQUARE_KNOT, 4)).svg
    assert PAPER not in svg
    assert "<mask" in svg
    assert svg.count("#fff") == 1


def test_figures_can_stand_in_one_page() -> None:
    """Names and classes of one figure say nothing about another's."""
    texts = [knot_figure(ATLAS, spec).svg for spec in SPECS]
    names = [set(re.findall(r'id="([^"]+)"', text)) for text in texts]
    for a, b in combinations(names, 2):
        assert not a & b
    for text, own in zip(texts, names, strict=True):
        assert all(rule.split()[0][1:] in own for rule in re.findall(r"[^{}>]+(?=\{)", text))


def front_by_depth(tubes: tuple[Tube, ...], spot: np.ndarray) -> list[tuple[float, int, float]]:
    """Tube surfaces at a spot of the page, nearest first: how near, which cord, where along it."""
    found = []
    for cord, tube in enumerate(tubes):
        points = even(tube.points, 0.05)
        apart = np.hypot(*(points[:, :2] - spot).T)
        r = tube.diameter / 2
        inside = apart < r
        if inside.any():
            surface = points[:, 2] + np.sqrt(np.maximum(0.0, r * r - apart**2))
            best = int(np.where(inside, surface, -np.inf).argmax())
            along = float(lengths(points)[best])
            found.append((float(surface[best]), cord, along))
    return sorted(found, reverse=True)


@every_knot
def test_what_is_seen_is_what_is_in_front(spec: KnotSpec) -> None:
    """Spots on the page, against the surfaces of the tubes in space."""
    figure = knot_figure(ATLAS, spec)
    runs = drawn_runs(figure)
    rng = np.random.default_rng(3)
    wrong = seen = 0
    for _ in range(250):
        tube = figure.tubes[rng.integers(len(figure.tubes))]
        total = float(lengths(tube.points)[-1])
        middle = at(tube.points, np.array([rng.uniform(0.03, 0.97) * total]))[0, :2]
        spot = middle + rng.uniform(-0.25, 0.25, 2)
        front = front_by_depth(figure.tubes, spot)
        if not front or (len(front) > 1 and front[0][0] - front[1][0] < 0.15):
            continue
        paper = figure.page.on(spot[None])[0]
        painted = [
            n
            for n, stroke in runs.items()
            if np.hypot(*(even(stroke.points, 0.1) - paper).T).min() < stroke.width / 2
        ]
        seen += 1
        wrong += figure.runs[painted[-1]].cord != front[0][1]
    assert seen > 100
    assert wrong <= 0.0125 * seen  # where runs go from below to above, within a sample


@every_knot
def test_no_cord_is_broken(spec: KnotSpec) -> None:
    figure = knot_figure(ATLAS, spec)
    for n, tube in enumerate(figure.tubes):
        parts = sorted((r.start, r.end) for r in figure.runs if r.cord == n)
        assert parts[0][0] == pytest.approx(0.0, abs=1e-9)
        assert parts[-1][1] == pytest.approx(lengths(tube.points)[-1], abs=1e-9)
        for a, b in pairwise(parts):
            assert a[1] == b[0]


@every_knot
def test_each_run_is_painted_along_its_cord(spec: KnotSpec) -> None:
    figure = knot_figure(ATLAS, spec)
    for n, stroke in drawn_runs(figure).items():
        run = figure.runs[n]
        tube = figure.tubes[run.cord]
        inside = np.arange(run.start, run.end, 0.2)
        wanted = figure.page.on(at(tube.points, inside))
        drawn = even(stroke.points, 0.05)
        miss = [np.hypot(*(drawn - p).T).min() for p in wanted]
        assert max(miss) < 0.03 * tube.diameter * CORD_MM + 0.03


@every_knot
def test_all_is_inside_the_picture(spec: KnotSpec) -> None:
    figure = knot_figure(ATLAS, spec)
    for stroke in strokes(figure.svg):
        low, high = stroke.points.min(axis=0), stroke.points.max(axis=0)
        assert (low - stroke.width / 2 > 0).all()
        assert high[0] + stroke.width / 2 < figure.width_mm
        assert high[1] + stroke.width / 2 < figure.height_mm


# The other hand's pictures are mirror images, as other tests say.
LEFT = [f.spec for f in ATLAS.entries() if f.spec.hand == "left"]


def test_the_whole_atlas_is_looked_at() -> None:
    assert len(LEFT) > 60


@pytest.mark.parametrize("spec", LEFT, ids=key)
def test_every_figure_and_every_step_is_small(spec: KnotSpec) -> None:
    assert len(knot_figure(ATLAS, spec).svg) < 30_000
    assert max(len(step.figure.svg) for step in tying(ATLAS, spec)) < 30_000


@pytest.mark.parametrize("spec", HANDED, ids=key)
def test_the_other_hand_is_the_mirror_image(spec: KnotSpec) -> None:
    left = knot_figure(ATLAS, spec)
    right = knot_figure(ATLAS, replace(spec, hand="right"))
    assert right.width_mm == pytest.approx(left.width_mm, abs=1e-6)
    assert [r.cord for r in right.runs] == [r.cord for r in left.runs]
    for a, b in zip(strokes(left.svg), strokes(right.svg), strict=True):
        assert a.colour == b.colour
        turned = b.points * [-1.0, 1.0] + [right.width_mm, 0.0]
        assert np.abs(even(a.points, 0.2)[[0, -1]] - even(turned, 0.2)[[0, -1]]).max() < 0.1


def test_a_knot_is_not_its_own_mirror_image() -> None:
    left = knot_figure(ATLAS, KnotSpec(KnotName.OVERHAND, 1))
    turned = knot_figure(ATLAS, KnotSpec(KnotName.OVERHAND, 1), view=View(turn=180.0))
    assert [r.cord for r in left.runs] == [0] * len(left.runs)
    assert left.svg != turned.svg


@every_knot
def test_strands_differ_without_colour(spec: KnotSpec) -> None:
    cords = cords_of(ATLAS, spec)
    inks = inks_of(cords)
    strands = {(c.cell, c.place): i for c, i in zip(cords, inks, strict=True) if i in INKS}
    for a, b in combinations(strands.values(), 2):
        assert a.mark != b.mark
    for cord, ink in zip(cords, inks, strict=True):
        assert (ink in INKS) == (cord.role.value == "working" and not cord.fixed)


def test_a_figure_says_what_it_shows() -> None:
    figure = knot_figure(ATLAS, KnotSpec(KnotName.SQUARE_KNOT, 4))
    root = ET.fromstring(figure.svg)  # noqa: S314
    title, desc = root.find(f"{SVG}title"), root.find(f"{SVG}desc")
    assert title is not None
    assert title.text == "Square knot round 2 fillers, left hand"
    assert desc is not None
    assert desc.text == "Cords: terracotta, plain; teal, line; flax, plain."
    assert root.attrib["role"] == "img"
    assert root.attrib["viewBox"].split()[2] == f"{figure.width_mm:.2f}"


def test_more_knots_make_a_longer_sinnet() -> None:
    one, three = (
        knot_figure(ATLAS, KnotSpec(KnotName.SQUARE_KNOT, 4), cells=n).height_mm for n in (1, 3)
    )
    height = ATLAS.figures(KnotSpec(KnotName.SQUARE_KNOT, 4)).height_d
    assert (three - one) / CORD_MM == pytest.approx(2 * height, rel=0.01)
