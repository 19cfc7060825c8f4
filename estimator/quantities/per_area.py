"""Prices and times by area, as people read them."""

from decimal import Decimal

from estimator.measures import SecondsPerSquareMetre
from estimator.price.money import Money, coin
from estimator.quantities.shown import Units, figures
from estimator.quantities.shown_money import shown_money
from estimator.quantities.tokens import FOOT

_TENTH = Decimal("0.1")


def shown_price_per_area(
    per_square_metre: float, currency: str, units: Units, language: str = "en"
) -> str:
    """Return a price by area, to the coin or to a tenth of it.

    >>> shown_price_per_area(2.2149, "USD", Units.METRIC)
    '$2.21/m²'
    >>> shown_price_per_area(2.2149, "USD", Units.US)
    '$0.206/ft²'
    """
    if units is Units.METRIC:
        amount = Decimal(str(per_square_metre)).quantize(coin(currency))
        return f"{shown_money(Money(amount, currency), language)}/m²"
    amount = Decimal(str(per_square_metre * FOOT**2)).quantize(coin(currency) * _TENTH)
    return f"{shown_money(Money(amount, currency), language)}/ft²"


def shown_time_per_area(value: SecondsPerSquareMetre, units: Units) -> str:
    """Return the time that an area takes.

    >>> shown_time_per_area(19.2, Units.METRIC), shown_time_per_area(19.2, Units.US)
    ('19.2 s/m²', '1.78 s/ft²')
    """
    if units is Units.METRIC:
        return f"{figures(value)} s/m²"
    return f"{figures(value * FOOT**2)} s/ft²"
