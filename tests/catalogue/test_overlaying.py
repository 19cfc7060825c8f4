from decimal import Decimal
from pathlib import Path

import pytest

from estimator.catalogue.loader import book_from_text
from estimator.errors import BadEntries, MixedCurrencies
from estimator.price.rates import ProductPrice

TOLD = 'source = "ours"\nas_of = "2026-11"\n'
EUROS = """
currency = "EUR"
labour_per_hour = 24
wear_per_person = 12
equipment_per_hour = 8
travel_per_km = 0.5
minimum_charge = 150
"""


def firm(text):
    return book_from_text("firm.toml", text, Path())


def test_a_margin_takes_the_place_of_the_packaged_mark_up_and_back():
    by_margin = firm(f"[rates]\nmargin = 0.2\n{TOLD}").rates
    assert (by_margin.markup, by_margin.margin) == (0, Decimal("0.2"))
    by_markup = firm(f"[rates]\nmarkup = 0.4\n{TOLD}").rates
    assert (by_markup.markup, by_markup.margin) == (Decimal("0.4"), 0)


def test_a_new_currency_leaves_no_amount_in_the_old_one():
    says = "EUR takes the place of USD, but travel_per_km, minimum_charge would still be in USD"
    with pytest.raises(BadEntries, match=says):
        firm(f"[rates]\n{EUROS.split('travel')[0]}{TOLD}")
    assert firm(f"[rates]{EUROS}{TOLD}").rates.currency == "EUR"


def test_a_product_priced_in_the_old_currency_is_refused_where_it_is_used():
    rates = firm(f"[rates]{EUROS}{TOLD}[prices.tablets_1500]\namount = 0.3\n{TOLD}").rates
    priced = rates.product_price("tablets_1500")
    assert isinstance(priced, ProductPrice)
    assert (priced.amount, priced.currency) == (Decimal("0.3"), "")
    says = "powder_60: its price is in USD and the rates are in EUR; give its price in EUR"
    with pytest.raises(MixedCurrencies, match=says):
        rates.product_price("powder_60")
