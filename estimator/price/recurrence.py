"""Visits that come again, and what a longer term takes off each."""

from collections.abc import Iterable
from decimal import Decimal
from enum import StrEnum

from attrs import frozen

from estimator.errors import PriceError
from estimator.price.amounts import priced


class Every(StrEnum):
    """How often visits come."""

    DAY = "day"
    WEEK = "week"
    FORTNIGHT = "two weeks"
    MONTH = "month"
    QUARTER = "quarter"
    HALF_YEAR = "half-year"
    YEAR = "year"


@frozen(kw_only=True, field_transformer=priced)
class TermDiscount:
    """What is taken off every visit of a term of so many visits or more."""

    slug: str
    visits: int
    discount: Decimal
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if self.visits < 2:
            raise PriceError(
                f"term discount {self.slug}", "a term has at least 2 visits", "give 2 or more"
            )
        if self.discount >= 1:
            raise PriceError(
                f"term discount {self.slug}",
                f"{self.discount:.0%} off leaves nothing to charge",
                "give a share below 1",
            )


def term_discount(rows: Iterable[TermDiscount], visits: int) -> Decimal:
    """Return the share taken off for a term: that of the longest row it reaches."""
    reached = [row for row in rows if row.visits <= visits]
    return max(reached, key=lambda row: row.visits).discount if reached else Decimal(0)
