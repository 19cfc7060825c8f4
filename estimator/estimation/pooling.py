"""What records of several visits tell about a figure of the book, each believed as far as it goes.

A record is the logarithm of what was really taken over what the book foresees, so that twice and
half as much weigh alike. The model is hierarchical and normal with Student's t for what strays:

    record = centre + group + visit + rest
    centre ~ N(0, prior.centre²)   group ~ N(0, prior.group²)
    visit ~ t(0, between)          rest ~ t(0, within)

The centre is the firm's own factor on the book, shrunk toward 0, the book itself; a group (a room
use) is shrunk toward the centre, the more the fewer its records (partial pooling [1]_). How far
groups, visits and records differ is learned with them, beginning at the prior's as if it were worth
a few of them. With 4 degrees of freedom a record or a visit far from the rest counts for little.
The posterior is found by mean-field variational Bayes [2]_: a t is a normal with a precision drawn
from a gamma distribution, and every factor is then conjugate. Without tails and with known scales
it is the conjugate normal posterior, exactly.

References
----------
.. [1] Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), chapters 5 and 17 (from memory).
.. [2] Tipping & Lawrence, Variational inference for Student-t models, Neurocomputing 69 (2005),
   123-141 (from memory).
"""

from collections.abc import Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

TAILS = 4.0
"""Degrees of freedom of what strays."""

NORMAL_P90 = 1.2816
"""Standard deviations from the median of a normal to its P90."""

AS_NORMAL = 1.5332 / NORMAL_P90
"""The normal standard deviation whose P10 and P90 are those of t with 4 degrees and scale 1."""

_WORTH = 5.0
"""As many records or visits are the prior's scales worth."""

_MOST_ROUNDS = 500

Reals = NDArray[np.float64]
Places = NDArray[np.intp]


@frozen(kw_only=True)
class Prior:
    """Standard deviations of logarithms before anything was recorded.

    Parameters
    ----------
    centre
        Of the firm from the book.
    group
        Of a group from the firm.
    between, within
        Scales of what strays from visit to visit, and from record to record of one.
    """

    centre: float
    group: float
    between: float
    within: float


@frozen(kw_only=True, eq=False)
class Pooled:
    """What the records tell: means with their standard deviations, as logarithms.

    Parameters
    ----------
    groups, group_deviations
        Of the centre with each group.
    between, within
        Scales of what strays from visit to visit, and from record to record.
    weights
        How much each record counts, about 1 for those that agree with the rest.
    visit_weights
        The same of each visit.
    """

    centre: float
    deviation: float
    groups: tuple[float, ...]
    group_deviations: tuple[float, ...]
    between: float
    within: float
    weights: tuple[float, ...]
    visit_weights: tuple[float, ...]

    @property
    def next_visit(self) -> float:
        """Standard deviation of what the next visit strays by from the centre, to P10 and P90."""
        return float(np.hypot(AS_NORMAL * self.between, self.deviation))


def pooled(
    values: Sequence[float],
    visits: Sequence[int],
    groups: Sequence[int | None],
    prior: Prior,
    *,
    tails: float = TAILS,
    worth: float = _WORTH,
) -> Pooled:
    """Return what records tell, each of a visit and of a group or of none.

    Parameters
    ----------
    visits, groups
        Numbers from 0 on, of the visit and the group of each record.
    tails
        Degrees of freedom; infinite for none.
    worth
        As many records are the prior's scales worth; infinite for known ones.
    """
    records = _Records(values, visits, groups)
    between, within, apart = prior.between**2, prior.within**2, prior.group**2
    weights, visit_weights = np.ones(records.count), np.ones(records.visits)
    posterior = records.posterior(prior.centre, apart, weights / within, visit_weights / between)
    for _ in range(_MOST_ROUNDS):
        before = posterior.mean
        weights = _weights(posterior.squares / within, tails)
        visit_weights = _weights(posterior.visit_squares / between, tails)
        within = _scale(prior.within**2, weights * posterior.squares, worth)
        between = _scale(prior.between**2, visit_weights * posterior.visit_squares, worth)
        apart = _scale(prior.group**2, posterior.group_squares, worth)
        posterior = records.posterior(
            prior.centre, apart, weights / within, visit_weights / between
        )
        if np.allclose(posterior.mean, before, rtol=0, atol=1e-9):
            break
    together = np.eye(len(posterior.mean))
    together[:, 0] = 1.0
    deviations = np.sqrt(_variances(together, posterior.covariance))
    return Pooled(
        centre=float(posterior.mean[0]),
        deviation=float(deviations[0]),
        groups=tuple((posterior.mean[0] + posterior.mean[1:]).tolist()),
        group_deviations=tuple(deviations[1:].tolist()),
        between=float(np.sqrt(between)),
        within=float(np.sqrt(within)),
        weights=tuple(weights.tolist()),
        visit_weights=tuple(visit_weights.tolist()),
    )


