"""What knot figures are held against: their own SVG read back, and the cords in space."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET  # our own pictures, nothing from outside

import numpy as np

from cordwright.draw.outline import FINE
from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy.typing import NDArray

    from cordwright.draw.knotfigure import Figure
    from cordwright.draw.layers import Run, Tube

    Floats = NDArray[np.float64]

SVG = "{http://www.w3.org/2000/svg}"
K = KnotName
SPECS = (
    KnotSpec(K.SQUARE_KNOT, 3),
    KnotSpec(K.SQUARE_KNOT, 4),
    KnotSpec(K.SQUARE_KNOT, 4, hand="right"),
    KnotSpec(K.SQUARE_KNOT, 10),
    KnotSpec(K.SQUARE_KNOT, 4, filler_d=2.0),
    KnotSpec(K.HALF_KNOT, 4),
    KnotSpec(K.HALF_HITCH, 3, hand="right"),
    KnotSpec(K.DOUBLE_HALF_HITCH, 2),
    KnotSpec(K.DOUBLE_HALF_HITCH, 2, hand="right", slant_deg=45.0),
    KnotSpec(K.LARKS_HEAD, 2, over="ring", over_d=1.5),
    KnotSpec(K.LARKS_HEAD, 2, over="rod", over_d=4.0, face="reverse"),
    KnotSpec(K.OVERHAND, 1),
    KnotSpec(K.OVERHAND, 4),
    KnotSpec(K.GATHERING, 5, turns=4),
    KnotSpec(K.BRAID, 3),
    KnotSpec(K.BRAID, 4),
)
HANDED = (
    KnotSpec(K.SQUARE_KNOT, 4),
    KnotSpec(K.HALF_KNOT, 3),
    KnotSpec(K.HALF_HITCH, 3),
    KnotSpec(K.DOUBLE_HALF_HITCH, 2, slant_deg=30.0),
    KnotSpec(K.OVERHAND, 2),
)


@dataclass(frozen=True)
class Stroke:
    """One painted path: its colour, its width in mm and points along it, (n, 2) float in mm."""

    colour: str
    width: float
    points: Floats


def strokes(svg: str) -> list[Stroke]:
    """Every stroked path of the picture itself, in painting order; not those of masks."""
    return [stroke for _, stroke in _painted(ET.fromstring(svg))]  # noqa: S314


def _painted(root: ET.Element) -> list[tuple[int | None, Stroke]]:
    """Strokes with the number of the run whose path they use, if it is a run's own."""
    group = next(g for g in root.iter(f"{SVG}g") if g.get("id"))
    name = group.attrib["id"]
    looks = {cls: (colour, int(width)) for cls, colour, width in LOOK.findall(_style(root))}
    data = {p.attrib["id"]: p.attrib["d"] for p in group.iter(f"{SVG}path") if p.get("id")}
    found: list[tuple[int | None, Stroke]] = []
    for element, look in _shown(group):
        href = element.get("href", "")[1:] or element.get("id", "")
        colour, width = looks[look.split()[0]]
        points = flattened(data[href] if href else element.attrib["d"]) / FINE
        number = int(href.removeprefix(name)) if href else None
        found.append((number, Stroke(colour, width / FINE, points)))
    return found


LOOK = re.compile(r"\.([a-zA-Z]+)\{stroke:(#\w+);stroke-width:(\d+)")


def _style(root: ET.Element) -> str:
    return "".join(s.text or "" for s in root.iter(f"{SVG}style"))


def _shown(group: ET.Element, look: str = "") -> Iterator[tuple[ET.Element, str]]:
    for child in group:
        own = child.get("class", look)
        if child.tag == f"{SVG}g":
            yield from _shown(child, own)
        elif child.tag in (f"{SVG}use", f"{SVG}path"):
            yield child, own


