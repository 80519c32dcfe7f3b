"""Random plans: every kind of step, cord, size and mount, well-formed by construction."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from cordwright.plan.model import Plan

LENGTHS = ("arm", "leg")
COUNTS = ("rows", "n")
CORDS = ("main", "fine")

texts = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs", "Cc", "Cn"]), min_size=1, max_size=30
)
small = st.integers(1, 9)
counts: st.SearchStrategy[Any] = small | st.sampled_from(["rows", "2 * n", "rows + 1", "max(n, 2)"])
lengths: st.SearchStrategy[Any] = st.sampled_from(
    ["0", "35 cm", "3 ft 6 in", "2½ in", "arm", "arm / 2", "2 * leg + 1 mm", "max(0, arm - leg)"]
)
places: st.SearchStrategy[Any] = (
    small
    | st.sampled_from(["all", "1-4", "1-4, 7", "n to end", "end"])
    | st.lists(small | st.sampled_from(["n+1", "2-3"]), min_size=1, max_size=4)
)
cords = st.sampled_from(CORDS)
knots = st.sampled_from(["square-knot", "half-knot", "half-hitch", "overhand"])
hands = st.sampled_from(["left", "right", "alternate"])
workers = st.sampled_from(["outer", "inner", "first", "last"]) | places


def _step(required: dict[str, Any], optional: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.fixed_dictionaries(required, optional={"note": texts, **optional})


def _either(*choices: dict[str, Any]) -> st.SearchStrategy[dict[str, Any]]:
    return st.one_of(*(st.fixed_dictionaries(c) for c in choices))


def _with(
    base: st.SearchStrategy[dict[str, Any]], more: st.SearchStrategy[dict[str, Any]]
) -> st.SearchStrategy[dict[str, Any]]:
    return st.tuples(base, more).map(lambda two: {**two[0], **two[1]})


_tying = {"on": places, "each": counts, "times": counts, "gap": lengths, "hand": hands,
          "workers": workers}  # fmt: skip
plain_steps: st.SearchStrategy[dict[str, Any]] = st.one_of(
    _step({"tie": knots}, {**_tying, "skip": counts, "free": lengths}),
    _with(
        _step({"rows": counts, "tie": knots}, {**_tying, "shift": counts}),
        st.just({}) | _either({"shrink": counts}, {"grow": counts}),
    ),
    _step({"free": lengths}, {"on": places}),
    _with(
        _step(
            {"hitch": st.sampled_from(["left", "right"])},
            {
                "on": places,
                "slant": st.sampled_from(["level", "diagonal", "steep"]) | st.floats(0, 60),
                "free": lengths,
                "rows": counts,
            },
        ),
        st.just({}) | _either({"cord": cords}, {"cord": cords, "tail": lengths}),
    ),
    _with(_step({"pass": places}, {}), _either({"in_front_of": places}, {"behind": places})),
    _step({"reorder": st.permutations([1, 2, 3, 4])}, {"each": counts, "on": places}),
    _step({"join": st.just("round")}, {"seam": counts}),
    _step({"open": st.just("flat")}, {"seam": counts}),
    _step({"seam": counts}, {}),
    _with(
        _step({"braid": st.sampled_from([3, 4])}, {"on": places, "each": counts}),
        _either({"length": lengths}, {"times": counts}),
    ),
    _with(
        _step({"gather": places}, {"with": st.fixed_dictionaries({"cord": cords}) | counts}),
        _either({"turns": counts}, {"height": lengths}),
    ),
    _with(
        _step({"add": counts, "cord": cords, "after": counts | st.just("end")}, {}),
        _either(
            {}, {"fold": st.just("middle")}, {"fold": st.just("none"), "tail": lengths}
        ),
    ),
    _step({"leave": places}, {"tail": lengths}),
    _step(
        {"motif": st.just("diamond")},
        {"on": places, "with": st.fixed_dictionaries({}, optional={"k": counts, "gap": lengths})},
    ),
    _with(
        _step({"fringe": lengths}, {"on": places}),
        _either(
            {"trim": st.sampled_from(["level", "as it falls"])},
            {"trim": st.just("point"), "rise": lengths},
            {"trim": st.just("slant"), "rise": lengths, "to": st.sampled_from(["left", "right"])},
        ),
    ),
)  # fmt: skip
steps = st.recursive(
    plain_steps,
    lambda inner: st.one_of(
        _step(
            {"repeat": counts, "work": st.lists(inner, max_size=3)},
            {"counter": st.sampled_from(["i", "rows"])},
        ),
        _step({"section": texts, "work": st.lists(inner, max_size=3)}, {}),
    ),
    max_leaves=6,
)
cord_specs = st.fixed_dictionaries(
    {"fibre": texts, "diameter": st.sampled_from(["4 mm", "1/8 in", "0.4 cm"])},
    optional={
        "build": texts,
        "colour": texts,
        "weight": st.sampled_from(["9.5 g/m", "7g/m"]),
        "strength": st.sampled_from(["800 N", "80 kg"]),
    },
)
_tails = st.fixed_dictionaries({}, optional={"tail": lengths})
holders = st.one_of(
    st.fixed_dictionaries({"ring": st.fixed_dictionaries({"inside": lengths, "wire": lengths})}),
    st.fixed_dictionaries({"rod": st.fixed_dictionaries({"length": lengths, "thick": lengths})}),
    st.fixed_dictionaries({"cord": _with(st.fixed_dictionaries({"cord": cords}), _tails)}),
    st.fixed_dictionaries({"nothing": _tails}),
)
mounted = st.one_of(
    st.fixed_dictionaries(
        {"cord": cords},
        optional={
            "count": counts,
            "fold": st.sampled_from(["needed", "middle"]),
            "knot": st.just("larks-head"),
            "face": st.sampled_from(["face", "reverse"]),
            "cut": lengths,
        },
    ),
    st.fixed_dictionaries({"cord": cords, "fold": st.just("none")}, optional={"tail": lengths}),
)
mounted_cords = mounted | st.fixed_dictionaries(
    {"repeat": counts, "cords": st.lists(mounted, min_size=1, max_size=2)}
)
sizes = st.fixed_dictionaries(
    {
        "arm": st.sampled_from(["35 cm", "1.2 m", "leg * 2 + 5 mm"]),
        "leg": st.sampled_from(["5 cm", "2 in"]),
        "rows": st.sampled_from([6, "n + 2", {"value": 6, "at_least": 1, "about": "of knots"}]),
        "n": st.sampled_from([4, "4", "8 / 2"]),
    }
)
weights = st.sampled_from(["900 g", "1.2 kg", "2 lb 3 oz"])
above_zero = st.sampled_from(["20 cm", "arm", "8 in", "leg + 10 cm"])
held: st.SearchStrategy[dict[str, Any]] = _either(
    {"sphere": st.fixed_dictionaries({"across": above_zero, "weight": weights})},
    {"bowl": st.fixed_dictionaries({"across": above_zero, "high": above_zero, "weight": weights},
                                   optional={"with": st.just("water")})},
    {"box": st.fixed_dictionaries(dict.fromkeys(("wide", "deep", "high"), above_zero)
                                  | {"weight": weights})},
    {"pot": st.fixed_dictionaries(
        {"rim": above_zero, "base": above_zero, "height": above_zero, "weight": weights},
        optional={"wall": st.just("8 mm"), "material": st.just("glass"), "filled": st.just("9 ml"),
                  "with": st.sampled_from(["water", "wet loam"])})},
)  # fmt: skip
shares = st.floats(0.05, 1.0).map(lambda x: round(x, 3))
hangs: st.SearchStrategy[dict[str, Any]] = st.fixed_dictionaries(
    {},
    optional={
        "hook": st.just("2.2 m"),
        "place": st.sampled_from(["indoors", "outdoors"]),
        "bump": st.integers(1, 10) | st.just(2.5),
        "factor": st.floats(1.0, 50.0).map(lambda x: round(x, 2)),
        "keeps": st.fixed_dictionaries({}, optional={"knots": shares, "wet": shares}),
        "screw": st.just({"thick": "4 mm", "thread": "30 mm", "wood": "pine"}),
        "holds": held,
    },
)

uses = st.sampled_from(["hung", "carried", "worn", "plain"])


def _hung_from_something(data: dict[str, Any]) -> dict[str, Any]:
    """What hangs on nothing holds nothing and is not hung; what has ``hang:`` is of such use."""
    found = dict(data)
    if "nothing" in data["mount"]:
        if "hang" in data:
            found["hang"] = {k: v for k, v in data["hang"].items() if k != "holds"}
        if data.get("use") == "hung":
            found["use"] = "carried"
    if "hang" in data and data.get("use") in ("worn", "plain"):
        found["use"] = "carried"
    return found


plan_data: st.SearchStrategy[dict[str, Any]] = st.fixed_dictionaries(
    {
        "cordwright": st.just(1),
        "title": texts,
        "cords": st.fixed_dictionaries({"main": cord_specs, "fine": cord_specs}),
        "sizes": sizes,
        "mount": _with(
            holders,
            st.fixed_dictionaries({"cords": st.lists(mounted_cords, min_size=1, max_size=3)}),
        ),
        "motifs": st.fixed_dictionaries(
            {
                "diamond": st.fixed_dictionaries(
                    {"takes": st.just({"k": 8, "gap": "0 cm"}),
                     "work": st.lists(plain_steps.filter(lambda s: "motif" not in s), max_size=3)}
                )
            }
        ),
        "work": st.lists(steps, max_size=5),
    },
    optional={"about": texts, "tail": lengths, "hang": hangs, "use": uses},
)  # fmt: skip
plan_data = plan_data.map(_hung_from_something)
plans = plan_data.map(Plan.model_validate)
"""Plans that read without an error."""
