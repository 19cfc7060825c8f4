"""Why the prices of two quotes differ: a waterfall of what differs between their sites and firms.

The price is taken as a function of drivers: how large, high and full the site is, how much liquid a
surface takes and how strong it is, how many people come and how fast they are, the way there, the
rates, and what was agreed. Each driver is taken from the one quote or from the other, in all
combinations; each combination is priced, and the difference is parted by Shapley's value
(`shapley`). The steps therefore add up to the coin and do not depend on an order. What a quote that
was made by other rules than today's differs by is put down to what was agreed.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from decimal import Decimal
from enum import StrEnum
from functools import cache
from math import isclose

from attrs import evolve, frozen

from estimator.errors import MixedCurrencies
from estimator.estimation.figures import Figures
from estimator.estimation.shapley import in_whole, shapley
from estimator.measures import (
    CubicMetresPerSquareMetre,
    Metres,
    Ratio,
    Seconds,
    SquareMetres,
)
from estimator.price.build_up import Work, price
from estimator.price.money import Money, coin
from estimator.price.rates import Rates


class Driver(StrEnum):
    """What a price hangs on."""

    SIZE = "size"
    LAYOUT = "layout"
    HEIGHT = "height"
    CONTENTS = "contents"
    FILM = "film"
    STRENGTH = "strength"
    CREW = "crew"
    TRAVEL = "travel"
    RATES = "rates"
    TERMS = "terms"


@frozen(kw_only=True)
class Step:
    """What one driver adds to the price on the way from one quote to the other."""

    driver: Driver
    amount: Money


@frozen(kw_only=True)
class Waterfall:
    """From the price of one quote to that of another, step by step."""

    first: Money
    last: Money
    steps: tuple[Step, ...]


def waterfall(first: Figures, last: Figures) -> Waterfall:
    """Return why the last quote's price is not the first's, a step for every driver.

    Raises
    ------
    MixedCurrencies
        When the quotes are in different currencies.
    """
    if first.currency != last.currency:
        raise MixedCurrencies(
            "the two quotes",
            f"one is in {first.currency}, the other in {last.currency}",
            "choose two of one currency",
        )
    differing = tuple(_differing(first, last))
    smallest = coin(first.currency)
    worth = [int(total / smallest) for total in _totals(first, last, differing)]
    amounts = Counter(dict(zip(differing, in_whole(shapley(worth)), strict=True)))
    whole = int((last.total.amount - first.total.amount) / smallest)
    amounts[Driver.TERMS] += whole - (worth[-1] - worth[0])
    return Waterfall(
        first=first.total,
        last=last.total,
        steps=tuple(
            Step(driver=driver, amount=Money(amounts[driver] * smallest, first.currency))
            for driver in Driver
        ),
    )


@frozen(kw_only=True)
class _Site:
    """The drivers of a quote that its work follows from, each free of the others.

    Parameters
    ----------
    flat, upright, inside
        Treated surface by floor area; that of walls by their height, too.
    product
        What a volume of liquid holds, in the units that products are priced in.
    pace
        Time on site per treated surface, besides setting up.
    """

    size: SquareMetres
    flat: Ratio
    upright: float
    height: Metres
    inside: Ratio
    film: CubicMetresPerSquareMetre
    product: str
    tablets: float
    powder: float
    concentrate: float
    crew: int
    sprayers: int
    setting_up: Seconds
    pace: float
    distance: Metres
    road_time: Seconds


_FIELDS = {
    Driver.SIZE: ("size",),
    Driver.LAYOUT: ("flat", "upright"),
    Driver.HEIGHT: ("height",),
    Driver.CONTENTS: ("inside",),
    Driver.FILM: ("film",),
    Driver.STRENGTH: ("product", "tablets", "powder", "concentrate"),
    Driver.CREW: ("crew", "sprayers", "setting_up", "pace"),
    Driver.TRAVEL: ("distance", "road_time"),
}
_OF_THE_SITE = frozenset(_FIELDS)


def _site(figures: Figures) -> _Site:
    work, floor, treated = figures.work, figures.floor_area, figures.treated or 1.0
    reach = figures.job.scope.walls_to
    height = (figures.height if reach is None else min(figures.height, reach)) or 1.0
    volume = figures.volume or 1.0
    return _Site(
        size=floor,
        flat=figures.flat / floor,
        upright=figures.upright / floor / height,
        height=height,
        inside=figures.inside / floor,
        film=figures.film,
        product=work.product,
        tablets=work.tablets / volume,
        powder=work.powder / volume,
        concentrate=work.concentrate / volume,
        crew=work.crew,
        sprayers=work.sprayers,
        setting_up=figures.setting_up,
        pace=(work.on_site - figures.setting_up) / treated,
        distance=work.distance,
        road_time=work.road_time,
    )


def _work(site: _Site, like: Work) -> Work:
    """Return the work that follows from the drivers."""
    shell = site.flat + site.upright * site.height
    treated = site.size * (shell + site.inside)
    volume = treated * site.film
    on_site = site.setting_up + treated * site.pace
    return evolve(
        like,
        crew=site.crew,
        sprayers=site.sprayers,
        person_time=site.crew * on_site,
        on_site=on_site,
        product=site.product,
        tablets=round(volume * site.tablets),
        powder=volume * site.powder,
        concentrate=volume * site.concentrate,
        distance=site.distance,
        road_time=site.road_time,
    )


def _differing(first: Figures, last: Figures) -> Iterator[Driver]:
    """Yield the drivers in which two quotes differ; the others explain nothing."""
    here, there = _site(first), _site(last)
    for driver, names in _FIELDS.items():
        if not all(_alike(getattr(here, name), getattr(there, name)) for name in names):
            yield driver
    if first.rates != last.rates:
        yield Driver.RATES
    if first.job != last.job:
        yield Driver.TERMS


def _alike(here: float | str, there: float | str) -> bool:
    """Whether two figures are the same but for the rounding of floats."""
    if isinstance(here, str) or isinstance(there, str):
        return here == there
    return isclose(here, there, rel_tol=1e-9)


def _totals(first: Figures, last: Figures, differing: tuple[Driver, ...]) -> Iterator[Decimal]:
    """Yield the price of every combination of drivers, those of the last quote as bits."""
    work_of = _works(first, last, _OF_THE_SITE.intersection(differing))
    rates_of = {False: _knowing(first.rates, last), True: _knowing(last.rates, first)}
    for mask in range(1 << len(differing)):
        taken = frozenset(driver for at, driver in enumerate(differing) if mask >> at & 1)
        job = (last if Driver.TERMS in taken else first).job
        work = work_of(taken & _OF_THE_SITE)
        yield price(work, rates_of[Driver.RATES in taken], job.conditions).total.amount


def _works(
    first: Figures, last: Figures, differing: frozenset[Driver]
) -> Callable[[frozenset[Driver]], Work]:
    """Return a function from the drivers taken from the last quote to the work."""
    here, there = _site(first), _site(last)
    own = {frozenset[Driver](): first.work, differing: last.work}

    @cache
    def work_of(taken: frozenset[Driver]) -> Work:
        names = [name for driver in taken for name in _FIELDS[driver]]
        mixed = evolve(here, **{name: getattr(there, name) for name in names})
        return own.get(taken) or _work(mixed, first.work)

    return work_of


def _knowing(rates: Rates, other: Figures) -> Rates:
    """Return rates with what they do not know and the other quote may need: product, hours, place.

    A price that only one of two firms knows comes with what was chosen, not with the firm.
    """
    known = {row.product for row in rates.products}
    hours = {row.hours for row in rates.premiums}
    places = {row.slug for row in rates.places}
    theirs = other.rates
    return evolve(
        rates,
        products=(*rates.products, *(row for row in theirs.products if row.product not in known)),
        premiums=(*rates.premiums, *(row for row in theirs.premiums if row.hours not in hours)),
        places=(*rates.places, *(row for row in theirs.places if row.slug not in places)),
    )
