from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.price.money import Money, rounded
from estimator.quantities.shown_money import shown_money

# CLDR 44 and later, common/main/{en,fr,es}.xml: patterns "¤#,##0.00" and "#,##0.00 ¤", signs of the
# currencies, groups parted by "," in English, by U+202F in French and by "." in Spanish; the space
# before the sign is U+00A0.
CLDR = [
    ("en", "1234567.89", "USD", "$1,234,567.89"),
    ("en", "1234567.89", "EUR", "€1,234,567.89"),
    ("en", "1234567.89", "CAD", "CA$1,234,567.89"),
    ("en", "1234567", "JPY", "¥1,234,567"),
    ("en", "-5.00", "GBP", "-£5.00"),
    ("en", "12.50", "CHF", "CHF\u00a012.50"),
    ("fr", "1234567.89", "EUR", "1\u202f234\u202f567,89\u00a0€"),
    ("fr", "1234567.89", "USD", "1\u202f234\u202f567,89\u00a0$US"),
    ("fr", "12.500", "TND", "12,500\u00a0TND"),
    ("es", "1234567.89", "EUR", "1.234.567,89\u00a0€"),
    ("es", "1234567.89", "MXN", "1.234.567,89\u00a0MXN"),
    ("es", "0.00", "USD", "0,00\u00a0US$"),
]


@pytest.mark.parametrize(("language", "amount", "currency", "shown"), CLDR)
def test_money_is_shown_as_cldr_spells_it(language, amount, currency, shown):
    assert shown_money(Money(Decimal(amount), currency), language) == shown


def test_a_currency_nobody_knows_is_shown_by_its_code():
    assert shown_money(Money(Decimal("3.00"), "XQX")) == "XQX\u00a03.00"


@pytest.mark.parametrize(
    ("amount", "shown"), [("0.00", "0.00"), ("5.10", "5.10"), ("0.4", "0.40"), ("1000", "1,000.00")]
)
def test_cents_that_cldr_leaves_out_are_shown_where_an_amount_has_them(amount, shown):
    # ISO 4217 gives the forint two decimals; CLDR supplementalData.xml, currencyData, none.
    assert shown_money(Money(Decimal(amount), "HUF")) == f"HUF\u00a0{shown}"


@given(
    amount=st.decimals(-(10**12), 10**12, places=5),
    currency=st.sampled_from(["USD", "EUR", "JPY", "BHD", "HUF", "CLP", "COP"]),
    language=st.sampled_from(["en", "fr", "es"]),
)
def test_every_digit_of_a_rounded_amount_is_shown(amount, currency, language):
    money = rounded(amount, currency)

    shown = "".join(letter for letter in shown_money(money, language) if letter.isdigit())
    assert shown == str(abs(money.amount)).replace(".", "")
