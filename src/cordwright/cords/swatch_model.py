"""What swatches teach: a normal model of log factors with every formula written out.

A factor is what was measured over what the ideal tight knot has. The log of the factor of one
swatch, or of all cord of one kind in one finished piece, is taken as

    y = middle + maker + cord + kinds + session,

where `middle` is known, and the others are normal with mean 0 and independent: `maker` is shared
by all that one maker ties, `cord` by all that is tied in one cord, a kind of knot in one cord by
all knots of that kind in it (several kinds count by their shares of the cord), and `session` is
new every time. All their variances are known multiples of one unknown variance s2, that of a
session; s2 has a scaled inverse chi-square distribution. So prior and posterior are
normal-inverse-gamma, and what is predicted is a Student t; nothing is approximated:

    P = D^-1 + Z' V^-1 Z,  m = P^-1 Z' V^-1 (y - middle),  nu' = nu + N,
    nu' s' = nu s + (y - middle)' V^-1 (y - middle) - m' P m,
    y* ~ t with nu' degrees of freedom about middle + x' m, scale^2 = s' (x' P^-1 x + v*).

Source: K. P. Murphy, Conjugate Bayesian analysis of the Gaussian distribution (2007), for the
scalar case; with several effects it is the regression with a conjugate prior of Gelman et al.,
Bayesian Data Analysis (from memory, unchecked). The tests hold it to the scalar formulas and to
the joint distribution of all that is measured, worked out without any of the formulas above.

Where it holds: factors between about 0.5 and 2, for which logs are near normal. The error of
measuring does not grow with s2 in truth; it is entered with the prior guess of s2.
"""

from __future__ import annotations

import math
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

import numpy as np

from cordwright.errors import CordwrightError

if TYPE_CHECKING:
    from numpy.typing import NDArray

    from cordwright.cords.swatch_prior import Prior

    Floats = NDArray[np.float64]

Effect = tuple[Hashable, ...]


@dataclass(frozen=True, slots=True)
class Work:
    """What a factor belongs to.

    Args:
        maker: whose hands.
        cord: which cord.
        mix: share of each kind of knot in the knotted cord, by name; they sum to 1.
        knots: how many knots, which even each other out; above 0.
    """

    maker: str
    cord: str
    mix: Mapping[str, float]
    knots: float

    def __post_init__(self) -> None:
        if not self.knots > 0.0:
            raise CordwrightError(
                f"{self.knots:g} knots show nothing.", remedy="tie one knot or more"
            )


@dataclass(frozen=True, slots=True)
class Trial:
    """One factor as measured.

    Args:
        of: what it belongs to.
        log_factor: natural logarithm of measured over ideal.
        error: standard deviation of that from measuring, as a part of 1; 0 or more.
    """

    of: Work
    log_factor: float
    error: float = 0.0

    def __post_init__(self) -> None:
        if not (math.isfinite(self.log_factor) and 0.0 <= self.error < math.inf):
            raise CordwrightError("A swatch is not measured.", remedy="measure it again")


@dataclass(frozen=True, slots=True)
class Student:
    """A Student t distribution of a log factor: its middle, scale and degrees of freedom."""

    location: float
    scale: float
    dof: float

    def quantile(self, chance: float) -> float:
        """The log factor that is not exceeded with the given chance, 0 to 1."""
        from scipy.special import stdtrit

        return self.location + self.scale * float(stdtrit(self.dof, chance))

    def chance(self, log_factor: float) -> float:
        """The chance that a log factor is not exceeded, 0 to 1."""
        from scipy.special import stdtr

        return float(stdtr(self.dof, (log_factor - self.location) / self.scale))


@dataclass(frozen=True, slots=True)
class Knowledge:
    """What is known after some trials: the posterior.

    Args:
        prior: what was known before.
        effects: makers, cords and kinds of knot that the trials had, in the arrays' order.
        mean: (p,) float, their means.
        cover: (p, p) float, their covariance over the variance of a session.
        dof: degrees of freedom of that variance.
        session: best guess of that variance.
        trials: how many there were.
    """

    prior: Prior
    effects: Mapping[Effect, int] = field(default_factory=dict)
    mean: Floats = field(default_factory=lambda: np.zeros(0))
    cover: Floats = field(default_factory=lambda: np.zeros((0, 0)))
    dof: float = 0.0
    session: float = 0.0
    trials: int = 0

    def knows(self, maker: str, cord: str) -> bool:
        """Whether any trial had this maker or this cord."""
        return ("maker", maker) in self.effects or ("cord", cord) in self.effects


def learn(prior: Prior, trials: Sequence[Trial]) -> Knowledge:
    """What the trials teach.

    Args:
        prior: what is known without them.
        trials: in any order; none leaves the prior.
    """
    effects: dict[Effect, int] = {}
    for trial in trials:
        for effect in _parts(trial.of):
            effects.setdefault(effect, len(effects))
    z = np.zeros((len(trials), len(effects)))
    for row, trial in enumerate(trials):
        for effect, share in _parts(trial.of).items():
            z[row, effects[effect]] += share
    y = np.array([t.log_factor - prior.middle for t in trials])
    v = np.array([_session(prior, t.of.knots) + (t.error / prior.repeat) ** 2 for t in trials])
    wide = np.array([_variance(prior, effect) for effect in effects])
    precision = np.diag(1.0 / wide) + (z.T / v) @ z
    cover = np.linalg.inv(precision)
    mean = cover @ (z.T @ (y / v))
    dof = prior.dof + len(trials)
    left = float(y @ (y / v) - mean @ precision @ mean)
    session = (prior.dof * prior.repeat**2 + max(0.0, left)) / dof
    return Knowledge(prior, effects, mean, cover, dof, session, len(trials))


def predict(knowledge: Knowledge, of: Work, *, new: bool = True) -> Student:
    """What is to be expected of a factor.

    Args:
        knowledge: what was learnt.
        of: what is to be tied.
        new: count what the next piece itself adds; else the factor of maker and cord alone.
    """
    prior = knowledge.prior
    x = np.zeros(len(knowledge.effects))
    variance = _session(prior, of.knots) if new else 0.0
    for effect, share in _parts(of).items():
        if effect in knowledge.effects:
            x[knowledge.effects[effect]] += share
        else:
            variance += share**2 * _variance(prior, effect)
    variance += float(x @ knowledge.cover @ x)
    location = prior.middle + float(x @ knowledge.mean)
    return Student(location, math.sqrt(knowledge.session * variance), knowledge.dof)


def _parts(of: Work) -> dict[Effect, float]:
    """The effects in a factor and how much of each: the row of the design matrix."""
    kinds: dict[Effect, float] = {("kind", of.cord, k): share for k, share in of.mix.items()}
    return {("maker", of.maker): 1.0, ("cord", of.cord): 1.0, **kinds}


def _variance(prior: Prior, effect: Effect) -> float:
    """Prior variance of an effect over that of a session."""
    spread = {"maker": prior.maker, "cord": prior.cord, "kind": prior.kind}[str(effect[0])]
    return (spread / prior.repeat) ** 2


def _session(prior: Prior, knots: float) -> float:
    """Variance of a session over that of one with very many knots."""
    return 1.0 + (prior.knot / prior.repeat) ** 2 / knots
