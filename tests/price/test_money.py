from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import MixedCurrencies, PriceError
from estimator.price.money import Money, rounded


@pytest.mark.parametrize(
    ("exact", "currency", "coins"),
    [
        # ISO 80000-1:2009, annex B, rule B: a half is rounded away from zero (from memory).
        ("12.255", "USD", "12.26"),
        ("12.254", "USD", "12.25"),
        ("12.245", "EUR", "12.25"),
        # ISO 4217, minor units: none for the yen, three for the dinar (from memory).
        ("1249.5", "JPY", "1250"),
        ("1.2345", "KWD", "1.235"),
    ],
)
def test_an_amount_is_rounded_half_up_to_the_smallest_coin(exact, currency, coins):
    assert rounded(Decimal(exact), currency).amount == Decimal(coins)


@given(st.decimals(-(10**9), 10**9, allow_nan=False))
def test_rounding_moves_an_amount_by_half_a_coin_at_most(amount):
    assert abs(rounded(amount, "USD").amount - amount) <= Decimal("0.005")


def test_currencies_do_not_mix():
    with pytest.raises(MixedCurrencies, match="USD and EUR cannot be added"):
        Money(Decimal(1), "USD") + Money(Decimal(1), "EUR")


def test_no_amount_is_not_a_number():
    with pytest.raises(PriceError):
        Money(Decimal("NaN"), "USD")


def test_an_amount_reads_as_money():
    assert str(Money(Decimal("1234.5"), "USD")) == "USD 1,234.50"
