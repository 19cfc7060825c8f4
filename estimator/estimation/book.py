"""The book: everything the firm knows that is not about one site."""

from attrs import field, frozen

from estimator.price.rates import Rates
from estimator.surfaces.book import SurfaceBook
from estimator.treatment.drying import Drying
from estimator.treatment.film import Film
from estimator.treatment.product import Product
from estimator.treatment.zone import Zone
from estimator.visit.equipment import Pace, SiteTimes, Sprayer


@frozen(kw_only=True)
class Book:
    """Furniture, room uses, strengths, films, products, sprayers, paces and rates."""

    surfaces: SurfaceBook
    zones: tuple[Zone, ...] = field(converter=tuple)
    films: tuple[Film, ...] = field(converter=tuple)
    drying: Drying
    products: tuple[Product, ...] = field(converter=tuple)
    sprayers: tuple[Sprayer, ...] = field(converter=tuple)
    paces: tuple[Pace, ...] = field(converter=tuple)
    site_times: SiteTimes
    rates: Rates
