"""From a worked piece to its hanging shape, and what follows from it: scene, pictures, loads, fit.

Runs in a worker process that keeps the last shapes: each piece goes on from where it hung before.
"""

from __future__ import annotations

import time
from collections import OrderedDict
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, Literal
from urllib.parse import quote

from cordwright.bench.models import Hanging, Picture, Problem, ScenePoses, Stretch
from cordwright.bench.reach import reaches
from cordwright.bench.study import problems
from cordwright.draw.placed import Placed, placed
from cordwright.draw.placed_shape import planned
from cordwright.draw.scene import scene
from cordwright.draw.scene_parts import scene_parts
from cordwright.draw.scene_poses import Poses, poses
from cordwright.errors import CordwrightError
from cordwright.hang import carrying, fit, loads, shape
from cordwright.hang.framing import frame_of
from cordwright.hang.holding import held_of
from cordwright.hang.sitting import sit
from cordwright.hang.worked import worked as drawn_up
from cordwright.plan.layout import Path, written
from cordwright.plan.model import NothingMount
from cordwright.plan.sizes import resolve_sizes

if TYPE_CHECKING:
    from cordwright.bench.study import Worked
    from cordwright.draw.placed_cords import FreeCord
    from cordwright.hang.fitanswer import FitReport
    from cordwright.hang.loadanswer import LoadReport
    from cordwright.knots.atlas import Atlas
    from cordwright.piece.model import Piece
    from cordwright.units.length import System

KEPT: Final = 4
"""Shapes that are kept: of pieces that are open in several tabs."""

Detail = Literal["low", "high"]


@dataclass(frozen=True, slots=True)
class Shown:
    """A piece in space.

    Args:
        text: of the plan.
        worked: the piece.
        shape: as it hangs; None for flat work that lies.
        placed: ready to be drawn.
        ms: what it took.
    """

    text: str
    worked: Worked
    shape: shape.Shape | None
    placed: Placed
    ms: float


class Shapes:
    """The shapes that were made last, by the name of the piece."""

    def __init__(self) -> None:
        self._kept: OrderedDict[str, Shown] = OrderedDict()

    def of(self, name: str, text: str, worked: Worked, atlas: Atlas) -> Shown:
        """A piece in space, made now if it is not the one that was made last.

        Args:
            name: of the piece.
            text: of its plan.
            worked: the piece.
            atlas: of tight knots.
        """
        last = self._kept.get(name)
        if last is None or last.text != text:
            last = _shown(text, worked, atlas, last.shape if last else None)
            self._kept[name] = last
        self._kept.move_to_end(name)
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        return last


def _shown(text: str, worked: Worked, atlas: Atlas, after: shape.Shape | None) -> Shown:
    began, piece = time.perf_counter(), worked.piece
    held = planned(piece)
    if _lies(piece) and held is None:
        frame = frame_of(piece)
        laid = placed(piece, frame, drawn_up(frame), atlas)
        return Shown(text, worked, None, laid, _ms(began))
    found = shape.hang(piece, held, after)
    put = placed(piece, found.frame, found.x, atlas, held=held, vessel_node=found.vessel_node)
    return Shown(text, worked, found, put, _ms(began))


def _lies(piece: Piece) -> bool:
    flat = all(k.shape == "flat" for k in piece.knots)
    return flat and isinstance(piece.plan.mount.on, NothingMount)


def _ms(began: float) -> float:
    return 1000.0 * (time.perf_counter() - began)


@dataclass(frozen=True, slots=True)
class Posed:
    """Where everything of a piece in space is, and what is told of it.

    Args:
        poses: of knots, cord and things.
        parts: where every part of the plan is in the scene.
        steps: steps that tie knots.
        knots: by knot, which of these ties it, or -1.
        balanced: whether the shape came to rest.
        ms: what shape and scene took.
    """

    poses: Poses
    parts: dict[str, Stretch]
    steps: tuple[str, ...]
    knots: tuple[int, ...]
    balanced: bool
    ms: float

    def told(self, name: str, revision: int, trying: int | None, tab: int | None) -> Picture:
        """For the wire; ``tab`` is the channel whose try it shows."""
        asked = f"revision={revision}" if trying is None else f"trying={trying}&tab={tab}"
        return Picture(
            name=name,
            revision=revision,
            trying=trying,
            scene=f"/api/pieces/{quote(name)}/parts.glb?{asked}",
            poses=ScenePoses.of(self.poses),
            parts=self.parts,
            steps=list(self.steps),
            knots=list(self.knots),
            balanced=self.balanced,
            ms=self.ms,
        )


