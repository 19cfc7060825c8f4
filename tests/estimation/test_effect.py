from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve, fields

from estimator.catalogue.loader import TABLES, book_from_text, packaged_book
from estimator.estimation.answers import with_film
from estimator.estimation.chain import estimate
from estimator.estimation.effect import Change, effect, effect_on_price
from estimator.estimation.figures import figures_of
from estimator.estimation.job import Job
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.price.hours import Hours

BOOK = packaged_book()
JOB = Job(product=BOOK.products[0].slug, sprayer=BOOK.sprayers[0].slug, hours=Hours.EVENING)
PLAN = Plan(
    title="Larkfield cafe",
    rooms=(Room(id="r", name="Cafe", use="restaurant_kitchen", outline=rectangle(8, 6)),),
)
TOLD = 'source = "ours"\nas_of = "2026-11"\n'


def changed(text):
    return Change(before=BOOK, after=book_from_text("firm.toml", text + TOLD, Path()))


def quoted(book):
    return estimate(PLAN, book, JOB, date="2026-11-25", version="0")


def effect_of(change, book=BOOK):
    total = quoted(book).price.total
    return effect(PLAN, book, JOB, change, date="2026-11-25", total=total)


def test_an_open_quote_comes_to_what_the_changed_book_makes_of_it():
    change = changed("[rates]\nlabour_per_hour = 40\n")
    found = effect_of(change)
    assert found.before == quoted(BOOK).price.total
    assert found.after == quoted(change.after).price.total
    assert found.after.amount > found.before.amount


def test_a_change_that_touches_nothing_of_a_quote_leaves_it_alone():
    found = effect_of(changed('[paces.gym]\nspray = "20 m^2/min"\n'))
    assert found.after == found.before


@pytest.mark.parametrize(
    "text",
    [
        "[rates]\nmargin = 0.3\nrounding_step = 5\n",
        "[premiums.evening]\nshare = 0.9\n",
        "[prices.tablets_1500]\namount = 2\n",
        '[places.larkfield]\ntaxes = [{label = "Tax", share = 0.2}]\n',
        "[rates]\nminimum_charge = 5000\n",
    ],
)
def test_prices_alone_are_reckoned_from_the_figures_with_the_same_end(text):
    change = changed(text)
    figures = figures_of(PLAN, quoted(BOOK), BOOK, JOB)
    assert change.of_prices_only
    assert effect_on_price(figures, change) == effect_of(change)
    assert effect_of(change).after != effect_of(change).before


def test_a_change_of_pace_is_more_than_one_of_prices():
    assert not changed('[paces."*"]\nspray = "20 m^2/min"\n').of_prices_only


def test_what_was_told_for_one_job_outlives_a_change_of_the_book():
    told = with_film(BOOK, 55e-6)
    change = changed(f"[films.overhead]\nloss = 0.4\n{TOLD}[rates]\nburden = 0.5\n")
    made = change.made_in(told)
    films = {film.lie: film for film in made.films}
    assert films["level"].volume == 55e-6
    assert films["overhead"].loss == 0.4
    assert made.rates.burden == Decimal("0.5")


def test_rows_are_added_and_taken_out_by_their_names():
    more = changed('[places.hill]\nlabel = "Hill"\ntaxes = []\n').after
    own = evolve(BOOK, rates=evolve(BOOK.rates, places=(*BOOK.rates.places, more.rates.places[-1])))
    fewer = Change(before=BOOK, after=evolve(BOOK, rates=evolve(BOOK.rates, premiums=())))
    assert fewer.made_in(own).rates.premiums == ()
    assert fewer.made_in(own).rates.places == own.rates.places
    assert Change(before=BOOK, after=more).made_in(BOOK) == more


def test_a_quote_that_can_no_longer_be_reckoned_says_why():
    change = Change(before=BOOK, after=evolve(BOOK, rates=evolve(BOOK.rates, premiums=())))
    found = effect_of(change)
    assert found.after is None
    assert found.says.startswith("evening premium: the book does not say it")
    assert effect_on_price(figures_of(PLAN, quoted(BOOK), BOOK, JOB), change) == found


def test_the_first_field_of_every_row_names_it():
    for section in TABLES.values():
        assert fields(section.kind)[0].name == section.named
