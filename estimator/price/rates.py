"""What the firm pays and charges."""

from decimal import Decimal
from enum import StrEnum
from typing import Any

from attrs import Attribute, frozen

from estimator.errors import PriceError


class Per(StrEnum):
    """What a product is sold by."""

    TABLET = "tablet"
    KILOGRAM = "kg"
    LITRE = "L"


def _not_negative(instance: object, attribute: "Attribute[Any]", value: Decimal) -> None:
    if not value.is_finite() or value < 0:
        raise PriceError(
            f"{type(instance).__name__}.{attribute.name}",
            f"must be at least 0 (got {value})",
            "give an amount or share of at least 0",
        )


def _priced(_cls: type, attributes: "list[Attribute[Any]]") -> "list[Attribute[Any]]":
    """Give every decimal field a check of its value (attrs hook)."""
    return [
        attribute.evolve(validator=_not_negative) if attribute.type is Decimal else attribute
        for attribute in attributes
    ]


@frozen(kw_only=True, field_transformer=_priced)
class ProductPrice:
    """What the firm pays for one unit of a product."""

    product: str
    per: Per
    amount: Decimal
    source: str
    as_of: str


@frozen(kw_only=True, field_transformer=_priced)
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
        One sprayer with charger and vehicle kit, while on site.
    travel_per_km
        Vehicle cost; the time on the road is paid as labour.
    overhead
        Office, insurance and training as a share of the direct cost.
    markup
        Added to cost with overhead, as a share of it.
    minimum_charge
        Least charge for a visit before tax.
    tax
        Sales tax or VAT as a share of the charge.
    """

    currency: str
    labour_per_hour: Decimal
    burden: Decimal
    wear_per_person: Decimal
    equipment_per_hour: Decimal
    travel_per_km: Decimal
    overhead: Decimal
    markup: Decimal
    minimum_charge: Decimal
    tax: Decimal
    tax_label: str
    products: tuple[ProductPrice, ...]
    source: str
    as_of: str
