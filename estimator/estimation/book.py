"""The book: everything the firm knows that is not about one site."""

from typing import TypeVar

from attrs import field, frozen

from estimator.errors import NoSuchEntry
from estimator.estimation.spread import Spread
from estimator.price.rates import Rates
from estimator.quote.firm import Firm
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.usual_option import UsualOption
from estimator.treatment.air import Air
from estimator.treatment.film import Film
from estimator.treatment.measuring import Measuring
from estimator.treatment.product import Product
from estimator.treatment.zone import Zone
from estimator.treatment.zoning import ZoneRule
from estimator.visit.equipment import Pace, SiteTimes, Sprayer, WorkingTime
from estimator.visit.precautions import Precaution

Row = TypeVar("Row", Product, Sprayer)


@frozen(kw_only=True)
class Book:
    """Furniture, uses, strengths, films, products, sprayers, paces, rates and the firm itself."""

    surfaces: SurfaceBook
    zones: tuple[Zone, ...]
    zoning: tuple[ZoneRule, ...] = ()
    films: tuple[Film, ...]
    air: Air
    measuring: Measuring
    products: tuple[Product, ...]
    sprayers: tuple[Sprayer, ...]
    paces: tuple[Pace, ...]
    precautions: tuple[Precaution, ...]
    site_times: SiteTimes
    working_time: WorkingTime
    spread: Spread
    rates: Rates
    options: tuple[UsualOption, ...] = ()
    firm: Firm = field(factory=Firm)

    def product(self, slug: str) -> Product:
        """Return the product of that slug.

        Raises
        ------
        NoSuchEntry
            When the book has none.
        """
        return _found(self.products, slug, "product")

    def sprayer(self, slug: str) -> Sprayer:
        """Return the sprayer of that slug.

        Raises
        ------
        NoSuchEntry
            When the book has none.
        """
        return _found(self.sprayers, slug, "sprayer")


def _found(rows: tuple[Row, ...], slug: str, kind: str) -> Row:
    for row in rows:
        if row.slug == slug:
            return row
    raise NoSuchEntry(slug, f"the book has no such {kind}", "choose one of its rows or add one")
