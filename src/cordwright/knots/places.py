"""Which strand does what in a knot, and where it comes out."""

from __future__ import annotations

from cordwright.knots.spec import KnotName, KnotSpec, Role


def roles(spec: KnotSpec) -> tuple[Role, ...]:
    """Role of every place, left to right where the strands come in."""
    filler, working = Role.FILLER, Role.WORKING
    match spec.name:
        case KnotName.SQUARE_KNOT | KnotName.HALF_KNOT:
            return (working, *[filler] * spec.fillers, working)
        case KnotName.HALF_HITCH:
            order = (working, *[filler] * spec.fillers)
            return order if spec.hand == "left" else order[::-1]
        case KnotName.GATHERING:
            return (working, *[filler] * spec.fillers)
        case KnotName.DOUBLE_HALF_HITCH:
            return (Role.HOLDING, working)
        case _:
            return (working,) * spec.strands


def exit_order(spec: KnotSpec) -> tuple[int, ...]:
    """Place at the bottom of the strand that comes in at each place."""
    order = list(range(spec.strands))
    if spec.name is KnotName.HALF_KNOT:
        order[0], order[-1] = order[-1], order[0]
    elif spec.name is KnotName.DOUBLE_HALF_HITCH:
        order = [1, 0]
    return tuple(order)
