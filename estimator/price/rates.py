"""What the firm pays and charges."""

import re
from collections.abc import Iterator
from decimal import Decimal
from enum import StrEnum

from attrs import frozen

from estimator.errors import BadRates, MixedCurrencies, NoSuchEntry, PriceError
from estimator.price.amounts import priced
from estimator.price.hours import Hours, Premium
from estimator.price.money import coin
from estimator.price.recurrence import TermDiscount
from estimator.price.rounding import Halves, Rounded
from estimator.price.taxes import TaxPlace

MOST_DAYS = 3650
"""Ten years: no offer holds longer."""


class Per(StrEnum):
    """What a product is sold by."""

    TABLET = "tablet"
    KILOGRAM = "kg"
    LITRE = "L"


@frozen(kw_only=True, field_transformer=priced)
class ProductPrice:
    """What the firm pays for one unit of a product.

    Parameters
    ----------
    currency
        That of the amount; empty for that of the rates.
    """

    product: str
    per: Per
    amount: Decimal
    currency: str = ""
    source: str
    as_of: str


@frozen(kw_only=True, field_transformer=priced)
class Rates:
    """The firm's rates, all in one currency.

    Parameters
    ----------
    labour_per_hour
        Wage of one crew member.
    burden
        Employer's taxes, insurance and leave as a share of the wage.
    wear_per_person
        Gloves, goggles, respirator cartridges and overalls of one person on one visit.
    equipment_per_hour
        One sprayer, its charger and vehicle kit while on site.
    travel_per_km
        Vehicle cost; the time on the road is paid as labour.
    overhead
        Office, insurance and training as a share of the direct cost.
    markup, margin
        What is earned: a share of the cost with overhead, or else a share of the charge.
    minimum_charge
        Least charge for a visit before tax.
    place
        Slug of the place whose taxes are charged where the job names no other.
    rounding_step
        What the price is rounded to; 0 for the smallest coin.
    rounding_halves
        Where a half goes, in every rounding of the price.
    rounding_of
        Whether the charge or the total is rounded to the step.
    valid_days
        How many days an offer holds.
    deposit
        Share of the first visit's total that is paid ahead.
    """

    currency: str
    labour_per_hour: Decimal
    burden: Decimal
    wear_per_person: Decimal
    equipment_per_hour: Decimal
    travel_per_km: Decimal
    overhead: Decimal
    markup: Decimal = Decimal(0)
    margin: Decimal = Decimal(0)
    minimum_charge: Decimal
    place: str
    rounding_step: Decimal = Decimal(0)
    rounding_halves: Halves = Halves.UP
    rounding_of: Rounded = Rounded.TOTAL
    valid_days: int = 30
    deposit: Decimal = Decimal(0)
    products: tuple[ProductPrice, ...]
    premiums: tuple[Premium, ...] = ()
    term_discounts: tuple[TermDiscount, ...] = ()
    places: tuple[TaxPlace, ...] = ()
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if wrong := tuple(self._wrong()):
            first, more = wrong[0], tuple(f"{one.where}: {one.problem}" for one in wrong[1:])
            raise BadRates(first.where, first.problem, first.remedy, more)

    def _wrong(self) -> Iterator[PriceError]:
        """Yield everything that contradicts itself."""
        if not re.fullmatch("[A-Z]{3}", self.currency):
            yield PriceError(
                "currency", f"“{self.currency}” is none", "give the three letters of ISO 4217"
            )
        if self.margin >= 1:
            yield PriceError(
                "margin",
                f"{self.margin:.0%} of the charge would leave nothing of it to pay the cost from",
                "give a share below 1, such as 0.2 for 20 %",
            )
        if self.markup and self.margin:
            yield PriceError(
                "mark-up and margin", "both are given", "give one of them and set the other to 0"
            )
        if self.deposit > 1:
            yield PriceError("deposit", f"{self.deposit:.0%} is more than all", "give at most 1")
        if self.rounding_step % coin(self.currency):
            yield PriceError(
                "rounding step",
                f"{self.rounding_step} is no whole number of coins of {coin(self.currency)}",
                "give a multiple of the smallest coin",
            )
        if self.valid_days > MOST_DAYS:
            yield PriceError(
                "valid days", f"{self.valid_days:,} are too many", f"give at most {MOST_DAYS:,}"
            )

    def premium(self, hours: Hours) -> Decimal:
        """Return what the hours add to labour as a share of it; nothing by day.

        Raises
        ------
        NoSuchEntry
            When the book does not say it.
        """
        for row in self.premiums:
            if row.hours is hours:
                return row.share
        if hours is Hours.DAY:
            return Decimal(0)
        raise NoSuchEntry(
            f"{hours} premium", "the book does not say it", f"add a row [premiums.{hours}]"
        )

    def tax_place(self, slug: str = "") -> TaxPlace:
        """Return the place of a slug, or the usual one.

        Raises
        ------
        NoSuchEntry
            When the book has no such place.
        """
        wanted = slug or self.place
        for place in self.places:
            if place.slug == wanted:
                return place
        known = ", ".join(place.slug for place in self.places) or "none"
        raise NoSuchEntry(
            wanted,
            "the book does not say which taxes are charged there",
            f"choose one of its places ({known}) or add a row [places.{wanted}]",
        )

    def product_price(self, product: str) -> ProductPrice:
        """Return what a product costs.

        Raises
        ------
        PriceError
            When the rates do not say it.
        MixedCurrencies
            When they say it in another currency.
        """
        for row in self.products:
            if row.product != product:
                continue
            if row.currency not in ("", self.currency):
                raise MixedCurrencies(
                    product,
                    f"its price is in {row.currency} and the rates are in {self.currency}",
                    f"give its price in {self.currency}",
                )
            return row
        raise PriceError(product, "the rates do not say what it costs", "add a row for it")
