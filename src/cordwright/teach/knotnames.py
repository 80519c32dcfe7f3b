"""What the knots of a lesson are called where several of one name stand side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from cordwright.knots.spec import KnotName, KnotSpec

if TYPE_CHECKING:
    from collections.abc import Sequence

    from cordwright.teach.labels import Labels
    from cordwright.teach.needs import KnotKind


def spec_of(kind: KnotKind) -> KnotSpec:
    """The knot that a kind was tightened as."""
    return KnotSpec(**{**kind.spec, "name": KnotName(kind.spec["name"])})


def alike(kind: KnotKind) -> tuple[object, ...]:
    """What makes two kinds of knot worth two sets of pictures: thickness and slant do not."""
    spec = spec_of(kind)
    if spec.name == KnotName.GATHERING:  # turns and strands change nothing in how it is tied
        return (spec.name,)
    return (spec.name, spec.strands, spec.hand, spec.face, spec.over)


def headings(kinds: Sequence[KnotKind], say: Labels) -> dict[tuple[object, ...], str]:
    """A heading for every set of pictures: the knot's name, and what sets it apart from others.

    Args:
        kinds: all knots that are to have pictures.
        say: labels in the reader's language.

    Returns:
        The headings, by what is `alike`; no two are the same.
    """
    first = {alike(kind): kind for kind in reversed(kinds)}
    found: dict[tuple[object, ...], str] = {}
    for key in dict.fromkeys(alike(kind) for kind in kinds):
        same = [k for k in first.values() if k.name == first[key].name]
        said = _called(first[key], same, say)
        number = 1 + sum(h == said or h.startswith(f"{said} (") for h in found.values())
        found[key] = said if number == 1 else f"{said} ({number})"
    return found


def _called(kind: KnotKind, same: Sequence[KnotKind], say: Labels) -> str:
    name = say.words.text(f"name-{kind.name}")
    said = name[:1].upper() + name[1:]
    specs = [spec_of(k) for k in same]
    spec = spec_of(kind)
    if len({s.strands for s in specs}) > 1:
        round_ = spec.name in (KnotName.SQUARE_KNOT, KnotName.HALF_KNOT, KnotName.HALF_HITCH)
        n = spec.fillers if round_ else spec.strands
        said = say("knot-round" if round_ else "knot-of", knot=said, n=n)
    if len({s.over for s in specs}) > 1:
        said = say("knot-on", knot=said, over=spec.over)
    if len({s.face for s in specs}) > 1:
        said = say("knot-bar", knot=said, face=spec.face)
    if len({k.hand for k in same}) > 1:
        way = {KnotName.DOUBLE_HALF_HITCH: "knot-towards", KnotName.HALF_HITCH: "knot-with"}
        said = say(way.get(spec.name, "knot-begun"), knot=said, hand=kind.hand)
    return said
