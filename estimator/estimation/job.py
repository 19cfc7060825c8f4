"""The job: what is chosen for one site beyond its plan."""

from decimal import Decimal

from attrs import field, frozen

from estimator.measures import CubicMetresPerSquareMetre, Metres, Seconds, checked
from estimator.surfaces.scope import Scope
from estimator.treatment.label import Additive


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
    claimed_film: CubicMetresPerSquareMetre | None = None
    added: tuple[Additive, ...] = ()
    beside: tuple[Additive, ...] = ()
