"""What a plan is made of, for lists and forms: parts, sizes, cords, mount, what is held."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from cordwright.bench.kinds import Key, keys
from cordwright.bench.knotlist import name_of
from cordwright.bench.models import (
    Cord,
    Group,
    Motif,
    MountedCords,
    Outline,
    Part,
    Size,
    Value,
)
from cordwright.bench.reach import Reach, reaches
from cordwright.draw.piece_colours import rgb_of
from cordwright.errors import CordwrightError
from cordwright.plan.flow import flow_text
from cordwright.plan.layout import Layout, Node, Path, written
from cordwright.plan.model import MountRepeat
from cordwright.plan.steps import VERBS, RepeatStep, SectionStep
from cordwright.plan.sums import Sum
from cordwright.plan.sumtree import RESERVED
from cordwright.units.form import Form

if TYPE_CHECKING:
    from cordwright.piece.model import Piece
    from cordwright.plan.model import Mounted, Plan
    from cordwright.plan.steps import Step
    from cordwright.plan.sums import Amount

WITHIN = ("work", "cords")
"""Keys whose lists have parts of their own."""


@dataclass(frozen=True, slots=True)
class _Source:
    """All that an outline is made from.

    Args:
        plan: as read.
        layout: of its text.
        piece: as worked.
        reach: where every part is, and what it uses.
    """

    plan: Plan
    layout: Layout
    piece: Piece
    reach: Mapping[Path, Reach]

    @property
    def env(self) -> Mapping[str, Amount]:
        """The plan's sizes, worked out."""
        return self.piece.amounts

    @property
    def values(self) -> Mapping[str, float]:
        """The symbols of amounts, mm."""
        return self.piece.values


def outline(plan: Plan, layout: Layout, piece: Piece) -> Outline:
    """The outline of a plan that was worked.

    Args:
        plan: as read.
        layout: of the text that it was read from.
        piece: as worked.
    """
    source = _Source(plan, layout, piece, reaches(plan, piece))
    mount, hang = plan.mount, plan.hang
    holder = next(k for k in ("ring", "rod", "cord", "nothing") if getattr(mount, k) is not None)
    return Outline(
        title=plan.title,
        about=plan.about,
        parts=_parts(source, plan.work, ("work",)),
        sizes=list(_sizes(source)),
        cords=[_cord(source, name) for name in plan.cords],
        mount=_group(source, ("mount", holder), mount.on),
        mounted=[_mounted(source, ("mount", "cords", i), m) for i, m in enumerate(mount.cords)],
        holds=_holds(source),
        hang=_values(source, ("hang",), hang) if hang is not None else [],
        motifs=[
            Motif(
                name=name,
                path=f"motifs.{name}",
                takes=list(_loose(source, ("motifs", name, "takes"), motif.takes)),
                parts=_parts(source, motif.work, ("motifs", name, "work")),
            )
            for name, motif in plan.motifs.items()
        ],
        strands=sum(len(c.strands) for c in piece.cords if c.part == "mount"),
    )


def _parts(source: _Source, steps: tuple[Step, ...], where: Path) -> list[Part]:
    return [_part(source, step, (*where, i)) for i, step in enumerate(steps)]


def _part(source: _Source, step: Step, where: Path) -> Part:
    node = source.layout.node(where)
    verb = next(v for v, kind in VERBS.items() if isinstance(step, kind) and _has(step, v))
    within = step.work if isinstance(step, (SectionStep, RepeatStep)) else ()
    values = _values(source, where, step)
    reach = source.reach.get(where, Reach())
    known = {v.key for v in values}
    return Part(
        path=written(where),
        verb=verb,
        name=next((v.text for v in values if v.key == verb), ""),
        note=step.note or "",
        first_line=source.layout.line(node.start) + 1,
        last_line=source.layout.line(max(node.start, node.end - 1)) + 1,
        values=values,
        missing=[
            _value(source, where, key, key.default, key.default)
            for key in keys(type(step)).values()
            if key.name not in known and not key.required
        ],
        parts=_parts(source, within, (*where, "work")),
        knots=reach.knots,
        shapes=[] if within else _shapes(source, reach),
        top_mm=reach.top_mm,
        bottom_mm=reach.bottom_mm,
        used_mm=reach.used_mm,
    )


def _shapes(source: _Source, reach: Reach) -> list[str]:
    knots = source.piece.knots
    return list(dict.fromkeys(name_of(knots[i].spec) for i in reach.ids))


def _has(step: BaseModel, verb: str) -> bool:
    name = "passing" if verb == "pass" else verb
    return name in type(step).model_fields and name in step.model_fields_set


def _values(source: _Source, where: Path, group: BaseModel) -> list[Value]:
    """The single values of a group, in the order written."""
    return list(_of_node(source, where, source.layout.node(where), group, ""))


