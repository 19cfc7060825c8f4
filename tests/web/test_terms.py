"""What is agreed with the client, chosen on the quote's page."""

from decimal import Decimal

import pytest
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.price.charging import LineKind
from estimator.price.hours import Hours
from estimator.price.recurrence import Every


@pytest.fixture
def quote(opened_at) -> AppTest:
    app = opened_at("quote")
    assert not app.exception
    return app


def kinds(app):
    return {line.kind for line in quote_of(app).price.lines}


def test_hours_term_place_and_discount_are_priced_at_once(quote):
    quote.button_group(key="terms-hours-0").set_value(Hours.NIGHT).run()
    assert LineKind.PREMIUM in kinds(quote)
    quote.number_input(key="terms-visits-0").set_value(12).run()
    quote.selectbox(key="terms-every-0").set_value(Every.MONTH).run()
    assert LineKind.TERM_DISCOUNT in kinds(quote)
    assert quote_of(quote).terms.every == "month"
    quote.selectbox(key="terms-place-0").set_value("exempt").run()
    assert LineKind.TAX not in kinds(quote)
    quote.number_input(key="terms-discount-0").set_value(5.0).run()
    assert session_of(quote).work.job.discount == Decimal("0.05")
    quote.button_group(key="terms-fixed-0").set_value(False).run()
    assert not quote_of(quote).terms.fixed
    assert not quote.exception


def test_a_charge_below_cost_is_said_to_the_firm(quote):
    quote.number_input(key="terms-discount-0").set_value(90.0).run()
    assert any("every visit loses money" in warning.value for warning in quote.warning)


def test_an_option_is_offered_and_taken_out_again(quote):
    quote.text_input(key="option-walls-0").set_value("2 m").run()
    quote.button(key="option-add-0").click().run()
    assert not quote.exception
    first, other = quote_of(quote).options
    assert other.name == "With walls to 2 m"
    assert other.price.total.amount < first.price.total.amount
    quote.button(key="option-out-0-1").click().run()
    assert quote_of(quote).options == ()


def test_an_option_of_the_book_is_offered_under_its_name(quote):
    quote.selectbox(key="option-usual-0-0").set_value("ceilings").run()
    assert not quote.exception
    first, other = quote_of(quote).options
    assert other.name == "With ceilings"
    assert other.price.total.amount > first.price.total.amount
    assert "With ceilings" not in quote.selectbox(key="option-usual-1-1").options


def test_an_option_that_covers_nothing_is_refused(quote):
    quote.button_group(key="option-parts-0").set_value([]).run()
    quote.button(key="option-add-0").click().run()
    assert any("it covers nothing" in error.value for error in quote.error)
    assert session_of(quote).work.job.alternatives == ()
