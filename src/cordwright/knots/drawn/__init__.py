"""The knots themselves, each drawn once as a tangle.

Every module draws one family with its working cord's diameter as 1. Left-hand versions are
drawn; right-hand ones are their mirror images.
"""

from __future__ import annotations

from cordwright.errors import KnotError
from cordwright.knots.drawn import braids, bundles, hitches, mounts, sinnets
from cordwright.knots.spec import KnotName, KnotSpec
from cordwright.knots.tangle import Tangle, mirrored


def draw(spec: KnotSpec) -> Tangle:
    """The tangle of a knot, before tightening.

    Raises:
        KnotError: the parameters do not make a knot.
    """
    tangle = _left(spec)
    return mirrored(tangle) if spec.hand == "right" else tangle


def _left(spec: KnotSpec) -> Tangle:
    match spec.name:
        case KnotName.SQUARE_KNOT:
            return sinnets.square_knot(spec.fillers, spec.filler_d)
        case KnotName.HALF_KNOT:
            return sinnets.half_knot(spec.fillers, spec.filler_d)
        case KnotName.HALF_HITCH:
            return sinnets.half_hitch(spec.fillers, spec.filler_d)
        case KnotName.DOUBLE_HALF_HITCH:
            return hitches.double_half_hitch(spec.slant_deg, spec.filler_d)
        case KnotName.LARKS_HEAD:
            return mounts.larks_head(spec.over, spec.over_d, spec.face)
        case KnotName.OVERHAND:
            return bundles.overhand(spec.strands)
        case KnotName.GATHERING:
            return bundles.gathering_turn(spec.fillers, spec.filler_d)
        case KnotName.BRAID:
            return braids.braid(spec.strands)
    raise KnotError(f"there is no drawing of the knot {spec.name}")
