from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from cordwright.cords.swatch_model import Knowledge, Trial, Work, learn, predict
from cordwright.cords.swatch_prior import Prior, published_prior
from cordwright.errors import CordwrightError

PRIOR = Prior(0.02, maker=0.13, cord=0.12, kind=0.05, repeat=0.04, knot=0.08, dof=8.0)
MANY = 1e12

works = st.builds(
    lambda maker, cord, a, b, share, knots: Work(
        maker, cord, {a: share, b: 1.0 - share} if a != b else {a: 1.0}, knots
    ),
    st.sampled_from(["Ada", "Bo"]),
    st.sampled_from(["sand", "rust"]),
    st.sampled_from(["square", "half"]),
    st.sampled_from(["square", "hitch"]),
    st.floats(0.1, 0.9),
    st.integers(1, 60),
)
trials = st.lists(
    st.builds(Trial, works, st.floats(-0.5, 0.5), st.sampled_from([0.0, 0.01, 0.05])), max_size=7
)


def _joint(prior: Prior, of: list[tuple[Work, float]]) -> np.ndarray:
    """Covariance of factors, over that of a session, from what any two of them share."""
    n = len(of)
    cover = np.zeros((n, n))
    for i, (a, error) in enumerate(of):
        for j, (b, _) in enumerate(of):
            shared = prior.maker**2 * (a.maker == b.maker)
            if a.cord == b.cord:
                both = a.mix.keys() & b.mix.keys()
                shared += prior.cord**2
                shared += prior.kind**2 * sum(a.mix[k] * b.mix[k] for k in both)
            if i == j:
                shared += prior.repeat**2 + prior.knot**2 / a.knots + error**2
            cover[i, j] = shared / prior.repeat**2
    return cover


@given(trials, works)
@settings(deadline=None)
def test_it_is_the_conditional_of_the_joint_distribution(seen: list[Trial], new: Work) -> None:
    # All factors together are multivariate Student t; the conditional of one of them, given the
    # others, is known (P. Ding, On the conditional distribution of the multivariate t distribution,
    # The American Statistician 2016; from memory, unchecked). No effect and no posterior is worked
    # out on this way.
    cover = _joint(PRIOR, [*((t.of, t.error) for t in seen), (new, 0.0)])
    n = len(seen)
    y = np.array([t.log_factor - PRIOR.middle for t in seen])
    weights = np.linalg.solve(cover[:n, :n], cover[:n, n]) if n else np.zeros(0)
    left = cover[n, n] - float(weights @ cover[:n, n])
    far = float(y @ np.linalg.solve(cover[:n, :n], y)) if n else 0.0
    s2 = (PRIOR.dof * PRIOR.repeat**2 + far) / (PRIOR.dof + n)
    found = predict(learn(PRIOR, seen), new)
    assert found.location == pytest.approx(PRIOR.middle + float(weights @ y), abs=1e-9)
    assert found.scale == pytest.approx(math.sqrt(s2 * left), rel=1e-8)
    assert found.dof == PRIOR.dof + n


def test_one_cord_in_one_hand_follows_the_scalar_formulas() -> None:
    # Murphy (2007), normal-inverse-chi-squared: kappa counts prior trials, nu its degrees of
    # freedom. With one effect of variance s2 / kappa nothing else is left of the model.
    y = [0.11, 0.05, 0.16, 0.09]
    tiny = 1e-9
    prior = Prior(0.02, maker=0.1, cord=tiny, kind=tiny, repeat=0.04, knot=tiny, dof=6.0)
    kappa, nu, n = (0.04 / 0.1) ** 2, 6.0, len(y)
    mean = sum(y) / n
    kappa_n, nu_n = kappa + n, nu + n
    mu_n = (kappa * 0.02 + n * mean) / kappa_n
    squares = sum((v - mean) ** 2 for v in y)
    s2 = (nu * 0.04**2 + squares + n * kappa / kappa_n * (0.02 - mean) ** 2) / nu_n
    of = Work("Ada", "sand", {"square": 1.0}, MANY)
    found = predict(learn(prior, [Trial(of, v) for v in y]), of)
    assert found.location == pytest.approx(mu_n, abs=1e-9)
    assert found.scale == pytest.approx(math.sqrt(s2 * (1.0 + 1.0 / kappa_n)), rel=1e-6)
    assert found.dof == nu_n


