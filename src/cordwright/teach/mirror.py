"""The left-handed edition: the mirror image of a lesson.

Places stay what they are, counted from the other side. So pupils of either hand can sit in one
room and follow the same numbers.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields, is_dataclass, replace
from typing import TYPE_CHECKING, Any, Final

from cordwright.teach.needs import Cut, KnotKind, Side

if TYPE_CHECKING:
    from cordwright.teach.steps import Lesson

_OTHER: Final[Mapping[str, Side]] = {"left": "right", "right": "left"}


def mirrored(lesson: Lesson) -> Lesson:
    """The other hand's edition; twice mirrored is the same again."""
    knots = tuple(replace(k, hand=_OTHER[k.hand]) for k in lesson.knots)
    cuts = tuple(_cut(c) for c in lesson.cuts)
    sections = tuple(
        replace(s, steps=tuple(_named(step) for step in s.steps)) for s in lesson.sections
    )
    return replace(lesson, mirrored=not lesson.mirrored, knots=knots, cuts=cuts, sections=sections)


def _cut(cut: Cut) -> Cut:
    return replace(cut, fold_mm=cut.fold_mm and (cut.fold_mm[1], cut.fold_mm[0]))


def name(strand: str) -> str:
    """A strand's name in the mirror: what was the left half is the right one.

    >>> name("3L"), name("3R"), name("7")
    ('3R', '3L', '7')
    """
    return strand.translate(_SWAPPED)


_SWAPPED = str.maketrans("LR", "RL")
_NAMES = frozenset({"names", "leaves", "lying", "over", "long", "line_up"})
_SIDES = frozenset({"hand", "side"})


def _named(value: Any) -> Any:
    """A step, or a part of one, with its strands' names, hands and sides swapped."""
    if isinstance(value, tuple):
        return tuple(_named(v) for v in value)
    if not is_dataclass(value) or isinstance(value, type):
        return value
    changed: dict[str, Any] = {}
    for f in fields(value):
        part = getattr(value, f.name)
        if f.name in _NAMES or (f.name == "name" and not isinstance(value, KnotKind)):
            changed[f.name] = _swap(part)
        elif f.name in _SIDES:
            changed[f.name] = _OTHER.get(part, part)
        elif isinstance(part, tuple):
            changed[f.name] = _named(part)
    return replace(value, **changed)


def _swap(part: Any) -> Any:
    if isinstance(part, tuple):
        return tuple(name(p) for p in part)
    return name(part) if isinstance(part, str) else part
