"""The range of the price: what the doubts, film and pace together leave open.

Monte Carlo over normal errors with a given seed. The error of a picture's scale is shared by all
its rooms and squares in areas; all else that is open (`leeway`) is independent of it. A sum of
independent normal errors is normal with their variances added, so what is open about surfaces that
grow alike is drawn as one, and the cost of a draw does not grow with the number of rooms.
"""

import math
from collections.abc import Mapping, Sequence
from decimal import Decimal
from functools import lru_cache

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.estimation.book import Book
from estimator.estimation.leeway import Growth, Liquid, liquid_of
from estimator.estimation.spread import Spread
from estimator.measures import Metres, Share
from estimator.plan.doubt import Doubt
from estimator.plan.plan import Plan
from estimator.price.build_up import Work, labour_rate, price, product_use
from estimator.price.charging import Charging, charging
from estimator.price.conditions import Conditions
from estimator.price.money import Money, coin
from estimator.price.rates import Rates
from estimator.price.rounding import Rounded, to_step
from estimator.quote.likely import Range
from estimator.surfaces.schedule import Schedule

DRAWS = 2000

Draws = NDArray[np.float64]


@frozen(kw_only=True)
class Part:
    """Treated surface of the storeys on one picture that errs in one way.

    Parameters
    ----------
    storey
        The first of them.
    share
        Its share of all liquid; the shares of a job sum to 1.
    error
        One standard deviation of all else that is open, as a share of the part.
    scale_error
        One standard deviation of the picture's scale.
    """

    storey: int
    growth: Growth
    share: Share
    error: float
    scale_error: float


def parts(
    plan: Plan,
    schedule: Schedule,
    doubts: Sequence[Doubt],
    book: Book,
    *,
    walls_to: Metres | None = None,
) -> tuple[Part, ...]:
    """Return the job's surface in parts that err alike."""
    return parts_of(liquid_of(plan, schedule, doubts, book, walls_to=walls_to))


def parts_of(liquid: Liquid) -> tuple[Part, ...]:
    """Return the parts of the liquid of a job, whatever is open about each taken together."""
    variance: dict[tuple[int, Growth], float] = {}
    for one in liquid.leeways:
        key = one.storey, one.growth
        variance[key] = variance.get(key, 0.0) + one.deviation**2
    total = sum(liquid.volume.values()) or 1.0
    return tuple(
        Part(
            storey=storey,
            growth=growth,
            share=volume / total,
            error=variance.get((storey, growth), 0.0) ** 0.5 / volume,
            scale_error=liquid.scale_error[storey],
        )
        for (storey, growth), volume in sorted(liquid.volume.items())
        if volume
    )


def price_range(
    work: Work, conditions: Conditions, job_parts: Sequence[Part], book: Book, *, seed: int
) -> Range:
    """Return the totals that the price stays below with a chance of 10, 50 and 90 %."""
    draws = total_draws(work, conditions, job_parts, book, seed=seed)
    rule, currency = charging(book.rates, conditions), book.rates.currency
    step = rule.step if rule.rounds is Rounded.TOTAL else coin(currency)
    p10, p50, p90 = (
        Money(to_step(Decimal(str(total)), step, rule.halves), currency)
        for total in np.quantile(draws, [0.1, 0.5, 0.9]).tolist()
    )
    return Range(p10=p10, p50=p50, p90=p90)


def total_draws(
    work: Work, conditions: Conditions, job_parts: Sequence[Part], book: Book, *, seed: int
) -> Draws:
    """Return the client's total under drawn errors, shape (DRAWS,)."""
    chance = Chance.drawn(job_parts, seed=seed)
    return totals(work, conditions, job_parts, book, chance, book.spread)


@frozen(kw_only=True, eq=False)
class Chance:
    """Standard normal errors, each of shape (DRAWS,): the same for any two ranges compared."""

    scale: Mapping[int, Draws]
    own: tuple[Draws, ...]
    film: Draws
    pace: Draws

    @staticmethod
    def drawn(job_parts: Sequence[Part], *, seed: int) -> "Chance":
        """Draw them for the pictures and parts of a job."""
        storeys = sorted({part.storey for part in job_parts})
        errors = _errors(len(storeys) + len(job_parts) + 2, seed)
        return Chance(
            scale=dict(zip(storeys, errors, strict=False)),
            own=errors[len(storeys) : -2],
            film=errors[-2],
            pace=errors[-1],
        )


@lru_cache(maxsize=32)
def _errors(count: int, seed: int) -> tuple[Draws, ...]:
    """Return so many standard normal errors that are free of chance correlation.

    What is independent then adds in quadrature in the sample, too, and a small doubt is not lost
    in the noise of a large one. A sample with covariance L·Lᵀ becomes such by the inverse of L.
    """
    sample = np.random.default_rng(seed).standard_normal((count, DRAWS))
    sample -= sample.mean(axis=1, keepdims=True)
    lower = np.linalg.cholesky(sample @ sample.T / DRAWS)
    return tuple(np.linalg.solve(lower, sample))


def totals(
    work: Work,
    conditions: Conditions,
    job_parts: Sequence[Part],
    book: Book,
    chance: Chance,
    spread: Spread,
) -> Draws:
    """Return the client's total under the errors of a chance, shape (DRAWS,)."""
    area = _area_factor(job_parts, chance)
    film = np.maximum(0.0, 1 + spread.film * chance.film)
    pace = np.maximum(0.0, 1 + spread.pace * chance.pace)
    fixed = fixed_share(work, book)
    time = 1 + (1 - fixed) * (area * pace - 1) if work.person_time else area
    timed, mixed = growing_costs(work, book.rates, conditions)
    steady = float(price(work, book.rates, conditions).cost.amount) - timed - mixed
    cost = steady + timed * time + mixed * area * film
    return _charged(cost, charging(book.rates, conditions))


def fixed_share(work: Work, book: Book) -> Share:
    """Return the share of the time on site that does not grow with the rooms."""
    fixed = work.crew * (book.site_times.arrive + book.site_times.leave)
    return min(1.0, fixed / work.person_time) if work.person_time else 0.0


def growing_costs(work: Work, rates: Rates, conditions: Conditions) -> tuple[float, float]:
    """Return the costs that grow with the time on site, and with the liquid."""
    used, _, each = product_use(work, rates)
    hourly = labour_rate(rates) * (1 + rates.premium(conditions.hours))
    timed = float(hourly) * work.person_time / 3600
    timed += float(rates.equipment_per_hour) * work.sprayers * work.on_site / 3600
    return timed, float(used * each)


def _area_factor(job_parts: Sequence[Part], chance: Chance) -> Draws:
    """Return the treated area as a multiple of the estimate, shape (DRAWS,)."""
    area = np.zeros(DRAWS)
    for part, drawn in zip(job_parts, chance.own, strict=True):
        length = 1 + part.scale_error * chance.scale[part.storey]
        area += part.share * np.maximum(0.0, length**part.growth * (1 + part.error * drawn))
    return area if job_parts else np.ones(DRAWS)


def _charged(cost: Draws, rule: Charging) -> Draws:
    """Return the total that a rule makes of each cost, to the step where the charge is rounded."""
    charge = cost * math.prod(float(1 + one.share) for one in rule.additions)
    charge = np.maximum(charge, float(rule.minimum))
    if rule.rounds is Rounded.CHARGE:
        charge = float(rule.step) * np.round(charge / float(rule.step))
    return charge * float(rule.taxed)