def _of_node(
    source: _Source, where: Path, node: Node, group: BaseModel | None, within: str
) -> Iterator[Value]:
    known = keys(type(group)) if group is not None else {}
    for item in node.items:
        name, value = str(item.key), item.value
        if name in WITHIN:
            continue
        key = known.get(name) or Key(name, name, "other", (), "", "", required=False)
        part = getattr(group, key.field, None) or getattr(group, f"{name}_", None)
        if isinstance(part, Mapping):
            yield from _loose(source, (*where, name), part, f"{name}.")
        elif value.kind == "group":
            if isinstance(part, BaseModel):
                yield from _of_node(source, (*where, name), value, part, f"{within}{name}.")
        else:
            yield _value(source, where, key, flow_text(value.plain), part, within)


def _loose(
    source: _Source, where: Path, amounts: Mapping[str, Sum], within: str = ""
) -> Iterator[Value]:
    """Lengths or numbers under names of the maker's own."""
    for name, amount in amounts.items():
        key = Key(name, name, "amount", (), "", "", required=False)
        yield _value(source, where, key, amount.text, amount, within)


def _value(source: _Source, where: Path, key: Key, text: str, part: Any, within: str = "") -> Value:
    shown = part.text if isinstance(part, Sum) else str(part) if isinstance(part, str) else text
    return Value(
        path=written((*where, key.name)),
        key=f"{within}{key.name}",
        text=shown,
        kind=key.kind,
        number=_number(source, part),
        uses=sorted((getattr(part, "names", frozenset()) & source.env.keys()) - RESERVED),
        choices=list(key.choices),
        about=key.about,
    )


def _number(source: _Source, part: Any) -> float | None:
    """What a sum comes to; None within repeats and motifs, where it comes to several things."""
    if isinstance(part, (int, float)) and not isinstance(part, bool):
        return float(part)
    if isinstance(part, str) and part.isdecimal():
        return float(part)
    if not isinstance(part, Sum):
        return None
    try:
        return _worth(part.evaluate(source.env, source.values), source.values)
    except CordwrightError:
        return None


def _worth(amount: Amount, values: Mapping[str, float]) -> float:
    return amount.at(values) if isinstance(amount, Form) else float(amount)


def _group(source: _Source, where: Path, group: BaseModel) -> Group:
    return Group(path=written(where), kind=str(where[-1]), values=_values(source, where, group))


def _holds(source: _Source) -> Group | None:
    holds = source.plan.hang.holds if source.plan.hang is not None else None
    if holds is None:
        return None
    kind = next(k for k in ("pot", "bowl", "sphere", "box") if getattr(holds, k) is not None)
    return _group(source, ("hang", "holds", kind), holds.thing)


def _mounted(source: _Source, where: Path, mounted: Mounted) -> MountedCords:
    run = mounted.cords if isinstance(mounted, MountRepeat) else ()
    return MountedCords(
        path=written(where),
        values=_values(source, where, mounted),
        run=[_mounted(source, (*where, "cords", i), m) for i, m in enumerate(run)],
    )


def _cord(source: _Source, name: str) -> Cord:
    spec = source.plan.cords[name]
    return Cord(
        name=name,
        path=f"cords.{name}",
        fibre=spec.fibre,
        diameter=spec.diameter.text,
        diameter_mm=spec.diameter_mm,
        build=spec.build or "",
        colour=spec.colour or "",
        rgb=rgb_of(spec.colour),
        weight=spec.weight or "",
        strength=spec.strength or "",
        shelf=spec.shelf or "",
    )


def _sizes(source: _Source) -> Iterator[Size]:
    used = _users(source)
    for name, spec in source.plan.sizes.items():
        amount = source.env[name]
        yield Size(
            name=name,
            path=f"sizes.{name}",
            kind="length" if isinstance(amount, Form) else "count",
            text=spec.value.text,
            number=_worth(amount, source.values),
            least=_number(source, spec.at_least),
            most=_number(source, spec.at_most),
            uses=sorted(spec.value.names & source.env.keys()),
            used_by=used.get(name, []),
            about=spec.about or "",
        )


def _users(source: _Source) -> dict[str, list[str]]:
    """Paths of the values that use each size."""
    found: dict[str, list[str]] = {}
    for where, value in _sums(source.plan, ()):
        for name in value.names & source.env.keys():
            found.setdefault(name, []).append(written(where))
    return found


def _sums(part: Any, where: Path) -> Iterator[tuple[Path, Any]]:
    """Every sum of a plan, and every list of places, with its path."""
    if isinstance(part, BaseModel):
        for name, info in type(part).model_fields.items():
            if name != "where":
                yield from _sums(getattr(part, name), (*where, info.alias or name))
    elif isinstance(part, Mapping):
        for name, value in part.items():
            yield from _sums(value, (*where, name))
    elif isinstance(part, tuple):
        for i, value in enumerate(part):
            yield from _sums(value, (*where, i))
    elif hasattr(part, "names"):
        yield where, part
