"""Whether the range held: how often a visit came to a price between its P10 and P90.

The share that fell between is given with Wilson's interval [1]_. Only where that interval leaves
out the promised 80 % is the range corrected, by how far prices strayed from their medians, in its
standard deviations, learned as everything is (`pooling`): shrunk toward 1, and hardly moved by
one absurd visit. That all of them came out dearer or cheaper is not spread: paces and films follow.

References
----------
.. [1] Wilson, Probable inference, the law of succession, and statistical inference, Journal of the
   American Statistical Association 22 (1927), 209-212.
"""

from collections.abc import Sequence
from math import sqrt

from attrs import evolve, frozen

from estimator.estimation.figures import Figures
from estimator.estimation.pooling import AS_NORMAL, NORMAL_P90, Prior, pooled
from estimator.estimation.records import Visit
from estimator.measures import Ratio, Share
from estimator.price.build_up import price
from estimator.price.money import Money
from estimator.quote.outcome import Outcome

PROMISED: Share = 0.8
"""Between P10 and P90 lie 8 of 10."""

FEWEST = 5
"""Fewer visits say nothing against a range."""

_CERTAIN = 1.96
"""Of 95 intervals in 100 it holds true; two-sided normal."""

_EXACT = 0.01
"""The price in hindsight is known but for this, in standard deviations of the range."""


@frozen(kw_only=True)
class Coverage:
    """How often the range held.

    Parameters
    ----------
    visits, within
        Visits with a known price in hindsight, and those of them between P10 and P90.
    low, high
        Between which the true share lies, with a confidence of 95 %.
    widening
        By how much the range must be stretched to hold; 1 where nothing speaks against it.
    """

    visits: int
    within: int
    low: Share
    high: Share
    widening: Ratio

    @property
    def holds(self) -> bool:
        """Whether the share promised may be the true one, or too few visits tell."""
        return self.visits < FEWEST or self.low <= PROMISED <= self.high


def hindsight(figures: Figures, outcome: Outcome) -> Money | None:
    """Return the price had everything been known before; None without the time on site."""
    if outcome.on_site is None:
        return None
    planned = {room.room: room.volume for room in figures.rooms}
    told = [
        (row.volume, planned[row.room])
        for row in outcome.rows
        if row.volume is not None and row.room in planned
    ]
    foreseen = sum(volume for _, volume in told)
    liquid = sum(volume for volume, _ in told) / foreseen if foreseen else 1.0
    work = evolve(
        figures.work,
        crew=outcome.crew,
        on_site=outcome.on_site,
        person_time=outcome.crew * outcome.on_site,
        tablets=round(liquid * figures.work.tablets),
        powder=liquid * figures.work.powder,
        concentrate=liquid * figures.work.concentrate,
    )
    return price(work, figures.rates, figures.job.conditions).total


def coverage(visits: Sequence[Visit]) -> Coverage:
    """Return how often the range held; a range without width promises nothing and is left out."""
    scores = [score for visit in visits if (score := _score(visit)) is not None]
    within = sum(abs(score) <= NORMAL_P90 for score in scores)
    low, high = wilson_interval(within, len(scores))
    found = Coverage(visits=len(scores), within=within, low=low, high=high, widening=1.0)
    return found if found.holds else evolve(found, widening=stretched(scores))


def wilson_interval(successes: int, trials: int) -> tuple[Share, Share]:
    """Return between which shares the true one lies, with a confidence of 95 %.

    >>> [round(share, 3) for share in wilson_interval(8, 10)]
    [0.49, 0.943]
    """
    if not trials:
        return 0.0, 1.0
    share, square = successes / trials, _CERTAIN**2
    middle = share + square / (2 * trials)
    half = _CERTAIN * sqrt(share * (1 - share) / trials + square / (4 * trials**2))
    low, high = ((middle + sign * half) / (1 + square / trials) for sign in (-1, 1))
    return max(0.0, low), min(1.0, high)


def stretched(scores: Sequence[float]) -> Ratio:
    """Return the standard deviation of scores around their own centre, to P10 and P90."""
    prior = Prior(centre=1.0, group=1.0, between=1 / AS_NORMAL, within=_EXACT)
    told = pooled(scores, range(len(scores)), [None] * len(scores), prior)
    return AS_NORMAL * told.between


def _score(visit: Visit) -> float | None:
    """Return how many standard deviations a visit came out above the median of its range."""
    total, likely = hindsight(visit.figures, visit.outcome), visit.figures.range
    if total is None or not likely.p10.amount < likely.p50.amount < likely.p90.amount:
        return None
    off = total.amount - likely.p50.amount
    side = likely.p90 if off > 0 else likely.p10
    return float(off / abs(side.amount - likely.p50.amount)) * NORMAL_P90
