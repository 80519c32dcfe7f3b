"""Tangles whose tight length is known from the literature."""

from __future__ import annotations

import numpy as np

from cordwright.knots.tangle import Course, Points, Repeat, Symmetry, Tangle

Q = np.linspace(0.0, 2.0 * np.pi, 72, endpoint=False)


def closed(*curves: Points) -> Tangle:
    return Tangle(tuple(Course(c, "closed") for c in curves))


def circle(centre: tuple[float, float, float], radius: float, u: str, v: str) -> Points:
    axes = {"x": np.eye(3)[0], "y": np.eye(3)[1], "z": np.eye(3)[2]}
    ring = np.cos(Q)[:, None] * axes[u] + np.sin(Q)[:, None] * axes[v]
    out: Points = np.array(centre) + radius * ring
    return out


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


def shaken(curve: Points, seed: int, size: float) -> Points:
    """The curve bent by its lowest three Fourier modes, the same at each call.

    A symmetric start can be tightened onto a saddle, from which no step leads down.
    """
    rng = np.random.default_rng(seed)
    out = curve.copy()
    for k in (1, 2, 3):
        even, odd = rng.normal(size=3), rng.normal(size=3)
        out += size / k * (np.cos(k * Q)[:, None] * even + np.sin(k * Q)[:, None] * odd)
    return out


def figure_eight() -> Tangle:
    """Once one way and three times the other way round an axis, waving twice along it."""
    across = 0.7 * np.exp(1j * (Q - 1.3)) + 1.1 * np.exp(-1j * (3 * Q - 0.8))
    return closed(np.stack([-1.5 * np.cos(2 * Q), across.real, across.imag], axis=1))


def five_one() -> Tangle:
    (course,) = torus(2, 5, 2.6).courses
    return closed(shaken(course.points, seed=0, size=0.2))


def four_two_one() -> Tangle:
    """The link 4^2_1, drawn out: the symmetric start is a saddle 1 % longer."""
    return closed(*(c.points * [1.5, 0.8, 1.0] for c in torus(2, 4, 1.5).courses))


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


def lay(strands: int) -> Tangle:
    """So many strands laid round one another, one full turn a cell, the period free.

    All strands are kept alike: without that, one goes straight and the others round it.
    """
    t = np.linspace(0, 2 * np.pi, 25)[:-1]
    r = {2: 0.75, 3: 0.9, 4: 1.1}[strands]
    period = 6.0
    curves = [
        np.stack([r * np.cos(t + a), r * np.sin(t + a), -period * t / (2 * np.pi)], axis=1)
        for a in 2 * np.pi * np.arange(strands) / strands
    ]
    courses = tuple(Course(c, "periodic", goes_on_as=i) for i, c in enumerate(curves))
    c, s = float(np.cos(2 * np.pi / strands)), float(np.sin(2 * np.pi / strands))
    onto = tuple((i + 1) % strands for i in range(strands))
    turned = Symmetry(((c, -s, 0.0), (s, c, 0.0), (0.0, 0.0, 1.0)), onto)
    return Tangle(courses, Repeat((0, 0, -1), period), (turned,))
