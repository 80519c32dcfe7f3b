"""What kind of value every key of a plan takes, read from the plan's own models."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any, Final, Literal, get_args, get_origin

from pydantic import BaseModel, PlainValidator

from cordwright.plan import fields, measures
from cordwright.plan.steps import MotifStep

if TYPE_CHECKING:
    from pydantic.fields import FieldInfo

    from cordwright.bench.models import Kind

_KINDS: Final[tuple[tuple[Any, Kind], ...]] = (
    (fields.LengthSum, "length"),
    (fields.CountSum, "count"),
    (fields.AmountSum, "amount"),
    (fields.Diameter, "length"),
    (fields.PlaceList, "places"),
    (fields.Workers, "places"),
    (fields.Slant, "choice"),
    (fields.NameText, "name"),
    (fields.FreeText, "text"),
    (fields.MassText, "mass"),
    (measures.WeightText, "mass"),
    (measures.VolumeText, "volume"),
    (measures.ForceText, "force"),
)
_WORDS: Final[tuple[tuple[Any, tuple[str, ...]], ...]] = (
    (fields.Slant, tuple(fields.SLANT_DEG)),
    (fields.Workers, fields.WORKER_WORDS),
)
_NAMED: Final[dict[str, Kind]] = {"cord": "cord", "motif": "motif"}
"""Keys that take a name which the plan gives elsewhere."""


@dataclass(frozen=True, slots=True)
class Key:
    """A key of a group.

    Args:
        name: as it is written.
        field: name of the model's field.
        kind: what it takes.
        choices: words that it may be.
        about: what it means.
        default: what it is if it is left out, as text; empty if that is nothing.
        required: whether it must be there.
    """

    name: str
    field: str
    kind: Kind
    choices: tuple[str, ...]
    about: str
    default: str
    required: bool


@cache
def keys(model: type[BaseModel]) -> dict[str, Key]:
    """The keys of a group that take single values, by name, in the model's order."""
    found = {}
    for name, info in model.model_fields.items():
        kind = None if name == "where" else _kind(model, name, info)
        if kind is not None:
            written = info.alias or name
            default = "" if info.is_required() else _text(info.get_default())
            found[written] = Key(
                written,
                name,
                kind,
                _choices(info),
                info.description or "",
                default,
                info.is_required(),
            )
    return found


def _kind(model: type[BaseModel], name: str, info: FieldInfo) -> Kind | None:
    if get_origin(info.annotation) is dict:
        return None
    if _is(info, fields.NameText) and (model is MotifStep or name == "cord"):
        return _NAMED.get(name, "name")
    for known, kind in _KINDS:
        if _is(info, known):
            return kind
    if _choices(info):
        return "choice"
    types = (info.annotation, *get_args(info.annotation))
    if str in types:
        return "text"
    plain = any(isinstance(m, PlainValidator) for m in _meta(info))
    return "number" if float in types and plain else None


def _is(info: FieldInfo, known: Any) -> bool:
    """Whether a field takes a known type, alone or beside nothing."""
    return known.__metadata__[0] in info.metadata or known in get_args(info.annotation)


def _meta(info: FieldInfo) -> list[Any]:
    inner = [getattr(a, "__metadata__", ()) for a in get_args(info.annotation)]
    return [*info.metadata, *(m for metas in inner for m in metas)]


def _choices(info: FieldInfo) -> tuple[str, ...]:
    for known, words in _WORDS:
        if _is(info, known):
            return words
    for part in (info.annotation, *get_args(info.annotation)):
        if get_origin(part) is Literal:
            return tuple(str(w) for w in get_args(part))
    return ()


def _text(value: Any) -> str:
    return "" if value is None else str(getattr(value, "text", value))
