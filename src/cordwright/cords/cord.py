"""One kind of cord, as bought."""

from __future__ import annotations

import math
from dataclasses import dataclass

from cordwright.cords import fibres
from cordwright.errors import CordwrightError


@dataclass(frozen=True, slots=True)
class Cord:
    """One kind of cord.

    Args:
        fibre: what it is made of, in the maker's words; weights are known for ``fibres.FIBRES``.
        diameter_mm: diameter in mm, unsqueezed, 0.1 to 100.
        build: how it is made; weights are known for ``fibres.BUILDS``. Empty if not known.
        colour: in any words.
        weighed_g_per_m: mass in g of a metre, if it was weighed; it overrules the estimate.
        price_per_m: price of a metre in the maker's own currency, if known.

    Raises:
        CordwrightError: a diameter, mass or price that no cord has.
    """

    fibre: str
    diameter_mm: float
    build: str = ""
    colour: str = ""
    weighed_g_per_m: float | None = None
    price_per_m: float | None = None

    def __post_init__(self) -> None:
        if not 0.1 <= self.diameter_mm <= 100.0:
            raise CordwrightError(
                f"A cord of {self.diameter_mm:.4g} mm cannot be planned; 0.1 mm to 100 mm can.",
                remedy="check the unit",
            )
        for value, what in ((self.weighed_g_per_m, "weight"), (self.price_per_m, "price")):
            if value is not None and not (math.isfinite(value) and value >= 0.0):
                raise CordwrightError(
                    f"A {what} of {value} per metre is not possible.", remedy="give 0 or more"
                )


def mass_per_metre(cord: Cord) -> fibres.Figure | None:
    """Mass in g of a metre of cord with its range and source; ``None`` if the fibre is not known.

    A build that is not known widens the range instead.
    """
    weighed = cord.weighed_g_per_m
    if weighed is not None:
        return fibres.Figure(weighed, weighed, weighed, "weighed by the maker")
    known = fibres.FIBRES.get(cord.fibre.strip().lower())
    if known is None:
        return None
    made = fibres.BUILDS.get(cord.build.strip().lower(), fibres.ANY_BUILD)
    return fibres.mass_g_per_m(known, made, cord.diameter_mm)
