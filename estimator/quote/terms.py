"""The terms of an offer: how long it holds, what is paid ahead, and for how many visits."""

from decimal import Decimal

from attrs import frozen

from estimator.price.money import Money


@frozen(kw_only=True)
class Terms:
    """On what terms the price is offered.

    Parameters
    ----------
    valid_until
        Last day the offer holds, ISO 8601.
    deposit
        Paid before the first visit; part of its total, tax included.
    visits
        How many visits the term has; 1 for a single visit.
    every
        How often they come, such as "month"; None where nobody said.
    term_total
        What the client pays for all visits of the term.
    term_discount
        Share taken off every visit for the length of the term.
    fixed
        Whether the client is shown one price, rather than the range it may come to.
    """

    valid_until: str
    deposit: Money
    visits: int
    every: str | None
    term_total: Money
    term_discount: Decimal
    fixed: bool
