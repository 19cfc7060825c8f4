"""Sites side by side: their measures, which stand out, and what they come to together.

What stands out is told by the modified z-score [1]_: 0.6745 × distance from the median ÷ median
distance from the median, beyond 3.5. Median and median distance are moved by none of the few that
stand out, as mean and standard deviation would be.

References
----------
.. [1] Iglewicz & Hoaglin, How to Detect and Handle Outliers, ASQC Quality Press (1993), section
   3.3.
"""

from collections import defaultdict
from collections.abc import Callable, Sequence
from enum import StrEnum
from functools import reduce
from math import log
from operator import add
from statistics import median

from attrs import frozen

from estimator.estimation.figures import Figures
from estimator.measures import CubicMetres, Seconds, SquareMetres, checked
from estimator.price.money import Money

BEYOND = 3.5
"""A modified z-score beyond this stands out, as its authors recommend."""

FEWEST = 8
"""Of fewer sites nothing is said.

Of samples of 5 normal values, 21 in 100 would have one beyond; of 8, 14; of 50, 9 (40,000 draws
each).
"""


class Measure(StrEnum):
    """What sites are compared by."""

    FLOOR_AREA = "floor area"
    TREATED = "treated surface"
    SURFACE_PER_FLOOR = "surface per floor area"
    VOLUME = "solution"
    FILM = "solution per surface"
    ON_SITE = "time on site"
    PACE = "working time per surface"
    TOTAL = "price"
    PRICE_PER_FLOOR = "price per floor area"
    PRICE_PER_SURFACE = "price per surface"
    MARGIN = "margin"


OF_MONEY = frozenset({Measure.TOTAL, Measure.PRICE_PER_FLOOR, Measure.PRICE_PER_SURFACE})
"""Measures that only sites of one currency can be compared by."""

_FREE_OF_SIZE = (
    Measure.SURFACE_PER_FLOOR,
    Measure.FILM,
    Measure.PACE,
    Measure.PRICE_PER_FLOOR,
    Measure.PRICE_PER_SURFACE,
    Measure.MARGIN,
)
"""Measures in which a site may stand out; that one is large is no finding."""

_VALUES: dict[Measure, Callable[[Figures], float]] = {
    Measure.FLOOR_AREA: lambda one: one.floor_area,
    Measure.TREATED: lambda one: one.treated,
    Measure.SURFACE_PER_FLOOR: lambda one: _per(one.treated, one.floor_area),
    Measure.VOLUME: lambda one: one.volume,
    Measure.FILM: lambda one: one.film,
    Measure.ON_SITE: lambda one: one.work.on_site,
    Measure.PACE: lambda one: _per(one.work.person_time, one.treated),
    Measure.TOTAL: lambda one: float(one.total.amount),
    Measure.PRICE_PER_FLOOR: lambda one: _per(float(one.total.amount), one.floor_area),
    Measure.PRICE_PER_SURFACE: lambda one: _per(float(one.total.amount), one.treated),
    Measure.MARGIN: lambda one: one.margin,
}


@frozen(kw_only=True)
class Outlier:
    """A site that stands out in a measure.

    Parameters
    ----------
    site
        Its place among the sites compared.
    usual
        The median of all of them.
    """

    site: int
    measure: Measure
    value: float
    usual: float
    score: float


@frozen(kw_only=True, field_transformer=checked)
class Portfolio:
    """Several sites together.

    Parameters
    ----------
    totals, charges, costs
        One amount for every currency.
    """

    sites: int
    floor_area: SquareMetres
    treated: SquareMetres
    volume: CubicMetres
    person_time: Seconds
    totals: tuple[Money, ...]
    charges: tuple[Money, ...]
    costs: tuple[Money, ...]


def value_of(figures: Figures, measure: Measure) -> float:
    """Return a measure of a site, in SI units and whole units of its currency."""
    return _VALUES[measure](figures)


def ranked(sites: Sequence[Figures], measure: Measure) -> tuple[int, ...]:
    """Return the places of the sites, the greatest first; equal ones keep their order."""
    return tuple(sorted(range(len(sites)), key=lambda at: -value_of(sites[at], measure)))


def outliers(sites: Sequence[Figures]) -> tuple[Outlier, ...]:
    """Return what stands out, the furthest first; nothing among few sites.

    Measures that cannot be negative are held against each other by their logarithms, since twice
    and half as much lie equally far. Prices are only held against those in the same currency.
    """
    found = []
    for measure in _FREE_OF_SIZE:
        for group in _comparable(sites, measure):
            found += _outliers(sites, group, measure)
    return tuple(sorted(found, key=lambda one: -abs(one.score)))


def modified_z_scores(values: Sequence[float]) -> tuple[float, ...]:
    """Return how far each value lies from the median, in robust standard deviations.

    Where more than half are alike, the mean distance takes the place of the median distance; the
    factor makes it a standard deviation of normal values, √(π ÷ 2) of it.

    Examples
    --------
    >>> [round(score, 2) for score in modified_z_scores([1, 2, 3, 4, 10])]
    [-1.35, -0.67, 0.0, 0.67, 4.72]
    """
    middle = median(values)
    distances = [abs(value - middle) for value in values]
    least = 1e-9 * max(1.0, abs(middle))
    spread = median(distances) / 0.6745
    if spread < least:
        spread = 1.2533 * sum(distances) / len(distances)
    if spread < least:
        return tuple(0.0 for _ in values)
    return tuple((value - middle) / spread for value in values)


def portfolio(sites: Sequence[Figures]) -> Portfolio:
    """Return what several sites come to together."""
    return Portfolio(
        sites=len(sites),
        floor_area=sum(one.floor_area for one in sites),
        treated=sum(one.treated for one in sites),
        volume=sum(one.volume for one in sites),
        person_time=sum(one.work.person_time for one in sites),
        totals=_by_currency([one.total for one in sites]),
        charges=_by_currency([one.charge for one in sites]),
        costs=_by_currency([one.cost for one in sites]),
    )


def _comparable(sites: Sequence[Figures], measure: Measure) -> list[list[int]]:
    groups: defaultdict[str, list[int]] = defaultdict(list)
    for at, one in enumerate(sites):
        groups[one.currency if measure in OF_MONEY else ""].append(at)
    return list(groups.values())


def _outliers(sites: Sequence[Figures], group: Sequence[int], measure: Measure) -> list[Outlier]:
    values = {at: value_of(sites[at], measure) for at in group}
    if measure is not Measure.MARGIN:
        values = {at: value for at, value in values.items() if value > 0}
    if len(values) < FEWEST:
        return []
    scale = float if measure is Measure.MARGIN else log
    scores = modified_z_scores([scale(value) for value in values.values()])
    usual = median(values.values())
    return [
        Outlier(site=at, measure=measure, value=value, usual=usual, score=score)
        for (at, value), score in zip(values.items(), scores, strict=True)
        if abs(score) > BEYOND
    ]


def _by_currency(amounts: Sequence[Money]) -> tuple[Money, ...]:
    alike: defaultdict[str, list[Money]] = defaultdict(list)
    for amount in amounts:
        alike[amount.currency].append(amount)
    return tuple(reduce(add, each) for each in alike.values())


def _per(amount: float, area: SquareMetres) -> float:
    return amount / area if area else 0.0