def gaps(svg: str) -> dict[int, set[int]]:
    """For each run that ends at gaps, the runs that make them, as the picture's masks say."""
    root = ET.fromstring(svg)  # noqa: S314
    group = next(g for g in root.iter(f"{SVG}g") if g.get("id"))
    name = group.attrib["id"]
    takes = {
        m.attrib["id"]: {
            int(u.attrib["href"][1 + len(name) :])
            for u in m.iter(f"{SVG}use")
            if u.attrib["href"] != f"#{name}w"
        }
        for m in root.iter(f"{SVG}mask")
    }
    found = {}
    for g in group.iter(f"{SVG}g"):
        mask = g.get("mask", "")
        if mask:
            own = next(p.attrib["id"] for p in g.iter(f"{SVG}path") if p.get("id"))
            found[int(own.removeprefix(name))] = takes[mask[5:-1]]
    return found


def flattened(data: str) -> Floats:
    """Points along path data made of one M and relative cubics; a lone spot is one twice."""
    start, *curves = data[1:].removesuffix("h0").split("c")
    at = np.array(numbers(start))
    t = np.linspace(0.0, 1.0, 13)[1:, None]
    found = [at[None]]
    for curve in curves:
        b, c, d = (at + np.array(numbers(curve)).reshape(3, 2))[:, None]
        found.append(
            (1 - t) ** 3 * at + 3 * (1 - t) ** 2 * t * b + 3 * (1 - t) * t * t * c + t**3 * d
        )
        at = d[0]
    return np.concatenate(found if len(found) > 1 else [*found, *found])


def numbers(text: str) -> list[float]:
    return [float(n) for n in re.findall(r"-?(?:\d+\.?\d*|\.\d+)", text)]


def drawn_runs(figure: Figure) -> dict[int, Stroke]:
    """The outline of each run that is painted, in painting order, by its place in the runs."""
    found: dict[int, Stroke] = {}
    for number, stroke in _painted(ET.fromstring(figure.svg)):  # noqa: S314
        if number is not None:
            found.setdefault(number, stroke)
    return found


def crossings_in_space(tubes: Sequence[Tube]) -> list[tuple[int, float, int, float, Floats]]:
    """Clear crossings found edge by edge: over cord, where, under cord, where, and the place.

    Not clear are crossings at less than 15 degrees, or at the ends of a cord.
    """
    found = []
    curves = [t.points for t in tubes]
    for i, a in enumerate(curves):
        for j in range(i, len(curves)):
            found += _between(i, a, j, curves[j])
    return found


def _between(i: int, a: Floats, j: int, b: Floats) -> list[tuple[int, float, int, float, Floats]]:
    found = []
    q, e = b[:-1], np.diff(b, axis=0)
    far = np.append(0.0, np.cumsum(np.linalg.norm(e, axis=1)))
    along = np.append(0.0, np.cumsum(np.linalg.norm(np.diff(a, axis=0), axis=1)))
    for k in range(len(a) - 1):
        p, d = a[k], a[k + 1] - a[k]
        turn = d[0] * e[:, 1] - d[1] * e[:, 0]
        way = q - p
        with np.errstate(divide="ignore", invalid="ignore"):
            here = (way[:, 0] * e[:, 1] - way[:, 1] * e[:, 0]) / turn
            there = (way[:, 0] * d[1] - way[:, 1] * d[0]) / turn
        hit = (here >= 0) & (here < 1) & (there >= 0) & (there < 1)
        if i == j:
            hit &= np.arange(len(e)) > k + 1
        for m in np.flatnonzero(hit):
            lengths = np.hypot(*d[:2]) * np.hypot(*e[m, :2])
            if abs(turn[m]) < np.sin(np.radians(15)) * lengths:
                continue
            s = along[k] + here[m] * np.linalg.norm(d)
            t = far[m] + there[m] * np.linalg.norm(e[m])
            nearer = p[2] + here[m] * d[2] - q[m, 2] - there[m] * e[m, 2]
            one, other = (i, float(s)), (j, float(t))
            place = (p + here[m] * d)[:2]
            found.append((*one, *other, place) if nearer > 0 else (*other, *one, place))
    return found


def run_at(runs: Sequence[Run], cord: int, where: float) -> int:
    """Which run, counted in painting order, holds a place along a cord."""
    return next(n for n, r in enumerate(runs) if r.cord == cord and r.start <= where <= r.end)
