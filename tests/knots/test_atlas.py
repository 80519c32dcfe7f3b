"""The shipped figures, and the way to knots that are not shipped."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from cordwright.errors import KnotError
from cordwright.knots import atlas as atlas_module
from cordwright.knots import compute as computing
from cordwright.knots.atlas import CURVES, FIGURES, HANDED, Atlas
from cordwright.knots.canonical import canonical, key
from cordwright.knots.compute import BUNDLE_ERROR, TightKnot, compute
from cordwright.knots.shipped import SHIPPED
from cordwright.knots.spec import KnotFigures, KnotName, KnotSpec, Role
from cordwright.knots.store import FORMAT, figures_of, record
from cordwright.knots.tangle import Course, Tangle

SHAPES = sorted({key(s): canonical(s) for s in SHIPPED}.items())
ATLAS = Atlas()

NEW = KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=1.7)
"""Cheap to tighten and not shipped."""


@pytest.fixture(scope="module")
def entries() -> dict[str, Any]:
    data = json.loads(FIGURES.read_text(encoding="utf-8"))
    assert data["format"] == FORMAT
    knots: dict[str, Any] = data["knots"]
    return knots


def test_everything_that_should_be_shipped_is(entries: dict[str, Any]) -> None:
    assert sorted(entries) == [name for name, _ in SHAPES]
    assert key(NEW) not in entries


@pytest.mark.parametrize(("name", "spec"), SHAPES, ids=[n for n, _ in SHAPES])
def test_shipped_figures_can_be_trusted(entries: dict[str, Any], name: str, spec: KnotSpec) -> None:
    found, residuals = figures_of(entries[name]), entries[name]["residuals"]
    assert found.spec == spec
    assert 0 <= found.overlap_d < 0.005
    assert residuals["sharpest"] <= 1.005
    assert residuals["asymmetry_d"] < 1e-6
    bundle = spec.name in {KnotName.OVERHAND, KnotName.GATHERING} and spec.strands > 1
    assert found.mesh_error_d < (0.02 if bundle else 0.01) * max(found.take_up_d)
    assert min(found.height_d, found.width_d, found.depth_d, *found.take_up_d) > 0
    assert len(found.roles) == len(found.take_up_d) == len(found.exit_order) == spec.strands
    along = (r for r in zip(found.roles, found.take_up_d, strict=True) if r[0] is not Role.HOLDING)
    assert all(used > found.height_d * 0.99 for _, used in along)


@pytest.mark.parametrize(("name", "spec"), SHAPES, ids=[n for n, _ in SHAPES])
def test_shipped_curves_have_the_lengths_and_sizes_told(
    entries: dict[str, Any], name: str, spec: KnotSpec
) -> None:
    entry, curves = entries[name], ATLAS.curves(spec)
    assert len(curves) == len(entry["courses"])
    for course, curve in zip(entry["courses"], curves, strict=True):
        assert curve.shape[1] == 3
        assert np.isfinite(curve).all()
        if course["path"] == "open":
            continue
        along = np.array(entry["direction"]) * entry["period_d"]
        assert len(curve) >= 4 * np.linalg.norm(along) / course["diameter_d"]
    if spec.name is KnotName.SQUARE_KNOT:
        # Each working cord is told to use the mean of both.
        whole = [np.vstack([c, c[:1] + along]) for c in curves[:2]]
        used = [np.linalg.norm(np.diff(c, axis=0), axis=1).sum() for c in whole]
        assert np.mean(used) == pytest.approx(entry["take_up_d"][0], rel=5e-3)


def square(fillers: int) -> KnotFigures:
    return ATLAS.figures(KnotSpec(KnotName.SQUARE_KNOT, 2 + fillers))


def test_square_knots() -> None:
    """An earlier trial by penalty contact gave 4.0 d high, 15.1, 16.7 and 18.8 d of cord."""
    for fillers, used in ((1, 15.1), (2, 16.8), (4, 18.8)):
        found = square(fillers)
        assert found.height_d == pytest.approx(4.0, abs=0.02)
        assert found.take_up_d[0] == pytest.approx(used, abs=0.12)
        assert found.take_up_d[1] == pytest.approx(4.0, abs=0.05)
    assert [square(f).take_up_d[0] for f in range(1, 9)] == sorted(
        square(f).take_up_d[0] for f in range(1, 9)
    )


def test_lengths_that_can_be_worked_out_by_hand() -> None:
    # Turns of a gathering knot lie against one another; so do a lark's head's four parts.
    for turns in (4, 6, 8):
        found = ATLAS.figures(KnotSpec(KnotName.GATHERING, 9, turns=turns))
        assert found.height_d == pytest.approx(turns, rel=0.01)
    mount = ATLAS.figures(KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=3.0))
    assert mount.width_d == pytest.approx(4.0, abs=0.01)
    # Beyond, a thicker rod costs each strand half a turn more of its circumference, twice.
    thicker = ATLAS.figures(KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=5.0))
    more = thicker.take_up_d[0] - mount.take_up_d[0]
    assert more == pytest.approx(2 * np.pi, rel=0.03)


@pytest.mark.parametrize("hand", ["left", "right"])
def test_hands(hand: Any) -> None:
    half = ATLAS.figures(KnotSpec(KnotName.HALF_KNOT, 4, hand=hand))
    assert (half.twist_deg > 0) == (hand == "left")
    curves = ATLAS.curves(KnotSpec(KnotName.HALF_KNOT, 4, hand=hand))
    assert (curves[0][0, 0] < 0) == (hand == "left")


def test_entries_list_both_hands() -> None:
    listed = list(ATLAS.entries())
    handed = [s for _, s in SHAPES if s.name in HANDED]
    assert len(listed) == len(SHAPES) + len(handed)
    assert len({f.spec for f in listed}) == len(listed)


CHEAP = (
    KnotSpec(KnotName.OVERHAND, 1),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=1.5),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2),
)


@pytest.mark.parametrize("spec", CHEAP, ids=key)
def test_tightened_afresh_they_are_the_same(spec: KnotSpec) -> None:
    fresh, kept = compute(spec).figures, ATLAS.figures(spec)
    assert fresh.take_up_d == pytest.approx(kept.take_up_d, rel=5e-3)
    assert fresh.height_d == pytest.approx(kept.height_d, rel=5e-3)
    assert fresh.width_d == pytest.approx(kept.width_d, rel=5e-3)


def test_thick_bundles_follow_the_root_of_their_strands() -> None:
    """What ``compute.BUNDLE_ERROR`` is taken from: half of it, between any two bundles."""
    used = {n: ATLAS.figures(KnotSpec(KnotName.OVERHAND, n)).take_up_d[0] for n in range(2, 7)}
    off = [used[a] * np.sqrt(b / a) / used[b] - 1 for a in used for b in used if a < b]
    assert np.abs(off).max() < 0.5 * BUNDLE_ERROR
    assert np.abs(off).max() > 0.4 * BUNDLE_ERROR  # else it claims too little


class Counted:
    """Stands before ``compute`` and counts; the knot itself is tightened once."""

    def __init__(self) -> None:
        self.calls = 0
        self.knot = compute(NEW)

    def __call__(self, spec: KnotSpec, progress: Any = None) -> TightKnot:
        assert spec == NEW
        self.calls += 1
        if progress is not None:
            progress(1.0)
        return self.knot


@pytest.fixture(scope="module")
def tightened() -> Counted:
    return Counted()


@pytest.fixture
def counted(tightened: Counted, monkeypatch: pytest.MonkeyPatch) -> Counted:
    monkeypatch.setattr(computing, "compute", tightened)
    tightened.calls = 0
    return tightened


def test_an_unknown_knot_is_tightened_once_and_kept(counted: Counted, tmp_path: Path) -> None:
    told: list[float] = []
    first = Atlas(tmp_path, watch=lambda _spec, share: told.append(share))
    found = first.figures(NEW)
    assert first.figures(NEW) is found
    assert counted.calls == 1
    assert told[0] == 0.0
    assert told[-1] == 1.0
    again = Atlas(tmp_path)
    assert again.figures(NEW) == found
    for a, b in zip(again.curves(NEW), first.curves(NEW), strict=True):
        assert np.array_equal(a, b)
    assert counted.calls == 1
    assert found.height_d == pytest.approx(counted.knot.figures.height_d)


@pytest.mark.parametrize("damage", [b"", b"{", b"[]", b"\xff\xfe", b'{"spec": {"name": "bow"}}'])
def test_a_damaged_cache_is_tightened_again(
    counted: Counted, tmp_path: Path, damage: bytes
) -> None:
    found = Atlas(tmp_path).figures(NEW)
    (kept,) = tmp_path.rglob("*.json")
    kept.write_bytes(damage)
    assert Atlas(tmp_path).figures(NEW) == found
    assert counted.calls == 2
    assert Atlas(tmp_path).figures(NEW) == found
    assert counted.calls == 2


@pytest.mark.parametrize("damage", [b"", b"PK\x03\x04", None])
def test_damaged_curves_are_tightened_again(
    counted: Counted, tmp_path: Path, damage: bytes | None
) -> None:
    curves = Atlas(tmp_path).curves(NEW)
    (kept,) = tmp_path.rglob("*.npz")
    if damage is None:
        kept.unlink()
    else:
        kept.write_bytes(damage)
    again = Atlas(tmp_path).curves(NEW)
    assert counted.calls == 2
    assert all(np.array_equal(a, b) for a, b in zip(again, curves, strict=True))


def test_a_cache_that_cannot_be_written_is_no_harm(counted: Counted, tmp_path: Path) -> None:
    file = tmp_path / "not-a-folder"
    file.write_text("", encoding="utf-8")
    blocked = Atlas(file)
    assert blocked.figures(NEW).height_d > 0
    assert len(blocked.curves(NEW)) == 2
    assert counted.calls == 1


UNTIEABLE = [
    KnotSpec(KnotName.BRAID, 7),
    KnotSpec(KnotName.SQUARE_KNOT, 40),
    KnotSpec(KnotName.SQUARE_KNOT, 4, filler_d=99.0),
    KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, slant_deg=85.0),
    KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=1000.0),
    KnotSpec(KnotName.OVERHAND, 500),
    KnotSpec(KnotName.OVERHAND, 0),
    KnotSpec(KnotName.GATHERING, 200, turns=4),
]


@pytest.mark.parametrize("spec", UNTIEABLE, ids=str)
def test_what_cannot_be_tied_is_refused_with_a_remedy(spec: KnotSpec, tmp_path: Path) -> None:
    with pytest.raises(KnotError) as refused:
        Atlas(tmp_path).figures(spec)
    assert refused.value.remedy
    assert not list(tmp_path.rglob("*.json"))


def test_a_shape_with_cords_inside_one_another_is_not_believed(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    held = (True, True, True)
    # Two cords with a loose bend each, held nearer at their ends than they are thick.
    bent = np.array([[0, 0, 6.0], [0, 0, 3], [0, 2.5, 0.5], [0, 2.5, -0.5], [0, 0, -3], [0, 0, -6]])
    lines = [bent + np.array([x, 0, 0]) for x in (0.0, 0.8)]
    stuck = Tangle(tuple(Course(c, hold=held, place=i) for i, c in enumerate(lines)))
    monkeypatch.setattr(computing, "draw", lambda _spec: stuck)
    monkeypatch.setattr(computing, "figures", lambda _spec, _results: ATLAS.figures(CHEAP[0]))
    with pytest.raises(KnotError, match="inside one another"):
        compute(KnotSpec(KnotName.OVERHAND, 2))


def test_a_record_can_be_read_back(tightened: Counted) -> None:
    data = json.loads(json.dumps(record(tightened.knot)))
    assert figures_of(data) == tightened.knot.figures
    with np.load(CURVES) as curves:
        assert all(x.dtype == np.float32 for x in (curves[n] for n in curves.files[:5]))
    assert atlas_module.DATA.is_dir()
