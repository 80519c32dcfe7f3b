"""The pictures of printed pages: as the draw room makes them; mirrored for left-handed readers."""

from __future__ import annotations

import re
from functools import cache
from typing import TYPE_CHECKING

from cordwright.draw.tying import Moved, tying
from cordwright.teach.bookdata import Picture

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.draw.placed import Placed
    from cordwright.draw.tying import Step
    from cordwright.knots.atlas import Atlas
    from cordwright.knots.spec import KnotSpec
    from cordwright.teach.labels import Labels

_TEXT = re.compile(r"<text\b([^>]*)>(.*?)</text>", re.DOTALL)
_GROUND = re.compile(r'<rect width="100%" height="100%"[^>]*/>')
_ROOT = re.compile(r"(<svg\b[^>]*>)(.*)(</svg>)", re.DOTALL)
_ANCHOR = re.compile(r'text-anchor="(\w+)"')
_X = re.compile(r'(?<![\w-])x="([^"]*)"')
_UP = re.compile(r'transform="(translate\([^)]*\))(rotate\(-90\))"')


def mirrored(svg: str, width: float) -> str:
    """The mirror image of one of our pictures; its lettering can still be read.

    Args:
        svg: the picture, whose viewBox begins at 0.
        width: of its viewBox.
    """
    found = _ROOT.search(svg)
    if found is None:
        return svg
    inside = _TEXT.sub(_readable, found[2])
    before, after = svg[: found.start()], svg[found.end() :]
    turned = f'<g transform="translate({width:.2f} 0)scale(-1 1)">{inside}</g>'
    return f"{before}{found[1]}{turned}{found[3]}{after}"


def _readable(found: re.Match[str]) -> str:
    """A text within a mirrored picture, turned back about its own anchor."""
    attributes, words = found[1], found[2]
    upwards = _UP.search(attributes)
    if upwards is not None:
        turned = f'transform="{upwards[1]}scale(-1 1){upwards[2]}"'
        return f"<text{_UP.sub(turned, attributes)}>{words}</text>"
    x = _X.search(attributes)
    about = 2.0 * float(x[1]) if x is not None else 0.0
    anchor = _ANCHOR.search(attributes)
    other = {"start": "end", "end": "start"}.get(anchor[1] if anchor else "start", "middle")
    bare = _ANCHOR.sub("", attributes)
    return (
        f'<text{bare} text-anchor="{other}" transform="translate({about:.2f} 0)scale(-1 1)">'
        f"{words}</text>"
    )


def whole_piece(what: Placed, alt: str, *, left_handed: bool) -> Picture:
    """The piece alone, without title, measures and legend."""
    from cordwright.draw.piece_sheet import piece_sheet

    sheet = piece_sheet(what, bare=True)
    svg = mirrored(sheet.svg, sheet.width) if left_handed else sheet.svg
    return Picture(svg, alt, sheet.width, sheet.height)


def without_ground(svg: str) -> str:
    """A picture without the sheet that is painted behind it: paper is there already."""
    return _GROUND.sub("", svg, count=1)


def tying_pictures(
    atlas: Atlas, spec: KnotSpec, name: str, say: Labels, *, left_handed: bool
) -> list[tuple[Picture, str]]:
    """Every step of a knot's tying, with what happens in it in words."""
    found = []
    steps = _steps(atlas, spec)
    for step in steps:
        words = moves_in_words(step.moved, say)
        f = step.figure
        alt = say("alt-tying", knot=name, number=step.number, of=len(steps), moves=words)
        svg = mirrored(f.svg, f.width_mm) if left_handed else f.svg
        found.append((Picture(svg, alt, f.width_mm, f.height_mm), words))
    return found


def moves_in_words(moved: Sequence[Moved], say: Labels) -> str:
    """What strands do in one picture: over and under what, in order."""
    if not moved:
        return say("drawn-up")
    told = []
    for one in moved:
        colour = say(f"colour-{one.ink.name}")
        runs: list[tuple[str, int]] = []
        for p in one.passes:
            what = "itself" if p.itself else p.role.value if p.place is not None else "holding"
            key = f"{'over' if p.over else 'under'}-{what}"
            if runs and runs[-1][0] == key:
                runs[-1] = (key, runs[-1][1] + 1)
            else:
                runs.append((key, 1))
        # Long rows of crossings are seen better than read.
        if not runs or len(runs) > MOST_PASSES:
            told.append(say("move-start", colour=colour))
        else:
            passes = say("then").join(say(key, n=n) for key, n in runs)
            told.append(say("move", colour=colour, passes=passes))
    words = " ".join(told)
    return words if len(words) <= MOST_LETTERS else say("moves-shown")


MOST_PASSES = 3
MOST_LETTERS = 130
"""More than that below a small picture is not read; the arrows show it."""


@cache
def _steps(atlas: Atlas, spec: KnotSpec) -> tuple[Step, ...]:
    return tying(atlas, spec)
