"""Taxes on the charge, place by place."""

from decimal import Decimal

from attrs import frozen

from estimator.price.amounts import priced


@frozen(kw_only=True, field_transformer=priced)
class Tax:
    """A tax as a share of the charge.

    Parameters
    ----------
    label
        Its name on papers.
    on_taxes
        Whether it is reckoned on the charge together with the taxes before it.
    """

    label: str
    share: Decimal
    on_taxes: bool = False


@frozen(kw_only=True)
class TaxPlace:
    """A place, and the taxes charged there in the order they are reckoned in."""

    slug: str
    label: str
    taxes: tuple[Tax, ...]
    source: str
    as_of: str