def test_without_trials_the_published_spread_counts() -> None:
    prior = published_prior()
    new = predict(Knowledge(prior, dof=prior.dof, session=prior.repeat**2), _work("Ada", "sand"))
    assert new == predict(learn(prior, []), _work("Ada", "sand"))
    logs = np.log(np.array([3.3, 4.0, 34.0 / 7.0, 5.0]) / (16.7 / 4.0))
    assert new.location == pytest.approx(logs.mean())
    # One knot's own scatter comes on top of the published spread, which is that of long sinnets.
    assert new.scale == pytest.approx(logs.std(ddof=1), rel=1e-3)


def _work(maker: str, cord: str, kind: str = "square", knots: float = MANY) -> Work:
    return Work(maker, cord, {kind: 1.0}, knots)


def test_what_is_shared_is_learnt_and_what_is_not_stays_open() -> None:
    known = learn(PRIOR, [Trial(_work("Ada", "sand"), 0.3) for _ in range(3)])
    same = predict(known, _work("Ada", "sand"))
    kind = predict(known, _work("Ada", "sand", "half"))
    cord = predict(known, _work("Ada", "rust"))
    maker = predict(known, _work("Bo", "sand"))
    nobody = predict(known, _work("Bo", "rust"))
    assert same.scale < kind.scale < cord.scale < nobody.scale
    assert same.scale < maker.scale < nobody.scale
    assert same.location > kind.location > cord.location > nobody.location == PRIOR.middle
    assert known.knows("Ada", "rust")
    assert known.knows("Bo", "sand")
    assert not known.knows("Bo", "rust")


@given(st.integers(1, 40))
def test_more_knots_even_out(knots: int) -> None:
    known = learn(PRIOR, [])
    few, more = (predict(known, _work("Ada", "sand", knots=k)) for k in (knots, knots + 1))
    assert few.scale > more.scale


def test_a_badly_measured_swatch_counts_for_less() -> None:
    of = _work("Ada", "sand", knots=20)
    well, badly = (predict(learn(PRIOR, [Trial(of, 0.3, e)]), of) for e in (0.0, 0.1))
    assert PRIOR.middle < badly.location < well.location < 0.3
    assert badly.scale != well.scale


def test_the_order_of_trials_does_not_matter() -> None:
    seen = [Trial(_work("Ada", c, k, n), 0.1 * i) for i, (c, k, n) in enumerate(
        [("sand", "square", 5), ("rust", "half", 9), ("sand", "half", 30)])]  # fmt: skip
    new = _work("Ada", "sand", "half", 12)
    one, other = predict(learn(PRIOR, seen), new), predict(learn(PRIOR, seen[::-1]), new)
    assert one.location == pytest.approx(other.location)
    assert one.scale == pytest.approx(other.scale)


def test_quantile_and_chance_are_those_of_student() -> None:
    found = predict(learn(PRIOR, []), _work("Ada", "sand"))
    t = stats.t(found.dof, found.location, found.scale)
    assert found.quantile(0.95) == pytest.approx(t.ppf(0.95))
    assert found.chance(0.2) == pytest.approx(t.cdf(0.2))


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_impossible_priors_are_refused(bad: float) -> None:
    with pytest.raises(CordwrightError):
        replace(PRIOR, maker=bad)


def test_impossible_trials_are_refused() -> None:
    with pytest.raises(CordwrightError, match="0 knots"):
        _work("Ada", "sand", knots=0)
    with pytest.raises(CordwrightError):
        Trial(_work("Ada", "sand"), math.nan)
    with pytest.raises(CordwrightError):
        Trial(_work("Ada", "sand"), 0.0, -0.1)
