"""A visit whose only cost is known, so that published examples can be set before the build-up."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from estimator.price.build_up import Price, Work, price
from estimator.price.conditions import Conditions
from estimator.price.rates import Per, ProductPrice, Rates
from estimator.price.taxes import Tax, TaxPlace

TOLD = {"source": "invented", "as_of": "2026"}


def _rates(cost: str, *taxes: Tax, **changes: Any) -> Rates:
    """Return rates by which a visit of one person costs so much and nothing is put on it."""
    nothing = ("burden", "equipment_per_hour", "travel_per_km", "overhead", "minimum_charge")
    usual = dict.fromkeys(nothing, Decimal(0)) | {
        "currency": "CAD",
        "labour_per_hour": Decimal(0),
        "wear_per_person": Decimal(cost),
        "place": "here",
        "places": (TaxPlace(slug="here", label="Here", taxes=taxes, **TOLD),),
        "products": (ProductPrice(product="p", per=Per.LITRE, amount=Decimal(0), **TOLD),),
    }
    return Rates(**(usual | TOLD | changes))


@pytest.fixture(scope="session")
def plain_rates() -> Callable[..., Rates]:
    """Rates by which a visit of one person costs so much and nothing is put on it."""
    return _rates


@pytest.fixture
def visit() -> Callable[..., Price]:
    """Price a visit of a known cost."""

    def priced(
        cost: str, *taxes: Tax, conditions: Conditions | None = None, **changes: Any
    ) -> Price:
        work = Work(crew=1, person_time=0.0, on_site=0.0, product="p")
        return price(work, _rates(cost, *taxes, **changes), conditions)

    return priced
