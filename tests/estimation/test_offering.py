from decimal import Decimal

import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.errors import NoSuchEntry, PriceError
from estimator.estimation.chain import estimate
from estimator.estimation.job import MOST_ALTERNATIVES, Alternative, Job
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.price.charging import LineKind
from estimator.price.hours import Hours
from estimator.price.recurrence import Every
from estimator.surfaces.scope import Scope

BOOK = packaged_book()
JOB = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug)
PLAN = Plan(
    title="Larkfield cafe",
    rooms=(Room(id="r", name="Cafe", use="restaurant_kitchen", outline=rectangle(8, 6)),),
)


def quoted(date="2026-01-31", book=BOOK, **choices):
    return estimate(PLAN, book, evolve(JOB, **choices), date=date, version="0")


def test_an_offer_holds_for_the_days_of_the_book_and_asks_its_deposit():
    terms = quoted().terms
    total = quoted().price.total.amount
    assert terms.valid_until == "2026-03-02"  # 30 days from 31 January 2026
    assert abs(terms.deposit.amount - Decimal("0.3") * total) <= Decimal("0.005")
    assert (terms.visits, terms.every, terms.term_discount, terms.fixed) == (1, None, 0, True)
    assert terms.term_total.amount == total


def test_a_term_of_visits_costs_less_each_and_is_told_as_a_whole():
    once, monthly = quoted(), quoted(visits=12, every=Every.MONTH, fixed=False)
    assert monthly.terms.term_discount == Decimal("0.10")
    assert monthly.terms.every == "month"
    assert not monthly.terms.fixed
    assert monthly.terms.term_total.amount == 12 * monthly.price.total.amount
    (line,) = (one for one in monthly.price.additions if one.kind is LineKind.TERM_DISCOUNT)
    assert line.label == "Discount for 12 visits"
    assert monthly.price.total.amount < once.price.total.amount


def test_options_are_named_by_what_they_cover_and_priced_by_the_whole_chain():
    first = Scope(walls=False, doors=False, reveals=False)
    walls, all_of_it = evolve(first, walls=True, walls_to=2.0), Scope(ceilings=True, glass=True)
    quote = quoted(
        scope=first,
        alternatives=(Alternative(scope=walls), Alternative(scope=all_of_it, name="Everything")),
    )
    assert [option.name for option in quote.options] == [
        "Floors, furniture and touch points",
        "With walls to 2 m",
        "Everything",
    ]
    assert quote.options[0].price == quote.price
    assert quote.options[0].range == quote.range
    for option, scope in zip(quote.options, (first, walls, all_of_it), strict=True):
        alone = quoted(scope=scope)
        assert option.scope == scope
        assert option.price == alone.price
        assert (option.treated, option.volume) == (alone.schedule.treated, alone.solution.volume)
        assert option.on_site == alone.timetable.on_site
    totals = [option.price.total.amount for option in quote.options]
    assert totals == sorted(totals)


def test_without_alternatives_there_is_nothing_to_choose():
    assert quoted().options == ()


@pytest.mark.parametrize(
    ("choices", "says"),
    [
        ({"visits": 0}, "visits: there are 0; give from 1 to 1,000"),
        ({"date": "tomorrow"}, "tomorrow: no offer can be dated so; write the day"),
        ({"date": "9999-12-31"}, "9999-12-31: no offer can be dated so"),
        ({"discount": Decimal("-0.1")}, "discount: -0.1 is no share"),
    ],
)
def test_impossible_terms_are_refused_in_a_sentence(choices, says):
    with pytest.raises(PriceError, match=says):
        quoted(**choices)


def test_hours_and_places_that_the_book_lacks_are_refused():
    bare = evolve(BOOK, rates=evolve(BOOK.rates, premiums=()))
    with pytest.raises(NoSuchEntry, match="night premium: the book does not say it"):
        quoted(book=bare, hours=Hours.NIGHT)
    with pytest.raises(NoSuchEntry, match="choose one of its places \\(larkfield, exempt\\)"):
        quoted(place="atlantis")
    assert quoted(place="exempt").price.taxes == ()


def test_more_options_than_a_client_can_weigh_are_refused():
    with pytest.raises(PriceError, match="offer at most 8"):
        quoted(alternatives=(Alternative(scope=Scope()),) * (MOST_ALTERNATIVES + 1))
