"""Tight knots as data: figures as JSON, curves as NumPy arrays."""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict
from pathlib import Path
from typing import IO, TYPE_CHECKING, Any, cast

from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec, Role

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from cordwright.knots.compute import TightKnot

FORMAT = 1
"""Raised when a change to the drawings or the solver makes stored figures stale."""


def record(knot: TightKnot) -> dict[str, Any]:
    """A tight knot as plain data: spec, figures in d, residuals, pulls."""
    data = asdict(knot.figures)
    tangle = knot.tight.mesh.tangle
    repeat = tangle.repeat
    data["residuals"] = {
        "sharpest": knot.tight.sharpest,
        "fall": knot.tight.fall,
        "asymmetry_d": knot.tight.asymmetry,
        "spread_d": knot.spread_d,
        "starts": knot.starts,
        "steps": knot.tight.steps,
    }
    data["pulls"] = [c.tension for c in tangle.courses]
    data["push"] = repeat.push if repeat else 0.0
    data["period_d"] = knot.tight.state.period
    data["direction"] = list(repeat.direction) if repeat else None
    data["courses"] = [
        {
            "role": c.role.value,
            "path": c.path,
            "diameter_d": c.diameter,
            "place": c.place,
            "fixed": c.fixed,
            "goes_on_as": c.goes_on_as,
        }
        for c in tangle.courses
    ]
    return data


def figures_of(data: Mapping[str, Any]) -> KnotFigures:
    """Figures back from plain data."""
    spec = dict(data["spec"])
    spec["name"] = KnotName(spec["name"])
    return KnotFigures(
        spec=KnotSpec(**spec),
        height_d=data["height_d"],
        width_d=data["width_d"],
        depth_d=data["depth_d"],
        roles=tuple(Role(r) for r in data["roles"]),
        take_up_d=tuple(data["take_up_d"]),
        exit_order=tuple(data["exit_order"]),
        twist_deg=data["twist_deg"],
        enter_d=tuple(data["enter_d"]),
        overlap_d=data["overlap_d"],
        mesh_error_d=data["mesh_error_d"],
    )


def write_json(path: Path, data: object) -> None:
    """Write plain data as a JSON file, whole or not at all."""
    text = json.dumps(data, indent=1, sort_keys=True) + "\n"
    with _whole(path) as f:
        f.write(text.encode())


def write_arrays(path: Path, arrays: Mapping[str, NDArray[np.float32]]) -> None:
    """Write arrays as a compressed NumPy archive, whole or not at all."""
    import numpy as np

    with _whole(path) as f:
        np.savez_compressed(f, **cast("dict[str, Any]", dict(arrays)))


@contextmanager
def _whole(path: Path) -> Iterator[IO[bytes]]:
    """A file that takes its name only when it is complete: no reader meets half of it."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=path.name, suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as f:
            yield f
        # Temporary files are made for their owner alone; this one is to be read by all.
        part.chmod(0o644)
        part.replace(path)
    finally:
        part.unlink(missing_ok=True)
