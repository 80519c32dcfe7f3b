"""What kind of knot or link closed polylines are, told by two libraries that know nothing of cord.

topoly works from the coordinates alone and names kinds by their HOMFLY-PT polynomial. Spherogram
works from the crossings (``tests.topology.diagram``): Seifert matrix, knot Floer homology, prime
summands.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any

import numpy as np
import numpy.typing as npt
import spherogram

from tests.topology.diagram import Curve, Diagram, diagram


@dataclass(frozen=True, slots=True)
class Kind:
    """Invariants of one prime knot, or of one link that is no sum.

    Args:
        components: closed curves in it.
        crossings: crossings of the simplified diagram; an upper bound, not the least number.
        signature: of V + Vᵀ, V Spherogram's Seifert matrix: 2 for the right-handed trefoil (many
            authors have the opposite sign).
        alexander: coefficients of det(V - t Vᵀ), lowest power first, without zeros at the ends,
            the first one positive.
        genus: Seifert genus, from knot Floer homology; None for links.
        fibred: whether the complement is fibred; None for links.
        rank: total rank of knot Floer homology; None for links.
        tau: the concordance invariant of knot Floer homology, 1 for the right-handed trefoil; None
            for links.
    """

    components: int
    crossings: int
    signature: int
    alexander: tuple[int, ...]
    genus: int | None = None
    fibred: bool | None = None
    rank: int | None = None
    tau: int | None = None

    @property
    def determinant(self) -> int:
        """Absolute value of the Alexander polynomial at -1."""
        return abs(sum(self.alexander[::2]) - sum(self.alexander[1::2]))

    @property
    def name(self) -> str:
        """Its name, if knot Floer homology proves it, else an empty string.

        Knot Floer homology detects genus (so genus 0 is the unknot) and fibredness, and rank 3 is
        a trefoil alone: Baldwin & Vela-Vick, 'A note on the knot Floer homology of fibered knots'
        (arXiv 1801.06563), with the sources it names; tau tells the hand. The only other fibred
        knot of genus 1 is the figure-eight (Ghiggini, 'Knot Floer homology detects genus-one
        fibred knots', 2008; that it says so is from memory, unchecked).
        """
        if self.genus == 0:
            return "unknot"
        if self.rank == 3:
            return "right trefoil" if self.tau == 1 else "left trefoil"
        if self.genus == 1 and self.fibred:
            return "figure-eight"
        return ""


UNKNOT = Kind(1, 0, 0, (1,), genus=0, fibred=True, rank=1, tau=0)


def kind_by_topoly(curves: list[Curve]) -> str:
    """topoly's name, from the coordinates: ``0_1``, ``+3_1``, ``-3_1#+3_1``, ``L2a1`` ...

    The sign is topoly's mark of the hand; the names of mirror images differ in it. Summands are
    joined by ``#`` and those joined by ``|`` cannot be told apart.
    """
    import topoly  # a second to import
    from topoly.params import Closure

    chains = [np.asarray(c, dtype=float).tolist() for c in curves]
    chain = chains[0] if len(chains) == 1 else chains
    return str(
        topoly.homfly(
            chain,
            closure=Closure.CLOSED,
            chiral=True,
            max_cross=60,
            hide_trivial=False,
            run_parallel=False,
            cuda=False,
        )
    )


def summands(curves: list[Curve]) -> tuple[Kind, ...]:
    """The kinds whose connected sum the curves are, found by Spherogram; unknots are left out.

    Spherogram takes a simplified diagram apart wherever a circle meets it in two points. Each part
    is a summand; that a part cannot be taken apart further proves nothing by itself, but parts
    that ``Kind.name`` can name are prime.
    """
    link = _simplified(curves)
    if link is None:
        return ()
    parts = [part for part in link.deconnect_sum() if len(part.crossings) > 0]
    kinds = [_kind(part) for part in parts]
    return tuple(sorted((k for k in kinds if k.genus != 0), key=lambda k: (k.name, k.signature)))


def whole(curves: list[Curve]) -> Kind:
    """Invariants of the curves as one knot or link, whether it is a sum or not."""
    link = _simplified(curves)
    return UNKNOT if link is None else _kind(link)


def spherogram_link(view: Diagram) -> Any:
    """The diagram as Spherogram holds it, every curve in its own direction."""
    link = spherogram.Link([list(crossing) for crossing in view.pd], build=False)
    # A curve with two arcs could run either way round by its PD code: say which.
    starts, seen = [], set()
    for n, crossing in enumerate(view.crossings):
        out = {crossing.under[0]: 2, crossing.over[0]: 1 if crossing.sign > 0 else 3}
        for curve, strand in out.items():
            if curve not in seen:
                seen.add(curve)
                starts.append((link.crossings[n], strand))
    link._build(start_orientations=starts, component_starts=None)
    if [c.sign for c in link.crossings] != [c.sign for c in view.crossings]:
        raise ValueError("Spherogram runs through the curves in another direction")
    return link


def signature(seifert: npt.NDArray[np.float64]) -> int:
    """Positive less negative eigenvalues of V + Vᵀ; V has shape (2 genus, 2 genus)."""
    if not seifert.size:
        return 0
    values = np.linalg.eigvalsh(seifert + seifert.T)
    # Whole-number matrices of this size: what is not zero is far from it.
    return int(np.count_nonzero(values > 1e-6)) - int(np.count_nonzero(values < -1e-6))


def alexander(seifert: npt.NDArray[np.float64]) -> tuple[int, ...]:
    """Coefficients of det(V - t Vᵀ), by interpolation at roots of unity; V is square."""
    n = len(seifert) + 1
    points = np.exp(-2j * np.pi * np.arange(n) / n)
    values = np.array([np.linalg.det(seifert - t * seifert.T) for t in points])
    coefficients = np.rint(np.fft.ifft(values).real).astype(int)
    nonzero = np.nonzero(coefficients)[0]
    if not nonzero.size:
        return (0,)
    kept = coefficients[nonzero[0] : nonzero[-1] + 1]
    return tuple(int(c) for c in kept * np.sign(kept[0]))


def signs_mirrored(name: str) -> str:
    """A name of topoly's with every hand turned round."""
    return re.sub(r"[+-](?=\d)", lambda m: "-" if m[0] == "+" else "+", name)


def mirrored(curves: list[Curve]) -> list[Curve]:
    """The curves as seen in a mirror."""
    return [c * np.array([1.0, 1.0, -1.0]) for c in curves]


def _simplified(curves: list[Curve]) -> Any:
    """Spherogram's link with few crossings, or None if no crossing of a single curve is left."""
    view = diagram(curves)
    link = spherogram_link(view)
    link.simplify("global")
    crossing = len(link.link_components) if link.crossings else 0
    if crossing == len(curves):
        return link
    if len(curves) == 1:
        return None
    raise ValueError("some of the curves come apart from the others; hand them in by themselves")


def _kind(link: Any) -> Kind:
    seifert = np.array(link.seifert_matrix(), dtype=float)
    seifert = seifert.reshape(len(seifert), -1)
    components = len(link.link_components)
    floer = link.knot_floer_homology() if components == 1 else {}
    return Kind(
        components=components,
        crossings=len(link.crossings),
        signature=signature(seifert),
        alexander=alexander(seifert) if seifert.size else (1,),
        genus=floer.get("seifert_genus"),
        fibred=floer.get("fibered"),
        rank=floer.get("total_rank"),
        tau=floer.get("tau"),
    )
