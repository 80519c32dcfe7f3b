"""The atlas: every tight knot that the program knows, and the way to one that it does not.

Figures come from the data shipped with the package; what is not in it is looked for in the
maker's cache, and else tightened now and kept there. Heights, widths, take-ups and curves have
no other source.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

from cordwright.knots.canonical import as_asked, canonical, key
from cordwright.knots.cell import Cell, cell_of
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec
from cordwright.knots.store import FORMAT, figures_of, record, write_arrays, write_json

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from cordwright.knots.compute import TightKnot

DATA = Path(__file__).parent / "data"
FIGURES = DATA / "atlas.json"
CURVES = DATA / "curves.npz"

Watch = Callable[[KnotSpec, float], None]
"""Is told which knot is being tightened and the share done, 0 to 1."""


class Atlas:
    """Source of tight knots.

    Args:
        cache: folder for knots tightened on demand; the user's cache folder if None.
        watch: is told of progress whenever a knot has to be tightened.
    """

    def __init__(self, cache: Path | None = None, watch: Watch | None = None) -> None:
        self._cache = cache
        self._watch = watch
        self._shipped: dict[str, Any] | None = None
        self._tied: dict[str, Any] = {}
        self._bent: dict[str, list[NDArray[np.float32]]] = {}
        self._known: dict[KnotSpec, KnotFigures] = {}

    def figures(self, spec: KnotSpec) -> KnotFigures:
        """Figures of a tight knot, tightened now if need be.

        Raises:
            KnotError: if the knot cannot be tied as specified.
        """
        found = self._known.get(spec)
        if found is None:
            left = figures_of(self._entry(canonical(spec)))
            found = self._known[spec] = as_asked(left, spec)
        return found

    def curves(self, spec: KnotSpec) -> list[NDArray[np.float64]]:
        """Tight curves, a (n, 3) array in d for each course of the knot's tangle.

        Courses stand in the order in which the left-hand knot is drawn.

        Raises:
            KnotError: if the knot cannot be tied as specified.
        """
        import numpy as np

        name = key(spec)
        seen = np.array([-1.0 if spec.hand == "right" else 1.0, 1.0, 1.0])
        if spec.face == "reverse":
            seen[1] = -1.0
        return [x.astype(np.float64) * seen for x in self._curves(canonical(spec), name)]

    def cell(self, spec: KnotSpec) -> Cell:
        """What each curve of a knot is, and how they repeat.

        Raises:
            KnotError: if the knot cannot be tied as specified.
        """
        return cell_of(self._entry(canonical(spec)), spec)

    def _curves(self, spec: KnotSpec, name: str) -> list[NDArray[np.float32]]:
        """Curves as they are stored; tightened again if only the figures were kept."""
        import zipfile

        count = len(self._entry(spec)["courses"])
        if name not in self._bent:
            shipped = name in self._load()
            try:
                path = CURVES if shipped else self._path(name).with_suffix(".npz")
                self._bent[name] = _stored(path, name, count)
            except (OSError, ValueError, KeyError, EOFError, zipfile.BadZipFile):
                if shipped:
                    raise
                self._tied[name] = self._tightened(spec, name)
        return self._bent[name]

    def entries(self) -> Iterator[KnotFigures]:
        """Figures of every knot that is shipped, both hands where they differ."""
        for data in self._load().values():
            left = figures_of(data)
            yield left
            if left.spec.name in HANDED:
                yield self.figures(_right(left.spec))

    def residuals(self, spec: KnotSpec) -> dict[str, Any]:
        """How far a knot can be trusted: see ``store.record``."""
        found: dict[str, Any] = self._entry(canonical(spec))["residuals"]
        return found

    def _entry(self, spec: KnotSpec) -> dict[str, Any]:
        name = key(spec)
        entry: dict[str, Any] | None = self._load().get(name) or self._tied.get(name)
        if entry is None:
            entry = self._from_cache(name) or self._tightened(spec, name)
            self._tied[name] = entry
        return entry

    def _load(self) -> dict[str, Any]:
        if self._shipped is None:
            self._shipped = {}
            if FIGURES.exists():
                self._shipped = json.loads(FIGURES.read_text(encoding="utf-8"))["knots"]
        return self._shipped

    def _path(self, name: str) -> Path:
        folder = self._cache
        if folder is None:
            from platformdirs import user_cache_path

            folder = user_cache_path("cordwright", appauthor=False)
        digest = hashlib.sha256(name.encode()).hexdigest()[:24]
        return folder / f"knots-{FORMAT}" / f"{digest}.json"

    def _from_cache(self, name: str) -> dict[str, Any] | None:
        try:
            data = json.loads(self._path(name).read_text(encoding="utf-8"))
            figures_of(data)
        except (OSError, ValueError, KeyError, TypeError):
            # Not there, unreadable or written by another version: tighten again.
            return None
        found: dict[str, Any] = data
        return found

    def _tightened(self, spec: KnotSpec, name: str) -> dict[str, Any]:
        watch = self._watch
        if watch is not None:
            watch(spec, 0.0)
        from cordwright.knots.compute import compute

        progress = (lambda share: watch(spec, share)) if watch else None
        knot = compute(spec, progress)
        data = record(knot)
        arrays = _arrays(name, knot)
        self._bent[name] = list(arrays.values())
        path = self._path(name)
        try:
            write_arrays(path.with_suffix(".npz"), arrays)
            write_json(path, data)
        except OSError:
            # A cache that cannot be written costs time at the next run, never the answer.
            pass
        return data


HANDED = frozenset(
    {
        KnotName.SQUARE_KNOT,
        KnotName.HALF_KNOT,
        KnotName.HALF_HITCH,
        KnotName.DOUBLE_HALF_HITCH,
        KnotName.OVERHAND,
    }
)
"""Knots whose right-hand form is listed beside the left-hand one."""


def _right(spec: KnotSpec) -> KnotSpec:
    return replace(spec, hand="right")


def _stored(path: Path, name: str, count: int) -> list[NDArray[np.float32]]:
    import numpy as np

    # Opened here, because NumPy leaves a file open that turns out to be no archive.
    with path.open("rb") as f, np.load(f) as data:
        return [data[f"{name}/{i}"] for i in range(count)]


def _arrays(name: str, knot: TightKnot) -> dict[str, NDArray[np.float32]]:
    """Curves under names that no two knots share; a thousandth of a diameter is kept."""
    import numpy as np

    count = len(knot.tight.mesh.tangle.courses)
    return {f"{name}/{i}": knot.tight.curve(i).astype(np.float32) for i in range(count)}


def regenerate(progress: Callable[[str, int, int], None] | None = None) -> Path:
    """Tighten every knot of the shipped atlas and write its data.

    Args:
        progress: is told the name of each knot, its number and how many there are.

    Returns:
        The file of figures; the curves lie beside it.
    """
    from cordwright.knots.compute import compute
    from cordwright.knots.shipped import SHIPPED

    knots: dict[str, Any] = {}
    arrays: dict[str, NDArray[np.float32]] = {}
    specs = [canonical(s) for s in SHIPPED]
    for i, spec in enumerate(specs):
        name = key(spec)
        if progress is not None:
            progress(name, i, len(specs))
        knot = compute(spec)
        knots[name] = record(knot)
        arrays.update(_arrays(name, knot))
    write_arrays(CURVES, arrays)
    write_json(FIGURES, {"format": FORMAT, "knots": knots})
    return FIGURES