def posed(shown: Shown) -> Posed:
    """Where everything of a piece in space is."""
    began = time.perf_counter()
    found = poses(shown.placed)
    parts, steps, knots = _where(shown)
    settled = shown.shape.settled if shown.shape is not None else None
    return Posed(
        found,
        parts,
        steps,
        knots,
        settled is None or settled.balanced,
        shown.ms + _ms(began),
    )


def parts_glb(shown: Shown, detail: Detail) -> bytes:
    """What its scene is put together from, as glTF binary."""
    return scene_parts(shown.placed, detail)


def scene_glb(shown: Shown, detail: Detail) -> bytes:
    """Its whole scene as glTF binary."""
    return scene(shown.placed, detail=detail)


def _where(shown: Shown) -> tuple[dict[str, Stretch], tuple[str, ...], tuple[int, ...]]:
    """Heights of every part in the scene (metres), and which step ties which knot."""
    piece, knots = shown.worked.piece, shown.placed.knots
    tops = [0.001 * float(k.origin[2]) for k in knots]
    lows = [
        top - 0.001 * abs(float(k.axes[2, 2])) * piece.mm(piece.knots[k.knot].height)
        for top, k in zip(tops, knots, strict=True)
    ]
    tails = {c.strand: _heights(c) for c in shown.placed.cords if c.part == "tail"}
    parts: dict[str, Stretch] = {}
    tied: dict[int, Path] = {}
    for path, reach in reaches(shown.worked.plan, piece).items():
        hung = [tails[i] for i in reach.ends if i in tails]
        highs = [tops[i] for i in reach.ids] or [top for top, _ in hung]
        deep = [*(lows[i] for i in reach.ids), *(low for _, low in hung)]
        if highs:
            parts[written(path)] = Stretch(top=max(highs), bottom=min(deep))
        for i in reach.ids:
            if i not in tied or len(path) > len(tied[i]):
                tied[i] = path
    steps = tuple(dict.fromkeys(written(p) for p in tied.values()))
    number = {path: i for i, path in enumerate(steps)}
    named = tuple(number[written(tied[k.knot])] if k.knot in tied else -1 for k in knots)
    return parts, steps, named


def _heights(cord: FreeCord) -> tuple[float, float]:
    """The highest and the lowest point of free cord in the scene, metres."""
    heights = cord.curves[:, [0, 3], 2]  # ends of its curves; it hardly leaves them between
    return 0.001 * float(heights.max()), 0.001 * float(heights.min())


def hanging(shown: Shown, name: str, revision: int) -> Hanging:
    """Loads and fit: how a piece carries what hangs, and how that sits in it.

    Args:
        shown: the piece in space.
        name: of the piece, in the maker's folder.
        revision: of its state.
    """
    began = time.perf_counter()
    piece = shown.worked.piece
    found: list[Problem] = []
    load: LoadReport | None = None
    fits: FitReport | None = None
    try:
        told = carrying.told_of(piece, {})
        if told.holds is None:
            at_rest = shown.shape if shown.shape is not None else shape.hang(piece)
        else:
            sitting = sit(piece, held_of(told.holds))
            at_rest = sitting.shape
            fits = fit.fit_report(piece, told, resolve_sizes(piece.plan), sitting)
        pulls = shape.tensions(at_rest)
        load = loads.load_report(piece, pulls, told, carrying.doubts(at_rest, pulls))
    except CordwrightError as error:
        found = [p.model_copy(update={"level": "warning"}) for p in problems(error, shown.text)]
    return Hanging(name=name, revision=revision, load=load, fit=fits, problems=found, ms=_ms(began))


def picture(shown: Shown, system: System, strand: str | None) -> str:
    """The flat picture as SVG, whole or with one strand or cord picked out.

    Raises:
        CordwrightError: there is no such strand.
    """
    from cordwright.draw.piece_sheet import piece_sheet
    from cordwright.draw.strand_way import strand_sheet
    from cordwright.draw.wording import english

    said = english(system)
    if strand is not None:
        return strand_sheet(shown.placed, strand, wording=said).svg
    return piece_sheet(shown.placed, wording=said).svg


def sketch(shown: Shown, pixels: int) -> bytes:
    """The piece by itself as PNG, so many pixels along its longer side."""
    from cordwright.draw.piece_png import png
    from cordwright.draw.piece_sheet import piece_sheet

    sheet = piece_sheet(shown.placed, bare=True)
    return png(sheet.svg, sheet.width, sheet.height, pixels / max(sheet.width, sheet.height))


def chart(worked: Worked, atlas: Atlas, system: System) -> str:
    """The chart as SVG."""
    from cordwright.draw.chart_sheet import chart_sheet
    from cordwright.draw.wording import english

    return chart_sheet(worked.piece, atlas, wording=english(system)).svg
