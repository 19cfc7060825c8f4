"""The price as a build-up: what the work costs, and what is charged for it.

charge = max(minimum, cost × (1 + overhead) × (1 + mark-up) × (1 − discount)); total = charge × (1 +
tax). Mark-up is a share of cost (common practice in contracting); a margin, a share of the charge,
is mark-up ÷ (1 + mark-up).
"""

from decimal import Decimal
from enum import StrEnum

from attrs import frozen

from estimator.errors import PriceError
from estimator.measures import CubicMetres, Kilograms, Metres, Seconds, checked
from estimator.price.money import Money, rounded
from estimator.price.rates import Per, Rates


class LineKind(StrEnum):
    """What a line of the build-up is for."""

    LABOUR = "labour"
    TRAVEL_TIME = "travel time"
    VEHICLE = "vehicle"
    SOLUTION = "solution"
    WEAR = "protective wear"
    EQUIPMENT = "equipment"
    OVERHEAD = "overhead"
    MARKUP = "mark-up"
    DISCOUNT = "discount"
    MINIMUM = "up to the minimum charge"
    TAX = "tax"


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
        Overhead, mark-up, discount and what lifts the charge to the minimum.
    taxes
        Those of the place, in the order they are reckoned in.
    """

    costs: tuple[PriceLine, ...]
    additions: tuple[PriceLine, ...]
    taxes: tuple[PriceLine, ...]

    @property
    def lines(self) -> tuple[PriceLine, ...]:
        """Every line in the order they add up to the total."""
        return self.costs + self.additions + self.taxes

    @property
    def cost(self) -> Money:
        """Direct cost of the work."""
        return _sum(self.costs)

    @property
    def charge(self) -> Money:
        """What is charged before tax."""
        return _sum(self.costs + self.additions)

    @property
    def total(self) -> Money:
        """What the client pays."""
        return _sum(self.lines)

    @property
    def at_minimum(self) -> bool:
        """Whether the minimum charge decided the price."""
        return any(line.kind is LineKind.MINIMUM for line in self.additions)


def price(work: Work, rates: Rates, *, discount: Decimal = Decimal(0)) -> Price:
    """Return the price of a visit.

    Raises
    ------
    PriceError
        When the discount is not a share from 0 to 1, or the rates lack the product.
    """
    if not 0 <= discount <= 1:
        raise PriceError("discount", f"{discount} is no share", "give one from 0 to 1")
    costs = _costs(work, rates)
    cost = _sum(costs).amount
    additions = []

    def add(kind: LineKind, label: str, base: Decimal, share: Decimal) -> Decimal:
        line = _share(kind, label, base, share, rates.currency)
        if line.amount.amount:
            additions.append(line)
        return base + line.amount.amount

    running = add(LineKind.OVERHEAD, "Overhead", cost, rates.overhead)
    running = add(LineKind.MARKUP, "Mark-up", running, rates.markup)
    running = add(LineKind.DISCOUNT, "Discount", running, -discount)
    short = rates.minimum_charge - running
    if short > 0:
        line = _line(
            LineKind.MINIMUM, "Up to the minimum charge", Decimal(1), "visit", short, rates.currency
        )
        additions.append(line)
        running += line.amount.amount
    tax = _share(LineKind.TAX, rates.tax_label, running, rates.tax, rates.currency)
    return Price(costs=costs, additions=tuple(additions), taxes=(tax,))


def product_use(work: Work, rates: Rates) -> tuple[Decimal, str, Decimal]:
    """Return how much product is used, of what unit, and what one unit costs.

    Raises
    ------
    PriceError
        When the rates do not say what the product costs.
    """
    for row in rates.products:
        if row.product == work.product:
            used = {
                Per.TABLET: Decimal(work.tablets),
                Per.KILOGRAM: Decimal(str(work.powder)),
                Per.LITRE: Decimal(str(work.concentrate)) * 1000,
            }[row.per]
            return used, row.per.value, row.amount
    raise PriceError(work.product, "the rates do not say what it costs", "add a row for it")


def _costs(work: Work, rates: Rates) -> tuple[PriceLine, ...]:
    hours, sprayer_hours = _hours(work.person_time), _hours(work.on_site) * work.sprayers
    road_hours = _hours(work.road_time) * work.crew
    kilometres = Decimal(str(work.distance)) / 1000
    loaded = rates.labour_per_hour * (1 + rates.burden)
    used, unit, each = product_use(work, rates)
    rows = [
        (LineKind.LABOUR, "Labour on site", hours, "person-hour", loaded),
        (LineKind.TRAVEL_TIME, "Time on the road", road_hours, "person-hour", loaded),
        (LineKind.VEHICLE, "Vehicle", kilometres, "km", rates.travel_per_km),
        (LineKind.SOLUTION, "Disinfectant", used, unit, each),
        (LineKind.WEAR, "Protective wear", Decimal(work.crew), "person", rates.wear_per_person),
        (LineKind.EQUIPMENT, "Equipment", sprayer_hours, "sprayer-hour", rates.equipment_per_hour),
    ]
    return tuple(_line(*row, rates.currency) for row in rows if row[2])


def _hours(seconds: Seconds) -> Decimal:
    return Decimal(str(seconds)) / 3600


def _line(
    kind: LineKind, label: str, quantity: Decimal, unit: str, rate: Decimal, currency: str
) -> PriceLine:
    amount = rounded(quantity * rate, currency)
    return PriceLine(kind=kind, label=label, quantity=quantity, unit=unit, rate=rate, amount=amount)


def _share(kind: LineKind, label: str, base: Decimal, share: Decimal, currency: str) -> PriceLine:
    return _line(kind, label, base, "share", share, currency)


def _sum(lines: tuple[PriceLine, ...]) -> Money:
    currency = lines[0].amount.currency
    return Money(sum((line.amount.amount for line in lines), Decimal(0)), currency)
