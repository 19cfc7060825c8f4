"""Amounts and shares of rates, checked where they are made."""

from decimal import Decimal
from typing import Any

from attrs import Attribute

from estimator.errors import PriceError


def priced(_cls: type, attributes: "list[Attribute[Any]]") -> "list[Attribute[Any]]":
    """Give every decimal field a check of its value (attrs hook)."""
    return [
        attribute.evolve(validator=_not_negative) if attribute.type is Decimal else attribute
        for attribute in attributes
    ]


def _not_negative(instance: object, attribute: "Attribute[Any]", value: Decimal) -> None:
    if not value.is_finite() or value < 0:
        raise PriceError(
            f"{type(instance).__name__}.{attribute.name}",
            f"must be at least 0 (got {value})",
            "give an amount or share of at least 0",
        )
