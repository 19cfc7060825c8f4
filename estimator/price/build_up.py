"""The price as a build-up: what the work costs, and what is charged for it, line by line.

Every line is rounded to a coin, so that it adds up on paper; ``charging`` says what is put on cost.
"""

from collections.abc import Iterable, Iterator
from decimal import Decimal

from attrs import frozen

from estimator.measures import CubicMetres, Kilograms, Metres, Seconds, checked
from estimator.price.charging import Charging, LineKind, charging, margin
from estimator.price.conditions import Conditions
from estimator.price.money import Money, rounded
from estimator.price.rates import Per, Rates
from estimator.price.rounding import Halves, Rounded, to_step

__all__ = ["LineKind", "Price", "PriceLine", "Work", "labour_rate", "price", "product_use"]


@frozen(kw_only=True, field_transformer=checked)
class Work:
    """What a visit takes, in the terms that rates are quoted in.

    Parameters
    ----------
    sprayers
        Sprayers brought along; each costs while on site.
    person_time
        Paid time on site of the whole crew.
    tablets, powder, concentrate
        Product used; only those its form calls for are above 0.
    distance
        Driven there and back.
    road_time
        Time on the road there and back, paid to every member of the crew.
    """

    crew: int
    sprayers: int = 1
    person_time: Seconds
    on_site: Seconds
    product: str
    tablets: int = 0
    powder: Kilograms = 0.0
    concentrate: CubicMetres = 0.0
    distance: Metres = 0.0
    road_time: Seconds = 0.0


@frozen(kw_only=True)
class PriceLine:
    """One line: a quantity of a unit at a rate, and the rounded amount."""

    kind: LineKind
    label: str
    quantity: Decimal
    unit: str
    rate: Decimal
    amount: Money


@frozen(kw_only=True)
class Price:
    """What is charged, line by line; every sum is of rounded lines, so it adds up on paper.

    Parameters
    ----------
    costs
        What the work costs the firm.
    additions
        Overhead, mark-up, discounts, what lifts the charge to the minimum, and rounding of it.
    taxes
        Those of the place, in the order they are reckoned in.
    rounding
        What brings the total to a step; empty where the charge is rounded or nothing is.
    """

    costs: tuple[PriceLine, ...]
    additions: tuple[PriceLine, ...]
    taxes: tuple[PriceLine, ...]
    rounding: tuple[PriceLine, ...] = ()

    @property
    def lines(self) -> tuple[PriceLine, ...]:
        """Every line in the order they add up to the total."""
        return self.costs + self.additions + self.taxes + self.rounding

    @property
    def cost(self) -> Money:
        """Direct cost of the work."""
        return self._sum(self.costs)

    @property
    def full_cost(self) -> Money:
        """Direct cost with overhead: what a charge below loses money against."""
        overhead = tuple(line for line in self.additions if line.kind is LineKind.OVERHEAD)
        return self._sum(self.costs + overhead)

    @property
    def charge(self) -> Money:
        """What is charged before tax."""
        return self._sum(self.costs + self.additions)

    @property
    def tax(self) -> Money:
        """All taxes together."""
        return self._sum(self.taxes)

    @property
    def total(self) -> Money:
        """What the client pays."""
        return self._sum(self.lines)

    @property
    def margin(self) -> Decimal:
        """What is left of the charge after cost and overhead, as a share of it; 0 of nothing."""
        return margin(self.charge, self.full_cost)

    @property
    def at_minimum(self) -> bool:
        """Whether the minimum charge decided the price."""
        return any(line.kind is LineKind.MINIMUM for line in self.additions)

    @property
    def findings(self) -> tuple[str, ...]:
        """What the firm, not the client, must know of the price; a sentence each."""
        for cost, what in (
            (self.cost, "the work costs"),
            (self.full_cost, "it costs with overhead"),
        ):
            loss = cost.amount - self.charge.amount
            if loss > 0:
                return (
                    f"The charge of {self.charge} is {Money(loss, self.currency)} below what "
                    f"{what} ({cost}): every visit loses money.",
                )
        return ()

    @property
    def currency(self) -> str:
        """That of every line."""
        return self.costs[0].amount.currency

    def _sum(self, lines: tuple[PriceLine, ...]) -> Money:
        return Money(_amount(lines), self.currency)