@frozen(kw_only=True, eq=False)
class _Posterior:
    """Centre and groups, and the expected squares of what strays from them."""

    mean: Reals
    covariance: Reals
    squares: Reals
    visit_squares: Reals

    @property
    def group_squares(self) -> Reals:
        """Expected squares of what groups differ by from the centre."""
        squares: Reals = self.mean[1:] ** 2 + np.diag(self.covariance)[1:]
        return squares


class _Records:
    """Records with the centre and the groups that each takes part in."""

    def __init__(
        self, values: Sequence[float], visits: Sequence[int], groups: Sequence[int | None]
    ) -> None:
        self.values: Reals = np.asarray(values, dtype=float)
        self.visit: Places = np.asarray(visits, dtype=np.intp)
        self.count = len(self.values)
        self.visits = int(self.visit.max(initial=-1)) + 1
        width = 1 + max((1 + group for group in groups if group is not None), default=0)
        self.design: Reals = np.zeros((self.count, width))
        self.design[:, 0] = 1.0
        for row, group in enumerate(groups):
            if group is not None:
                self.design[row, 1 + group] = 1.0

    def posterior(
        self, centre: float, apart: float, precision: Reals, visit_precision: Reals
    ) -> _Posterior:
        """Return the normal posterior under given scales, the visits taken out first."""
        design, width = self.design, self.design.shape[1]
        weighted = design * precision[:, None]
        diagonal = visit_precision + np.bincount(self.visit, precision, self.visits)
        across = np.zeros((self.visits, width))
        np.add.at(across, self.visit, weighted)
        own = np.bincount(self.visit, precision * self.values, self.visits)
        scaled = across / diagonal[:, None]
        known = np.diag([centre**-2, *[1 / apart] * (width - 1)])
        known += design.T @ weighted - across.T @ scaled
        covariance = np.linalg.inv(known).astype(np.float64)
        mean = covariance @ (weighted.T @ self.values - scaled.T @ own)
        visit = own / diagonal - scaled @ mean
        visit_variance = 1 / diagonal + _variances(scaled, covariance)
        left = design - scaled[self.visit]
        variance = 1 / diagonal[self.visit] + _variances(left, covariance)
        rest = self.values - design @ mean - visit[self.visit]
        return _Posterior(
            mean=mean,
            covariance=covariance,
            squares=rest**2 + variance,
            visit_squares=visit**2 + visit_variance,
        )


def _variances(rows: Reals, covariance: Reals) -> Reals:
    """Return the variance of each row of weights."""
    variances: Reals = ((rows @ covariance) * rows).sum(axis=1)
    return variances


def _weights(squares: Reals, tails: float) -> Reals:
    """Return the expected precision of each given its square in units of the scale."""
    return np.ones_like(squares) if np.isinf(tails) else (tails + 1) / (tails + squares)


def _scale(prior: float, squares: Reals, worth: float) -> float:
    """Return a variance: the prior's, and the mean square, by what each is worth."""
    if np.isinf(worth):
        return prior
    return float((worth * prior + squares.sum()) / (worth + len(squares)))
