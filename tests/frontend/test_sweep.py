"""Free cord in the page: tubes of the right thickness along their curves, closed where they end."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np
import pytest

if TYPE_CHECKING:
    from tests.frontend.conftest import Run

SCRIPT = """
import { swept } from "SRC/stage/sweep";
declare const given: { cords: { points: number[] }[]; sides: number; turn: number; times: number };
const cords = Array.from({ length: given.times }, () => given.cords).flat()
  .map((c) => ({ ...c, points: new Float32Array(c.points) }));
const { position, normal, strands, index, uv } = swept(cords as never, given);
const last = index.reduce((m, i) => Math.max(m, i), 0);
tell(given.times > 1 ? { vertices: strands.length, last } : {
  position: [...position], normal: [...normal], strands: [...strands], index: [...index],
  uv: [...uv],
});
"""
BEND = [0, 0, 0, 0, -0.1, 0, 0.1, -0.2, 0, 0.2, -0.2, 0.05]
ON = [0.3, -0.2, 0.1, 0.3, -0.3, 0.1, 0.3, -0.4, 0.1]


def cord(strand: int, points: list[float], ends: int = 0, thick: float = 0.004) -> dict[str, Any]:
    return {"strand": strand, "ends": ends, "thick": thick, "pitch": 3.2 * thick, "points": points}


def bezier(points: list[float], count: int) -> np.ndarray:
    p = np.array(points).reshape(-1, 3)
    t = np.linspace(0.0, 1.0, count)[:, None]
    u = 1 - t
    parts = [
        u**3 * p[i] + 3 * u * u * t * p[i + 1] + 3 * u * t * t * p[i + 2] + t**3 * p[i + 3]
        for i in range(0, len(p) - 1, 3)
    ]
    return np.concatenate(parts)


def test_a_tube_lies_round_its_curve_and_shows_its_outside(run: Run) -> None:
    cords = [cord(3, BEND + ON, ends=3), cord(5, [0, 1, 0, 0, 0.9, 0, 0, 0.8, 0, 0, 0.7, 0])]
    made = run(SCRIPT, {"cords": cords, "sides": 10, "turn": 0.1, "times": 1})
    points = np.array(made["position"]).reshape(-1, 3)
    normals = np.array(made["normal"]).reshape(-1, 3)
    strands, faces = np.array(made["strands"]), np.array(made["index"]).reshape(-1, 3)
    curve = bezier(BEND + ON, 400)
    mine = points[strands == 3]
    away = np.linalg.norm(mine[:, None] - curve[None], axis=2).min(axis=1)
    caps = 2 * 11
    assert away[:-caps] == pytest.approx(np.full(len(mine) - caps, 0.002), abs=6e-5)
    assert np.linalg.norm(normals, axis=1) == pytest.approx(np.ones(len(normals)), abs=1e-5)
    a, b, c = (points[faces[:, i]] for i in range(3))
    out = np.cross(b - a, c - a)
    assert ((out * normals[faces].mean(axis=1)).sum(axis=1) > 0.0).all()
    # What is closed has an inside: by the divergence theorem, that of a round cord of its length.
    closed = strands[faces[:, 0]] == 3
    volume = float((a[closed] * np.cross(b[closed], c[closed])).sum()) / 6.0
    length = float(np.linalg.norm(np.diff(curve, axis=0), axis=1).sum())
    ring = 0.5 * 10 * np.sin(2 * np.pi / 10) * 0.002**2
    assert volume == pytest.approx(ring * length, rel=0.02)
    straight = points[strands == 5]
    assert straight[:, 1].max() == pytest.approx(1.0)
    assert straight[:, 1].min() == pytest.approx(0.7)


def test_knots_that_touch_keep_the_strand_whole(run: Run) -> None:
    made = run(SCRIPT, {"cords": [cord(1, [0.1] * 12)], "sides": 5, "turn": 0.6, "times": 1})
    assert len(made["strands"]) == 2 * 6
    assert np.isfinite(made["position"]).all()


def test_much_cord_takes_no_more_than_there_is_room_for(run: Run) -> None:
    given = {"cords": [cord(1, BEND + ON)], "sides": 10, "turn": 0.1, "times": 4000}
    made = run(SCRIPT, given)
    assert made["last"] == made["vertices"] - 1
    assert 4000 * 2 * 6 <= made["vertices"] <= 4000 * 6 * 6
