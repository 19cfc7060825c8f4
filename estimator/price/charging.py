"""How a charge follows from the cost of a visit: what is put on it, in which order.

charge = max(minimum, cost × (1 + overhead) × (1 + mark-up) × (1 − discount) × (1 − term discount)).
A margin, a share of the charge, is a mark-up of margin ÷ (1 − margin), a share of the cost (common
practice in accounting). A tax is a share of the charge, or of the charge and the taxes before it.
"""

from decimal import Decimal
from enum import StrEnum

from attrs import frozen

from estimator.price.conditions import Conditions
from estimator.price.money import Money, coin
from estimator.price.rates import Rates
from estimator.price.recurrence import term_discount
from estimator.price.rounding import Halves, Rounded
from estimator.price.taxes import Tax


class LineKind(StrEnum):
    """What a line of the build-up is for."""

    LABOUR = "labour"
    TRAVEL_TIME = "travel time"
    PREMIUM = "premium"
    VEHICLE = "vehicle"
    SOLUTION = "solution"
    WEAR = "protective wear"
    EQUIPMENT = "equipment"
    OVERHEAD = "overhead"
    MARKUP = "mark-up"
    DISCOUNT = "discount"
    TERM_DISCOUNT = "term discount"
    MINIMUM = "up to the minimum charge"
    TAX = "tax"
    ROUNDING = "rounding"


@frozen(kw_only=True)
class Addition:
    """A share put on all before it, or taken off."""

    kind: LineKind
    label: str
    share: Decimal


@frozen(kw_only=True)
class Charging:
    """What is put on the cost of a visit.

    Parameters
    ----------
    step
        What the charge or the total is rounded to.
    """

    additions: tuple[Addition, ...]
    minimum: Decimal
    taxes: tuple[Tax, ...]
    step: Decimal
    halves: Halves
    rounds: Rounded

    @property
    def taxed(self) -> Decimal:
        """The charge with its taxes as a multiple of it."""
        factor = Decimal(1)
        for tax in self.taxes:
            factor += tax.share * (factor if tax.on_taxes else 1)
        return factor


def charging(rates: Rates, conditions: Conditions) -> Charging:
    """Return what the rates put on the cost of a visit on these conditions.

    Raises
    ------
    NoSuchEntry
        When the book does not know the place whose taxes are charged.
    """
    term = term_discount(rates.term_discounts, conditions.visits)
    profit = Addition(kind=LineKind.MARKUP, label="Mark-up", share=rates.markup)
    if rates.margin:
        label = f"Margin, {(rates.margin * 100).normalize():f} % of the charge"
        profit = Addition(kind=LineKind.MARKUP, label=label, share=markup_of(rates.margin))
    return Charging(
        additions=(
            Addition(kind=LineKind.OVERHEAD, label="Overhead", share=rates.overhead),
            profit,
            Addition(kind=LineKind.DISCOUNT, label="Discount", share=-conditions.discount),
            Addition(
                kind=LineKind.TERM_DISCOUNT,
                label=f"Discount for {conditions.visits} visits",
                share=-term,
            ),
        ),
        minimum=rates.minimum_charge,
        taxes=rates.tax_place(conditions.place).taxes,
        step=rates.rounding_step or coin(rates.currency),
        halves=rates.rounding_halves,
        rounds=rates.rounding_of,
    )


def markup_of(margin: Decimal) -> Decimal:
    """Return the mark-up on the cost that earns a margin below 1 of the charge.

    >>> markup_of(Decimal("0.2"))
    Decimal('0.25')
    """
    return margin / (1 - margin)


def margin_of(markup: Decimal) -> Decimal:
    """Return the margin of the charge that a mark-up on the cost earns.

    >>> margin_of(Decimal("0.25"))
    Decimal('0.2')
    """
    return markup / (1 + markup)


def margin(charge: Money, full_cost: Money) -> Decimal:
    """Return what a charge leaves after cost and overhead, as a share of it; below 0 a loss.

    >>> margin(Money(Decimal(125), "USD"), Money(Decimal(100), "USD"))
    Decimal('0.2')
    """
    return (charge.amount - full_cost.amount) / charge.amount if charge.amount else Decimal(0)