def price(work: Work, rates: Rates, conditions: Conditions | None = None) -> Price:
    """Return the price of a visit.

    Raises
    ------
    PriceError
        When the rates lack the product, or price it in another currency.
    NoSuchEntry
        When the book lacks the premium of the hours or the taxes of the place.
    """
    conditions = conditions or Conditions()
    rule = charging(rates, conditions)
    lines = _Lines(rates.currency, rule.halves)
    costs = tuple(lines.line(*row) for row in _costs(work, rates, conditions) if row[2])
    additions = tuple(_additions(costs, rule, lines))
    charge = _amount(costs) + _amount(additions)
    taxes: list[PriceLine] = []
    for tax in rule.taxes:
        base = charge + _amount(taxes) if tax.on_taxes else charge
        taxes += lines.share(LineKind.TAX, tax.label, base, tax.share)
    rounding: tuple[PriceLine, ...] = ()
    if rule.rounds is Rounded.TOTAL:
        rounding = tuple(lines.to_step(charge + _amount(taxes), rule))
    return Price(costs=costs, additions=additions, taxes=tuple(taxes), rounding=rounding)


def product_use(work: Work, rates: Rates) -> tuple[Decimal, str, Decimal]:
    """Return how much product is used, of what unit, and what one unit costs.

    Raises
    ------
    PriceError
        When the rates do not say what the product costs.
    MixedCurrencies
        When they say it in another currency.
    """
    row = rates.product_price(work.product)
    used = {
        Per.TABLET: Decimal(work.tablets),
        Per.KILOGRAM: Decimal(str(work.powder)),
        Per.LITRE: Decimal(str(work.concentrate)) * 1000,
    }[row.per]
    return used, row.per.value, row.amount


def labour_rate(rates: Rates) -> Decimal:
    """Return what an hour of one person costs by day."""
    return rates.labour_per_hour * (1 + rates.burden)


_Row = tuple[LineKind, str, Decimal, str, Decimal]


@frozen
class _Lines:
    """Makes lines of one currency, rounded by one rule."""

    currency: str
    halves: Halves

    def line(
        self, kind: LineKind, label: str, quantity: Decimal, unit: str, rate: Decimal
    ) -> PriceLine:
        amount = rounded(quantity * rate, self.currency, self.halves)
        return PriceLine(
            kind=kind, label=label, quantity=quantity, unit=unit, rate=rate, amount=amount
        )

    def share(
        self, kind: LineKind, label: str, base: Decimal, share: Decimal
    ) -> Iterator[PriceLine]:
        """Yield a share of a base, unless it is nothing."""
        line = self.line(kind, label, base, "share", share)
        if line.amount.amount:
            yield line

    def to_step(self, amount: Decimal, rule: Charging) -> Iterator[PriceLine]:
        """Yield what brings an amount to the step, unless it is there."""
        short = to_step(amount, rule.step, rule.halves) - amount
        if short:
            label = f"Rounding to {rule.step.normalize():f}"
            yield self.line(LineKind.ROUNDING, label, Decimal(1), "visit", short)


def _additions(costs: tuple[PriceLine, ...], rule: Charging, lines: _Lines) -> Iterator[PriceLine]:
    """Yield what is put on the costs, each on all before it."""
    running = _amount(costs)
    for one in rule.additions:
        for line in lines.share(one.kind, one.label, running, one.share):
            running += line.amount.amount
            yield line
    if running < rule.minimum:
        label, short = "Up to the minimum charge", rule.minimum - running
        line = lines.line(LineKind.MINIMUM, label, Decimal(1), "visit", short)
        running += line.amount.amount
        yield line
    if rule.rounds is Rounded.CHARGE:
        yield from lines.to_step(running, rule)


def _costs(work: Work, rates: Rates, conditions: Conditions) -> Iterator[_Row]:
    hours, sprayer_hours = _hours(work.person_time), _hours(work.on_site) * work.sprayers
    road_hours = _hours(work.road_time) * work.crew
    kilometres = Decimal(str(work.distance)) / 1000
    loaded, premium = labour_rate(rates), rates.premium(conditions.hours)
    used, unit, each = product_use(work, rates)
    yield LineKind.LABOUR, "Labour on site", hours, "person-hour", loaded
    yield LineKind.TRAVEL_TIME, "Time on the road", road_hours, "person-hour", loaded
    if premium:
        label = f"{conditions.hours.capitalize()} premium on labour"
        yield LineKind.PREMIUM, label, hours + road_hours, "person-hour", premium * loaded
    yield LineKind.VEHICLE, "Vehicle", kilometres, "km", rates.travel_per_km
    yield LineKind.SOLUTION, "Disinfectant", used, unit, each
    yield LineKind.WEAR, "Protective wear", Decimal(work.crew), "person", rates.wear_per_person
    yield LineKind.EQUIPMENT, "Equipment", sprayer_hours, "sprayer-hour", rates.equipment_per_hour


def _hours(seconds: Seconds) -> Decimal:
    return Decimal(str(seconds)) / 3600


def _amount(lines: Iterable[PriceLine]) -> Decimal:
    return sum((line.amount.amount for line in lines), Decimal(0))
