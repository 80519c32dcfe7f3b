"""How each knot holds still for its picture: which cords, from where, and how far slackened."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from cordwright.draw.cords import HOLDS, Cord, cords_of
from cordwright.draw.curves import lengths, part
from cordwright.draw.gathering import drawn_up, facing_legs
from cordwright.draw.layers import FRONT, Tube, View
from cordwright.draw.winding import winding
from cordwright.knots.spec import KnotName, KnotSpec, Role

if TYPE_CHECKING:
    from cordwright.knots.atlas import Atlas


@dataclass(frozen=True, slots=True)
class Slack:
    """How a tight knot is opened for its steps.

    Args:
        by: how many times larger its curves are drawn, with cord of the same thickness: what
            tightening cord so many times thicker would give.
        across: by how much they are drawn apart sideways beyond that; it moves no cord through
            another.
    """

    by: float = 1.8
    across: float = 1.0


SLACK = {
    KnotName.DOUBLE_HALF_HITCH: Slack(2.0, 1.7),
    KnotName.OVERHAND: Slack(2.4, 1.7),
}
"""Knots that need more room than others before their ways can be told apart."""

CELLS = {KnotName.BRAID: 2}
"""Cells that are tied in the steps, where it is not one."""


@dataclass(frozen=True, slots=True)
class Pose:
    """A knot ready for the pictures of its tying.

    Args:
        cords: as they run while it is tied, in the measures of the tight knot.
        tight: as they run when it is drawn up.
        view: from where it is seen.
        slack: how it is opened.
    """

    cords: tuple[Cord, ...]
    tight: tuple[Cord, ...]
    view: View
    slack: Slack

    def slackened(self, cord: Cord) -> Tube:
        """A cord of the opened knot as it is seen; rings and rods grow with the knot."""
        k = self.slack.by
        seen = self.view.seen(cord.points) * [k * self.slack.across, k, k]
        return Tube(seen, cord.diameter * (k if cord.fixed else 1.0))


def tight_pose(
    atlas: Atlas, spec: KnotSpec, cells: int | None = None
) -> tuple[tuple[Cord, ...], View]:
    """The cords of a tight knot, and from where to look at them."""
    cords = cords_of(atlas, spec, cells)
    if spec.name is not KnotName.GATHERING:
        return cords, FRONT
    view = facing_legs(cords)
    return drawn_up(cords, *_turns(cords)), view


def tying_pose(atlas: Atlas, spec: KnotSpec) -> Pose:
    """A knot for the steps of its tying."""
    slack = SLACK.get(spec.name, Slack())
    if spec.name is KnotName.GATHERING:
        cords = cords_of(atlas, spec)
        whole, stages = winding(atlas, spec)
        wound = tuple(replace(c, points=p) for c, p in zip(whole, stages[0], strict=True))
        return Pose(wound, drawn_up(cords, *_turns(cords)), facing_legs(cords), slack)
    cords = cords_of(atlas, spec, CELLS.get(spec.name, 1))
    shorter = tuple(_shortened(c) if c.role is Role.HOLDING and not c.fixed else c for c in cords)
    return Pose(shorter, cords, FRONT, slack)


def _shortened(cord: Cord) -> Cord:
    """A holding cord without most of what stands out of its row: opened, it is long enough."""
    end = float(lengths(cord.points)[-1])
    return replace(cord, points=part(cord.points, 0.65 * HOLDS, end - 0.65 * HOLDS))


def _turns(cords: tuple[Cord, ...]) -> tuple[float, float]:
    """Heights at which the turns of a gathering knot begin and end."""
    coil = max((c for c in cords if c.place == 0), key=lambda c: len(c.points))
    return float(coil.points[0, 2]), float(coil.points[-1, 2])
