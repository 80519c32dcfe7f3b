"""Turns what the model finds wrong into words for a maker, with line and column."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from cordwright.errors import Place, PlanError
from cordwright.plan import hanging, model, steps
from cordwright.plan.marks import MarkedDict, MarkedList, place_of
from cordwright.plan.problems import nearest, shortened

if TYPE_CHECKING:
    from pydantic import BaseModel
    from pydantic_core import ErrorDetails

Location = tuple[int | str, ...]

_STEPS: Final = {f"<{kind.__name__}>": kind for kind in steps.VERBS.values()}
_GROUPS: Final[dict[str, type[BaseModel]]] = {
    "ring": model.RingMount,
    "rod": model.RodMount,
    "cord": model.CordMount,
    "nothing": model.NothingMount,
}


_HANGING: Final[dict[str, tuple[str, type[BaseModel]]]] = {
    "screw": ("screw hook", hanging.ScrewHook),
    "keeps": ("group of shares", hanging.Keeps),
    "pot": ("pot", hanging.Pot),
    "bowl": ("bowl", hanging.Bowl),
    "sphere": ("sphere", hanging.Sphere),
    "box": ("box", hanging.Box),
}


def group_at(location: Location) -> tuple[str, type[BaseModel]]:
    """What kind of group stands there: its name in words and its model."""
    tag = next((t for t in reversed(location) if isinstance(t, str) and t.startswith("<")), None)
    if tag == "<NewCord>":
        return "wrap", model.NewCord
    if tag in _STEPS:
        return f"{_verb(_STEPS[tag])} step", _STEPS[tag]
    match location:
        case ("cords", str(), *_):
            return "cord", model.CordSpec
        case ("sizes", str(), *_):
            return "size", model.SizeSpec
        case ("mount", "cords", int(), "<MountRepeat>", *rest) if len(rest) < 3:
            return "repeated run of cords", model.MountRepeat
        case ("mount", "cords", int(), *_):
            return "mounted cord", model.MountCord
        case ("mount", str(name), _, *_) if name in _GROUPS:
            return name, _GROUPS[name]
        case ("mount", _, *_):
            return "mount", model.Mount
        case ("hang", "holds", str(name), _, *_) if name in _HANGING:
            return _HANGING[name]
        case ("hang", "holds", _, *_):
            return "group of held things", hanging.Holds
        case ("hang", str(name), _, *_) if name in _HANGING:
            return _HANGING[name]
        case ("hang", _, *_):
            return "group about hanging", model.Hang
        case ("motifs", str(), *_):
            return "motif", model.Motif
        case _:
            return "plan", model.Plan


def _verb(kind: type[BaseModel]) -> str:
    return next(verb for verb, step in steps.VERBS.items() if step is kind)


def keys_of(kind: type[BaseModel]) -> list[str]:
    """The keys that a group may have, as written in a plan."""
    return [f.alias or name for name, f in kind.model_fields.items() if name != "where"]


def place_at(tree: object, location: Location, file: str) -> tuple[Place, object]:
    """Where a location of the model stands in the file, and the value that is there.

    Parts of the location that are not in the file (tags of steps) are passed over; the place of
    the last part that is in the file counts.
    """
    place = place_of(tree) or Place(file)
    here: object = tree
    for part in location:
        match here, part:
            case MarkedDict(), str() if part in here:
                place, here = here.places[part], here[part]
            case MarkedList(), int() if part < len(here):
                place, here = here.places[part], here[part]
            case _:
                pass
    return place, here


def reworded(details: ErrorDetails, tree: object, file: str) -> PlanError:
    """One finding of the model in a maker's words."""
    location: Location = tuple(details["loc"])
    context: dict[str, Any] = dict(details.get("ctx") or {})
    place, here = place_at(tree, location, file)
    if location[-1:] == ("[key]",):
        _, parent = place_at(tree, location[:-2], file)
        if isinstance(parent, MarkedDict):
            place = parent.key_places.get(str(location[-2]), place)
    kind = details["type"]
    if kind == "plan":
        own = context.get("place")
        return PlanError(
            str(context["what"]),
            remedy=str(context["remedy"]),
            place=own if isinstance(own, Place) else place,
        )
    if kind == "extra_forbidden":
        return _unknown_key(location, tree, file)
    if kind == "missing":
        group, _ = group_at(location)
        key = str(location[-1])
        return PlanError(f"The {group} has no '{key}'.", remedy=_example(key), place=place)
    if kind == "union_tag_not_found":
        return _no_verb(here, place)
    what, remedy = _plain_words(kind, str(location[-1]) if location else "", here, context)
    return PlanError(what or f"{details['msg']}.", remedy=remedy, place=place)


def _unknown_key(location: Location, tree: object, file: str) -> PlanError:
    key = str(location[-1])
    group, kind = group_at(location)
    _, parent = place_at(tree, location[:-1], file)
    place = parent.key_places.get(key) if isinstance(parent, MarkedDict) else None
    if key in steps.VERBS and issubclass(kind, tuple(_STEPS.values())):
        return PlanError(
            f"The {group} has a second verb, '{key}'.",
            remedy=f"make a step of its own of it: - {key}: …",
            place=place or Place(file),
        )
    if isinstance(parent, MarkedDict) and parent[key] is None and key[:1].isdigit():
        return PlanError(
            f"'{shortened(key)}' stands behind a comma and has no meaning there.",
            remedy="inside { } put places with commas in [ ] or quotes: on: [1-4, 9-12]",
            place=place or Place(file),
        )
    known = keys_of(kind)
    if group.endswith(" step"):
        known += [verb for verb in steps.VERBS if verb not in known]
    remedy = nearest(key, known)
    if not remedy.startswith("did"):
        remedy = nearest(key, keys_of(kind))
    return PlanError(
        f"'{shortened(key)}' is not a key of {_a(group)}.",
        remedy=remedy,
        place=place or Place(file),
    )


