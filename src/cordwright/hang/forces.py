"""Energy of a hanging piece, its forces and its stiffness.

Spans: ``k / 2 over^2`` while taut, nothing while slack (a convex function of the nodes, so a net of
spans alone has one equilibrium); ``over`` is how much longer than its cord a span is. Bars: the
same, both ways. Contact of knots with each other and with what the piece holds:
``k / 2 overlap^2``. Weight: linear.

The length of a span is rounded off near nothing, where it has no direction:
``sqrt(l^2 + ROUNDED^2)``, its cord's likewise, so that a span is taut where it was. A span whose
cord is hardly longer than nothing is a joint: a spring along every axis.

The stiffness k stands for knots and things that do not give; real cord stretches besides, and how
much decides how strands share a load. Simplified: no friction, no bending stiffness of free cord,
sinnets and rows of hitches straight. Holds for hung pieces at rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np
from scipy.sparse import csr_matrix, diags

from cordwright.hang.linkage import Linkage, gaps, linkage

if TYPE_CHECKING:
    from cordwright.hang.frame import Floats, Frame, Points
    from cordwright.hang.touching import Touching

STIFF = 50.0
"""Stiffness of taut cord, bars and contact, as N/mm for every N of load: a cord that carries the
whole load is 0.02 mm too long."""

ROUNDED = 0.1
"""Length of a span, mm, below which its direction fades: much less than any cord is thick."""

JOINT = 1e-4
"""Length of cord, mm, up to which a span is a joint: rounding of the shape as worked."""


@dataclass(frozen=True, slots=True)
class Pull:
    """What makes the spans pull.

    Args:
        rest: (s,) float, mm, length below which a span is slack.
        stiffness: of knots along their height and of contact, N/mm, and of cord that has no
            stretch of its own.
        give: (s,) float, mm/N, stretch of the spans' own.
    """

    rest: Floats
    stiffness: float
    give: Floats | float = 0.0

    @property
    def along(self) -> Floats:
        """(s,) float: stiffness of the taut spans, N/mm: both in series."""
        found: Floats = self.stiffness / (1.0 + self.stiffness * (self.give + 0.0 * self.rest))
        return found

    @property
    def joint(self) -> np.ndarray:
        """(s,) bool: spans that are joints."""
        found: np.ndarray = self.rest <= JOINT
        return found


@dataclass(frozen=True, slots=True)
class Drawn:
    """Spans, bars and bends at a position.

    Args:
        span: (s, 3) float, mm, from the lower end of every span to its upper one.
        length: (s,) float, mm, rounded.
        over: (s,) float, mm, how much longer than its cord it is; less than 0 while slack.
        bar: (k, 3) float, mm, up every bar.
        high: (k,) float, mm, its length.
        bend: (c, 3) float, mm, how far stiff pairs are bent.
    """

    span: Points
    length: Floats
    over: Floats
    bar: Points
    high: Floats
    bend: Points


@dataclass(frozen=True, slots=True)
class Terms:
    """Energy about a position, ready for a Newton step.

    Args:
        value: N mm.
        gradient: (3 n,) float, N; its negative is the force that is out of balance.
        stiffness: sparse, of the coordinates that may move, in the order of the nodes, N/mm.
    """

    value: float
    gradient: Floats
    stiffness: csr_matrix


def drawn(links: Linkage, x: Points, rest: Floats) -> Drawn:
    """Spans, bars and bends at a position."""
    span, bar, bend = links.apart(x)
    length = np.sqrt(np.einsum("ij,ij->i", span, span) + ROUNDED**2)
    high = np.maximum(np.sqrt(np.einsum("ij,ij->i", bar, bar)), 1e-9)
    return Drawn(span, length, length - np.hypot(rest, ROUNDED), bar, high, bend)


def tensions(frame: Frame, x: Points, pull: Pull) -> Floats:
    """(s,) float: pull in every span, N; 0 where slack."""
    apart = frame.spans.a.at(x) - frame.spans.b.at(x)
    far = np.sqrt(np.einsum("ij,ij->i", apart, apart))
    length = np.hypot(far, ROUNDED)
    over = np.maximum(0.0, length - np.hypot(pull.rest, ROUNDED))
    taut: Floats = pull.along * np.where(pull.joint, far, over * far / length)
    return taut


def overlap(touching: Touching, x: Points) -> Floats:
    """(c,) float, mm: how far contacts overlap; less than 0 where they do not touch."""
    found: Floats = touching.gap - np.einsum("ij,ij->i", touching.normal, touching.between(x))
    return found


def solid(frame: Frame, at: Drawn, x: Points, pull: Pull) -> float:
    """Energy of all but cord and contact: weight, bars, bends and joints; N mm."""
    k, high, joint = pull.stiffness, at.high - frame.bars.height, pull.joint
    total = float(frame.weight @ x[:, 2]) + 0.5 * k * float(high @ high)
    total += 0.5 * k * float(np.vdot(at.bend, at.bend))
    apart = np.einsum("ij,ij->i", at.span[joint], at.span[joint])
    return total + 0.5 * float(pull.along[joint] @ apart)


def gradient(frame: Frame, links: Linkage, at: Drawn, pull: Pull, tension: Floats) -> Floats:
    """(3 n,) float, N: of the energy without contact, for any tensions along the spans.

    Args:
        frame: what hangs.
        links: its differences.
        at: where it is.
        pull: what makes its spans pull.
        tension: (s,) float, N, along rounded lengths; those of joints do not count.
    """
    rate = np.where(pull.joint, pull.along, tension / at.length)
    pushed = pull.stiffness * (1.0 - frame.bars.height / at.high)
    every = [rate[:, None] * at.span, pushed[:, None] * at.bar, pull.stiffness * at.bend]
    found: Floats = links.drawn @ np.concatenate(every).ravel()
    found[2::3] += frame.weight
    return found


def stiffness(
    frame: Frame, links: Linkage, at: Drawn, pull: Pull, tension: Floats, along: Floats
) -> csr_matrix:
    """Of the coordinates that may move, N/mm, without contact; positive semidefinite.

    Across its direction a pulled span or bar is as stiff as its pull over its length.

    Args:
        frame: what hangs.
        links: its differences.
        at: where it is.
        pull: what makes its spans pull.
        tension: (s,) float, N, along the spans.
        along: (s,) float, N/mm, stiffness along the spans.
    """
    k, joint = pull.stiffness, pull.joint
    across = np.where(joint, pull.along, tension / at.length)
    more = np.where(joint, 0.0, along - across)
    pulled = np.maximum(0.0, k * (1.0 - frame.bars.height / at.high))
    blocks = [
        _block(at.span / at.length[:, None], more, across),
        _block(at.bar / at.high[:, None], k - pulled, pulled),
        _block(at.bend, np.zeros(len(at.bend)), np.full(len(at.bend), k)),
    ]
    every = np.concatenate(blocks)
    size = 3 * len(every)
    columns = np.arange(size, dtype=np.int32).reshape(-1, 1, 3).repeat(3, axis=1)
    ends = np.arange(0, 3 * size + 1, 3, dtype=np.int32)
    middle = csr_matrix((every.ravel(), columns.ravel(), ends), shape=(size, size))
    found: csr_matrix = links.back @ (middle @ links.free)
    return found


def _block(way: Points, along: Floats, even: Floats) -> Points:
    """(r, 3, 3) float: stiffness along ways, and the same in all directions."""
    outer = way[:, :, None] * way[:, None, :]
    found: Points = along[:, None, None] * outer + even[:, None, None] * np.eye(3)
    return found


def energy(frame: Frame, x: Points, pull: Pull, touching: Touching) -> float:
    """Value alone, N mm."""
    return _value(frame, drawn(linkage(frame), x, pull.rest), x, pull, touching)


def _value(frame: Frame, at: Drawn, x: Points, pull: Pull, touching: Touching) -> float:
    over = np.where(pull.joint, 0.0, np.maximum(0.0, at.over))
    hit = np.maximum(0.0, overlap(touching, x))
    held = 0.5 * float(pull.along @ over**2) + 0.5 * pull.stiffness * float(hit @ hit)
    return solid(frame, at, x, pull) + held


def expand(
    frame: Frame, x: Points, pull: Pull, touching: Touching, links: Linkage | None = None
) -> Terms:
    """Value, gradient and stiffness."""
    links = linkage(frame) if links is None else links
    at = drawn(links, x, pull.rest)
    tension = pull.along * np.maximum(0.0, at.over)
    hit = np.maximum(0.0, overlap(touching, x))
    normals = gaps(touching, len(x))
    slope = gradient(frame, links, at, pull, tension) - normals.T @ (pull.stiffness * hit)
    matrix = stiffness(frame, links, at, pull, tension, np.where(at.over > 0.0, pull.along, 0.0))
    pressed = normals[:, links.live]
    matrix = matrix + pressed.T @ diags(np.where(hit > 0.0, pull.stiffness, 0.0)) @ pressed
    value = _value(frame, at, x, pull, touching)
    order = np.argsort(links.live)
    return Terms(value, slope * frame.free.ravel(), csr_matrix(matrix)[order][:, order])
