from __future__ import annotations

from itertools import combinations
from typing import TYPE_CHECKING

import numpy as np
import pytest

from cordwright.draw.ink import FLAX, INKS, MARKS, Ink, coloured, ink, mixed

if TYPE_CHECKING:
    from numpy.typing import NDArray

# Colour blindness simulated in linear RGB, severity 1: G. M. Machado, M. M. Oliveira &
# L. A. F. Fernandes, 'A physiologically-based model for simulation of color vision deficiency',
# IEEE Transactions on Visualization and Computer Graphics 15 (2009), supplementary matrices.
SEEN_BY = {
    "normal": [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]],
    "protanopia": [
        [0.152286, 1.052583, -0.204868],
        [0.114503, 0.786281, 0.099216],
        [-0.003882, -0.048116, 1.051998],
    ],
    "deuteranopia": [
        [0.367322, 0.860646, -0.227968],
        [0.280085, 0.672501, 0.047413],
        [-0.011820, 0.042940, 0.968881],
    ],
    "tritanopia": [
        [1.255528, -0.076749, -0.178779],
        [-0.078411, 0.930809, 0.147602],
        [0.004733, 0.691367, 0.303900],
    ],
}

APART = 15.0
"""CIE 1976 colour difference; about 2.3 is just noticeable (M. Mahy, L. Van Eycken &
A. Oosterlinck, Color Research & Application 19, 1994)."""


def linear(colour: str) -> NDArray[np.float64]:
    """Linear RGB of an sRGB colour (IEC 61966-2-1)."""
    c = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)]) / 255
    return np.asarray(np.where(c <= 0.04045, c / 12.92, ((c + 0.055) / 1.055) ** 2.4))


def lab(rgb: NDArray[np.float64]) -> NDArray[np.float64]:
    """CIELAB of linear sRGB, white point D65 (CIE 15)."""
    to_xyz = [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.0721750],
        [0.0193339, 0.1191920, 0.9503041],
    ]
    xyz = np.array(to_xyz) @ np.clip(rgb, 0, 1) / [0.95047, 1.0, 1.08883]
    f = np.where(xyz > (6 / 29) ** 3, np.cbrt(xyz), xyz * (29 / 6) ** 2 / 3 + 4 / 29)
    return np.array([116 * f[1] - 16, 500 * (f[0] - f[1]), 200 * (f[1] - f[2])])


def lightness(colour: str) -> float:
    return float(lab(linear(colour))[0])


@pytest.mark.parametrize("eyes", SEEN_BY)
def test_colours_stay_apart(eyes: str) -> None:
    matrix = np.array(SEEN_BY[eyes])
    for a, b in combinations((*INKS, FLAX), 2):
        seen = [lab(matrix @ linear(x.fill)) for x in (a, b)]
        assert np.linalg.norm(seen[0] - seen[1]) > APART, (a.name, b.name)


def test_white_keeps_its_lightness() -> None:
    assert lightness("#ffffff") == pytest.approx(100, abs=0.01)
    assert lightness("#000000") == pytest.approx(0, abs=0.01)


@pytest.mark.parametrize("cord", [*INKS, FLAX, coloured("#203040"), coloured("#e8e0d0")])
def test_outlines_stand_out_from_their_cord(cord: Ink) -> None:
    assert abs(lightness(cord.fill) - lightness(cord.edge)) > 12


@pytest.mark.parametrize("cord", [ink(i) for i in range(12)], ids=lambda c: c.name)
def test_marks_show_in_grey_print(cord: Ink) -> None:
    assert abs(lightness(cord.fill) - lightness(cord.mark_colour)) > 18


def test_no_two_strands_share_colour_and_mark() -> None:
    inks = [ink(i) for i in range(36)]
    assert len({(x.fill, x.mark) for x in inks}) == 36
    for first in range(0, 36, 6):
        assert len({x.mark for x in inks[first : first + 6]}) == 6


def test_marks_differ_in_width_or_rhythm() -> None:
    for a, b in combinations(MARKS, 2):
        assert (a.width, a.dashes) != (b.width, b.dashes)
        assert abs(a.width - b.width) > 0.1 or a.dashes != b.dashes


def test_mixing_goes_from_one_to_the_other() -> None:
    assert mixed("#102030", "#405060", 0.0) == "#102030"
    assert mixed("#102030", "#405060", 1.0) == "#405060"
