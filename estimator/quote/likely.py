"""How far the total may lie from the price quoted."""

from attrs import frozen

from estimator.price.money import Money


@frozen(kw_only=True)
class Range:
    """Totals that the price stays below with a chance of 10, 50 and 90 %."""

    p10: Money
    p50: Money
    p90: Money
