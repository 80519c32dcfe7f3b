"""Tangles whose tight length is known from the literature."""

from __future__ import annotations

import numpy as np

from cordwright.knots.tangle import Course, Points, Repeat, Symmetry, Tangle, through

Q = np.linspace(0.0, 2.0 * np.pi, 72, endpoint=False)


def closed(*curves: Points) -> Tangle:
    return Tangle(tuple(Course(c, "closed") for c in curves))


def circle(centre: tuple[float, float, float], radius: float, u: str, v: str) -> Points:
    axes = {"x": np.eye(3)[0], "y": np.eye(3)[1], "z": np.eye(3)[2]}
    ring = np.cos(Q)[:, None] * axes[u] + np.sin(Q)[:, None] * axes[v]
    return np.array(centre) + radius * ring


def torus(p: int, q: int, scale: float = 1.7, tube: float = 0.45) -> Tangle:
    """The (p, q) torus knot or link: q turns round the tube in p turns round the axis."""
    parts = int(np.gcd(p, q))
    curves = []
    for k in range(parts):
        a = p // parts * Q
        b = q // parts * Q + 2 * np.pi * k / parts * (1 if parts > 1 else 0)
        r = 1 + tube * np.cos(b)
        curves.append(scale * np.stack([r * np.cos(a), r * np.sin(a), -tube * np.sin(b)], axis=1))
    return closed(*curves)


def figure_eight() -> Tangle:
    r = 2 + np.cos(2 * Q)
    return closed(1.1 * np.stack([r * np.cos(3 * Q), r * np.sin(3 * Q), 1.6 * np.sin(4 * Q)], 1))


def hopf() -> Tangle:
    return closed(circle((0, 0, 0), 2, "x", "y"), circle((2, 0, 0), 2, "x", "z"))


def chain(rings: int) -> Tangle:
    curves = [circle((2.2 * k, 0, 0), 1.7, "x", "y" if k % 2 else "z") for k in range(rings)]
    return closed(*curves)


def ring_round(cords: int) -> Tangle:
    angle = 2 * np.pi * np.arange(cords) / cords
    r = 0.0 if cords == 1 else 0.62 / np.sin(np.pi / cords)
    z = np.linspace(0.0, -4.0, 9)[:-1]
    lines = [
        Course(
            np.stack([0 * z + r * np.cos(a), 0 * z + r * np.sin(a), z], axis=1),
            "periodic",
            tension=8.0,
            goes_on_as=1 + i,
        )
        for i, a in enumerate(angle)
    ]
    ring = Course(circle((0, 0, -2.0), r + 1.5, "x", "y"), "closed")
    return Tangle((ring, *lines), Repeat((0, 0, -1), 4.0, free_period=False))


def clasp(reach: float = 5.0) -> Tangle:
    arc = np.linspace(0.0, np.pi, 9)
    lower = np.stack([0.9 * np.cos(arc), 0 * arc, 0.4 + 0.9 * np.sin(arc)], axis=1)
    legs = [(0.9, 0.0, -reach)], [(-0.9, 0.0, -reach)]
    a = through(
        [*legs[0], (0.9, 0.0, -reach / 2), *lower.tolist(), (-0.9, 0.0, -reach / 2), *legs[1]]
    )
    b = np.stack([a[:, 1], a[:, 0], -a[:, 2]], axis=1)
    return Tangle((Course(a), Course(b)))


def long_trefoil(reach: float = 9.0) -> Points:
    """Open trefoil, ends along z. Polynomial curve of A. R. Shastri, 'Polynomial
    representations of knots' (1992): (t^3 - 3 t, t^4 - 4 t^2, t^5 - 10 t)."""
    t = np.linspace(-2.15, 2.15, 60)
    curve = np.stack([0.6 * (t**3 - 3 * t), 0.55 * (t**4 - 4 * t**2), 0.22 * (t**5 - 10 * t)], 1)
    ends = np.array([curve[0] * [1, 1, 0], curve[-1] * [1, 1, 0]])
    return np.concatenate([[ends[0] - [0, 0, reach]], curve, [ends[1] + [0, 0, reach]]])


def open_overhand() -> Tangle:
    half_turn = Symmetry(((-1, 0, 0), (0, 1, 0), (0, 0, -1)), (0,), reverse=True)
    return Tangle((Course(long_trefoil()),), symmetries=(half_turn,))


def lay(strands: int) -> Tangle:
    """So many strands laid round one another, one full turn a cell, the period free."""
    t = np.linspace(0, 2 * np.pi, 25)[:-1]
    r = {2: 0.75, 3: 0.9, 4: 1.1}[strands]
    period = 6.0
    curves = [
        np.stack([r * np.cos(t + a), r * np.sin(t + a), -period * t / (2 * np.pi)], axis=1)
        for a in 2 * np.pi * np.arange(strands) / strands
    ]
    courses = tuple(Course(c, "periodic", goes_on_as=i) for i, c in enumerate(curves))
    return Tangle(courses, Repeat((0, 0, -1), period))
