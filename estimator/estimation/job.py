"""The job: what is chosen for one site beyond its plan."""

from decimal import Decimal

from attrs import field, frozen

from estimator.errors import PriceError
from estimator.measures import CubicMetresPerSquareMetre, Metres, Seconds, checked
from estimator.price.conditions import Conditions
from estimator.price.hours import Hours
from estimator.price.recurrence import Every
from estimator.surfaces.scope import Scope
from estimator.treatment.label import Additive


@frozen(kw_only=True)
class Alternative:
    """Another scope offered in the same quote; named by what it covers where nobody named it."""

    scope: Scope
    name: str = ""


MOST_ALTERNATIVES = 8
"""A client who must choose among more chooses none."""


@frozen(kw_only=True, field_transformer=checked)
class Job:
    """Choices for one visit.

    Parameters
    ----------
    product, sprayer
        Slugs of the book.
    crew
        How many people come.
    sprayers
        How many of them spray, each with a sprayer; None for one of every two.
    distance, road_time
        Driven there and back, and how long that takes.
    discount
        Share taken off before tax.
    hours
        The hours the visit falls in, which may add to the wage.
    visits, every
        Length of the term, and how often visits come.
    place
        Slug of the place whose taxes are charged; empty for that of the rates.
    alternatives
        Other scopes offered beside this one.
    fixed
        Whether the client is shown one price, rather than the range it may come to.
    claimed_film
        Film that an advertised coverage comes to, to be held against the contact times.
    added
        What somebody wants to put into the tank with the product; refused, with the reason.
    beside
        What else is used on the site on the same visit; refused where the two must not meet.
    """

    product: str
    sprayer: str
    crew: int = 2
    sprayers: int | None = None
    scope: Scope = field(factory=Scope)
    distance: Metres = 0.0
    road_time: Seconds = 0.0
    discount: Decimal = Decimal(0)
    hours: Hours = Hours.DAY
    visits: int = 1
    every: Every | None = None
    place: str = ""
    alternatives: tuple[Alternative, ...] = ()
    fixed: bool = True
    claimed_film: CubicMetresPerSquareMetre | None = None
    added: tuple[Additive, ...] = ()
    beside: tuple[Additive, ...] = ()

    def __attrs_post_init__(self) -> None:
        if len(self.alternatives) > MOST_ALTERNATIVES:
            raise PriceError(
                "options",
                f"{len(self.alternatives)} stand beside the first",
                f"offer at most {MOST_ALTERNATIVES}",
            )

    @property
    def conditions(self) -> Conditions:
        """What is agreed that changes the price of a visit."""
        return Conditions(
            hours=self.hours, discount=self.discount, visits=self.visits, place=self.place
        )
