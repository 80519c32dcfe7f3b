"""Which knots the atlas comes with: those that plans ask for most."""

from __future__ import annotations

from itertools import product

from cordwright.knots.spec import KnotName, KnotSpec

SHIPPED: tuple[KnotSpec, ...] = (
    *(KnotSpec(KnotName.SQUARE_KNOT, 2 + f) for f in range(1, 9)),
    *(KnotSpec(KnotName.HALF_KNOT, 2 + f) for f in range(1, 9)),
    *(KnotSpec(KnotName.HALF_HITCH, 1 + f) for f in range(1, 7)),
    *(KnotSpec(KnotName.SQUARE_KNOT, 4, filler_d=f) for f in (0.5, 1.5, 2.0)),
    *(KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, slant_deg=s) for s in (0.0, 15.0, 30.0, 45.0, 60.0)),
    *(KnotSpec(KnotName.DOUBLE_HALF_HITCH, 2, filler_d=f) for f in (0.5, 1.5, 2.0)),
    *(
        KnotSpec(KnotName.LARKS_HEAD, 2, over="ring", over_d=d)
        for d in (1.0, 1.25, 1.5, 2.0, 2.5, 3.0)
    ),
    *(
        KnotSpec(KnotName.LARKS_HEAD, 2, over="rod", over_d=d)
        for d in (1.0, 2.0, 3.0, 4.0, 5.0, 6.0)
    ),
    *(KnotSpec(KnotName.OVERHAND, n) for n in range(1, 7)),
    *(
        KnotSpec(KnotName.GATHERING, 1 + m, turns=t)
        for m, t in product((4, 8, 12, 16, 24), (4, 6, 8))
    ),
    KnotSpec(KnotName.BRAID, 3),
    KnotSpec(KnotName.BRAID, 4),
)