def _a(group: str) -> str:
    return f"an {group}" if group[0] in "aeio" else f"a {group}"


def _no_verb(step: object, place: Place) -> PlanError:
    if not isinstance(step, dict):
        return PlanError(
            f"'{shortened(step)}' is not a step.",
            remedy="a step is a verb with a colon, for example - tie: square-knot",
            place=place,
        )
    keys = [k for k in step if k not in ("on", "note", "each", "times", "work")]
    for key in keys:
        remedy = nearest(str(key), steps.VERBS)
        if remedy.startswith("did") and isinstance(step, MarkedDict):
            return PlanError(
                f"'{shortened(key)}' is not a verb of a step.",
                remedy=remedy,
                place=step.key_places.get(key, place),
            )
    return PlanError(
        "The step has no verb that is known.",
        remedy=f"start it with one of {', '.join(steps.VERBS)}",
        place=place,
    )


def _plain_words(kind: str, key: str, here: object, context: dict[str, Any]) -> tuple[str, str]:
    shown = f"'{shortened(here)}'" if isinstance(here, (str, int, float)) else "This"
    match kind:
        case "literal_error" | "enum":
            allowed = str(context.get("expected", "")).replace("'", "").replace(" or ", ", ")
            words = allowed.split(", ")
            what = (
                f"{shown} is not a knot that can be tied."
                if key == "tie"
                else (f"{shown} does not fit '{key}'.")
            )
            return what, nearest(str(here), words)
        case "string_type" | "string_sub_type":
            return f"'{key}' needs a text.", "write a text; put numbers in quotes"
        case "model_type" | "model_attributes_type" | "dict_type" | "mapping_type":
            return f"'{key}' needs keys of its own.", _example(key)
        case "tuple_type" | "list_type":
            return f"'{key}' needs a list.", _example(key)
        case "too_short" | "string_too_short":
            return f"'{key}' is empty.", _example(key)
        case "too_long" | "string_too_long":
            most = context.get("max_length")
            return f"'{key}' is too long; {most} is the most.", "shorten it"
        case "int_type" | "int_parsing" | "int_from_float":
            return f"{shown} is not a whole number.", "write one like 3"
        case "greater_than_equal" | "less_than_equal" | "finite_number" | "float_type":
            return f"{shown} is out of bounds for '{key}'.", _example(key)
        case _:
            return "", _example(key)


_EXAMPLES: Final = {
    "cordwright": "write cordwright: 1 at the top, the version of the format",
    "title": "write title: Fern cradle",
    "cords": "write them like cords: {main: {fibre: cotton, diameter: 4 mm}}",
    "cord": "name one of the plan's cords, as in cord: main",
    "sizes": "write them like sizes: {arm: 35 cm}",
    "mount": "write ring:, rod:, cord: or nothing:, and cords: with a list",
    "ring": "write ring: {inside: 50 mm, wire: 6 mm}",
    "rod": "write rod: {length: 40 cm, thick: 12 mm}",
    "nothing": "write nothing: {tail: 8 cm}",
    "motifs": "write motifs: {diamond: {work: [...]}}",
    "work": "write a list of steps, each starting with a dash: - tie: square-knot",
    "tie": "write tie: square-knot",
    "fibre": "write fibre: cotton",
    "diameter": "write diameter: 4 mm",
    "value": "write value: 20 cm",
    "slant": "write level, diagonal, steep or degrees from 0 to 60",
    "reorder": "write the places in their new order: [2, 1, 4, 3]",
    "braid": "write braid: 3 or braid: 4",
    "after": "write after: 6, or after: end for the right end",
    "inside": "write inside: 50 mm",
    "wire": "write wire: 6 mm",
    "thick": "write thick: 12 mm",
    "length": "write length: 40 cm",
    "hang": "write hang: {hook: 2.2 m, holds: {sphere: {across: 12 cm, weight: 400 g}}}",
    "holds": "write pot:, bowl:, sphere: or box:, with its measures",
    "screw": "write screw: {thick: 4 mm, thread: 30 mm, wood: pine}",
    "keeps": "write keeps: {wet: 0.8}",
    "pot": "write pot: {rim: 16 cm, base: 11 cm, height: 14 cm, weight: 900 g}",
    "bowl": "write bowl: {across: 20 cm, high: 9 cm, weight: 600 g}",
    "sphere": "write sphere: {across: 12 cm, weight: 400 g}",
    "box": "write box: {wide: 20 cm, deep: 6 cm, high: 28 cm, weight: 1.1 kg}",
    "rim": "write rim: 16 cm, measured across the outside",
    "base": "write base: 11 cm, measured across the outside",
    "height": "write height: 14 cm",
    "weight": "write weight: 900 g",
    "wood": "write wood: pine",
    "thread": "write thread: 30 mm, what is in the wood",
    "across": "write across: 20 cm",
    "high": "write high: 9 cm",
    "wide": "write wide: 20 cm",
    "deep": "write deep: 6 cm",
}


def _example(key: str) -> str:
    return _EXAMPLES.get(key, f"add {key}: with a value" if key else "")
