"""What is agreed with a client that changes the price of a visit."""

from decimal import Decimal

from attrs import frozen

from estimator.errors import PriceError
from estimator.price.hours import Hours

MOST_VISITS = 1000


@frozen(kw_only=True)
class Conditions:
    """Hours, discount, length of the term and place of a visit.

    Parameters
    ----------
    discount
        Share taken off before tax.
    visits
        How many visits the term has.
    place
        Slug of the place whose taxes are charged; empty for that of the rates.
    """

    hours: Hours = Hours.DAY
    discount: Decimal = Decimal(0)
    visits: int = 1
    place: str = ""

    def __attrs_post_init__(self) -> None:
        if not 0 <= self.discount <= 1:
            raise PriceError("discount", f"{self.discount} is no share", "give one from 0 to 1")
        if not 1 <= self.visits <= MOST_VISITS:
            raise PriceError(
                "visits", f"there are {self.visits}", f"give from 1 to {MOST_VISITS:,}"
            )
