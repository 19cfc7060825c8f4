"""The steps from one price to another: they add up to the cent and tell what really differs."""

import re
from decimal import Decimal

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st

from estimator.catalogue.loader import packaged_book
from estimator.errors import MixedCurrencies
from estimator.estimation.chain import estimate
from estimator.estimation.differences import Driver, waterfall
from estimator.estimation.figures import figures_of
from estimator.price.build_up import price
from estimator.price.hours import Hours
from estimator.workflow.quoting import usual_job
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)


def figures(rooms="Office 6 x 8 m, kitchen 3 x 4 m, ceilings 2.6 m", book=BOOK, **job):
    plan, choices = sketch_plan(rooms, book=BOOK), evolve(JOB, **job)
    quote = estimate(plan, book, choices, date="2026-11-25", version="0")
    return figures_of(plan, quote, book, choices)


def with_rates(**rates):
    return evolve(BOOK, rates=evolve(BOOK.rates, **rates))


def told(first, last):
    return {step.driver: step.amount.amount for step in waterfall(first, last).steps}


OFFICE = figures()
CLINIC = figures(
    "Waiting room 5 x 7 m, 3 exam rooms 3 x 4 m, 2 toilets 1.5 x 2 m, ceilings 3 m",
    with_rates(labour_per_hour=Decimal("31.50"), overhead=Decimal("0.3")),
    crew=3,
    distance=42_000.0,
    road_time=3000.0,
    discount=Decimal("0.05"),
)


def test_the_steps_between_two_sites_add_up_to_the_cent():
    steps = told(OFFICE, CLINIC)
    assert sum(steps.values()) == CLINIC.total.amount - OFFICE.total.amount
    assert all(steps.values()), "everything differs between these two"


def test_the_way_back_is_the_way_there_with_its_signs_turned():
    back = told(CLINIC, OFFICE)
    assert {driver: -amount for driver, amount in back.items()} == told(OFFICE, CLINIC)


@pytest.mark.parametrize(
    ("changed", "driver"),
    [
        ({"distance": 30_000.0, "road_time": 1800.0}, Driver.TRAVEL),
        ({"discount": Decimal("0.1")}, Driver.TERMS),
        ({"book": with_rates(overhead=Decimal("0.4"))}, Driver.RATES),
    ],
)
def test_a_single_cause_takes_the_whole_difference(changed, driver):
    other = figures(**changed)
    steps = told(OFFICE, other)
    assert steps.pop(driver) == other.total.amount - OFFICE.total.amount != 0
    assert not any(steps.values())


def test_a_quote_held_against_itself_has_no_steps():
    assert not any(told(OFFICE, OFFICE).values())


def test_a_higher_ceiling_costs_by_height_and_by_nothing_of_size_or_contents():
    steps = told(OFFICE, figures("Office 6 x 8 m, kitchen 3 x 4 m, ceilings 3.4 m"))
    assert steps[Driver.HEIGHT] > 0
    assert steps[Driver.SIZE] == steps[Driver.TRAVEL] == steps[Driver.RATES] == 0


def test_walls_that_are_treated_to_one_height_do_not_cost_by_their_own():
    scope = evolve(JOB.scope, walls_to=2.0)
    low, high = (
        figures(f"Office 6 x 8 m, ceilings {height} m", scope=scope) for height in (2.6, 3.4)
    )
    assert told(low, high)[Driver.HEIGHT] == 0


@pytest.mark.parametrize("nothing", [{"walls_to": 0.0}, {"walls": False, "floors": False}])
def test_a_site_of_which_little_is_treated_can_be_held_against_any(nothing):
    little = figures(scope=evolve(JOB.scope, **nothing))
    assert sum(told(little, CLINIC).values()) == CLINIC.total.amount - little.total.amount


def test_a_site_on_which_nothing_is_treated_can_be_held_against_any():
    outside = figures("Terrace 5 x 8 m")
    assert outside.treated == 0
    assert sum(told(outside, CLINIC).values()) == CLINIC.total.amount - outside.total.amount
    assert not any(told(outside, outside).values())


def test_what_no_rule_of_today_explains_is_put_down_to_the_terms():
    dearer = evolve(OFFICE, total=evolve(OFFICE.total, amount=OFFICE.total.amount + 7))
    assert told(OFFICE, dearer)[Driver.TERMS] == 7


def test_a_product_and_hours_that_only_one_firm_prices_can_be_held_against_the_other():
    theirs = BOOK.rates.products[0]
    poor = with_rates(products=(theirs,), premiums=())
    rich = evolve(BOOK, rates=evolve(BOOK.rates, products=tuple(reversed(BOOK.rates.products))))
    other = figures(book=rich, product=BOOK.products[1].slug, hours=Hours.NIGHT)
    steps = told(figures(book=poor), other)
    assert steps[Driver.STRENGTH] != 0
    assert steps[Driver.TERMS] > 0


def test_two_currencies_are_refused_in_one_sentence():
    prices = tuple(evolve(row, currency="EUR") for row in BOOK.rates.products)
    euros = figures(book=with_rates(currency="EUR", products=prices))
    says = "the two quotes: one is in USD, the other in EUR; choose two of one currency."
    with pytest.raises(MixedCurrencies, match=re.escape(says)):
        waterfall(OFFICE, euros)


areas = st.floats(5, 400)
firms = st.builds(
    lambda wage, markup, minimum, currency: evolve(
        BOOK.rates,
        labour_per_hour=wage,
        markup=markup,
        minimum_charge=minimum,
        currency=currency,
    ),
    st.decimals(10, 60, places=2),
    st.decimals(0, 1, places=3),
    st.decimals(0, 400, places=2),
    st.just("USD"),
)


@st.composite
def sites(draw):
    """Figures that no plan has, but that a price follows from, with the price itself."""
    found = evolve(
        OFFICE,
        floor_area=draw(areas),
        flat=draw(areas),
        upright=draw(areas),
        inside=draw(areas),
        height=draw(st.floats(2, 6)),
        rates=draw(firms),
        work=evolve(
            OFFICE.work,
            tablets=draw(st.integers(0, 500)),
            distance=draw(st.floats(0, 90_000)),
        ),
    )
    return evolve(found, total=priced(found))


def priced(found):
    return price(found.work, found.rates, found.job.conditions).total


@settings(max_examples=15)
@given(sites(), sites())
def test_steps_add_up_between_any_two_quotes(first, last):
    assert sum(told(first, last).values()) == last.total.amount - first.total.amount
