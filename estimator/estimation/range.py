"""The range of the price: what the doubts, film and pace together leave open.

Monte Carlo over normal errors with a given seed. The error of a storey's scale is shared by all its
rooms and squares in areas; errors of outline, height and contents are each room's own. A sum of
independent normal errors is normal with their variances added, so the errors of the rooms of a
storey are drawn as one, and the cost of a draw does not grow with the number of rooms.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from enum import IntEnum

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.estimation.book import Book
from estimator.measures import Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.price.build_up import LineKind, Price, Work, product_use
from estimator.price.money import Money, rounded
from estimator.price.rates import Rates
from estimator.quote.quote import Range
from estimator.surfaces.schedule import Schedule, Surface, SurfaceKind

DRAWS = 2000

Draws = NDArray[np.float64]


class Growth(IntEnum):
    """How a treated area grows with the error of the scale: its power."""

    NOT = 0
    WITH_LENGTH = 1
    WITH_AREA = 2


@frozen(kw_only=True)
class Part:
    """Treated surface of one storey that errs in one way.

    Parameters
    ----------
    share
        Its share of all liquid; the shares of a job sum to 1.
    error
        One standard deviation of the rooms' own errors together, as a share of the part.
    scale_error
        One standard deviation of the storey's scale.
    """

    storey: int
    growth: Growth
    share: Share
    error: float
    scale_error: float


def parts(plan: Plan, schedule: Schedule, doubts: Sequence[Doubt], book: Book) -> tuple[Part, ...]:
    """Return the job's surface in parts that err alike."""
    film = {film.lie: film.volume * (1 + film.loss) for film in book.films}
    errors = _errors(doubts)
    scales = {
        storey.number: storey.scale.relative_error if storey.scale else 0.0
        for storey in plan.storeys
    }
    liquid: dict[tuple[int, Growth], float] = {}
    variance: dict[tuple[int, Growth], float] = {}
    for room in schedule.rooms:
        own: dict[Growth, float] = {}
        for surface in room.surfaces:
            growth = _growth(surface)
            own[growth] = own.get(growth, 0.0) + surface.treated * film[surface.lie]
        for growth, volume in own.items():
            key = room.storey, growth
            liquid[key] = liquid.get(key, 0.0) + volume
            error = volume * _own_error(growth, errors.get(room.room, {}))
            variance[key] = variance.get(key, 0.0) + error**2
    total = sum(liquid.values()) or 1.0
    return tuple(
        Part(
            storey=storey,
            growth=growth,
            share=volume / total,
            error=variance[storey, growth] ** 0.5 / volume,
            scale_error=scales.get(storey, 0.0),
        )
        for (storey, growth), volume in sorted(liquid.items())
        if volume
    )


def price_range(
    price: Price, work: Work, job_parts: Sequence[Part], book: Book, *, seed: int
) -> Range:
    """Return the totals that the price stays below with a chance of 10, 50 and 90 %."""
    totals = total_draws(price, work, job_parts, book, seed=seed)
    currency = book.rates.currency
    p10, p50, p90 = np.quantile(totals, [0.1, 0.5, 0.9]).tolist()
    return Range(p10=_money(p10, currency), p50=_money(p50, currency), p90=_money(p90, currency))


def total_draws(
    price: Price, work: Work, job_parts: Sequence[Part], book: Book, *, seed: int
) -> Draws:
    """Return the client's total under drawn errors, shape (DRAWS,)."""
    random = np.random.default_rng(seed)
    area = _area_factor(random, job_parts)
    film = np.maximum(0.0, 1 + book.spread.film * random.standard_normal(DRAWS))
    pace = np.maximum(0.0, 1 + book.spread.pace * random.standard_normal(DRAWS))
    fixed = min(work.person_time, work.crew * (book.site_times.arrive + book.site_times.leave))
    time = 1 + (1 - fixed / work.person_time) * (area * pace - 1) if work.person_time else area
    return _total(price, work, book.rates, time=time, liquid=area * film)


def _area_factor(random: np.random.Generator, job_parts: Sequence[Part]) -> Draws:
    """Draw the treated area as a multiple of the estimate, shape (DRAWS,)."""
    storeys = sorted({part.storey for part in job_parts})
    scale = {storey: random.standard_normal(DRAWS) for storey in storeys}
    area = np.zeros(DRAWS)
    for part in job_parts:
        length = 1 + part.scale_error * scale[part.storey]
        own = 1 + part.error * random.standard_normal(DRAWS)
        area += part.share * np.maximum(0.0, length**part.growth * own)
    return area if job_parts else np.ones(DRAWS)


def _total(price: Price, work: Work, rates: Rates, *, time: Draws, liquid: Draws) -> Draws:
    """Return the build-up of `price` in floats with time on site and liquid multiplied."""
    used, _, each = product_use(work, rates)
    loaded = rates.labour_per_hour * (1 + rates.burden)
    timed = float(loaded) * work.person_time / 3600
    timed += float(rates.equipment_per_hour) * work.on_site / 3600
    mixed = float(used * each)
    steady = float(price.cost.amount) - timed - mixed
    discount = 1 + sum(
        float(line.rate) for line in price.additions if line.kind is LineKind.DISCOUNT
    )
    cost = steady + timed * time + mixed * liquid
    charge = cost * float((1 + rates.overhead) * (1 + rates.markup)) * discount
    return np.maximum(charge, float(rates.minimum_charge)) * float(1 + rates.tax)


def _growth(surface: Surface) -> Growth:
    if surface.kind in {SurfaceKind.FLOOR, SurfaceKind.CEILING}:
        return Growth.WITH_AREA
    if surface.kind in {SurfaceKind.WALL, SurfaceKind.GLASS}:
        return Growth.WITH_LENGTH
    return Growth.NOT


def _errors(doubts: Sequence[Doubt]) -> dict[str, dict[Aspect, float]]:
    """Return each room's relative error of each aspect, several doubts added in quadrature."""
    errors: dict[str, dict[Aspect, float]] = {}
    for doubt in doubts:
        if doubt.room is not None:
            own = errors.setdefault(doubt.room, {})
            own[doubt.aspect] = (own.get(doubt.aspect, 0.0) ** 2 + doubt.relative_error**2) ** 0.5
    return errors


def _own_error(growth: Growth, errors: Mapping[Aspect, float]) -> float:
    outline = errors.get(Aspect.OUTLINE, 0.0)
    if growth is Growth.WITH_AREA:
        return outline
    if growth is Growth.WITH_LENGTH:
        # A perimeter errs by half as much as the area it encloses, to first order.
        height, openings = errors.get(Aspect.HEIGHT, 0.0), errors.get(Aspect.OPENINGS, 0.0)
        return float((outline**2 / 4 + height**2 + openings**2) ** 0.5)
    return errors.get(Aspect.CONTENTS, 0.0)


def _money(total: float, currency: str) -> Money:
    return rounded(Decimal(str(total)), currency)
