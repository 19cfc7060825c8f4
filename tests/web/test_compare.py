"""Quotes side by side in the app: choosing, sums, why two differ, the course of one site."""

from decimal import Decimal

import pytest
from attrs import evolve

from estimator.estimation.comparison import Measure
from estimator.store.values import Site
from estimator.workflow.measuring import standard_book
from estimator.workflow.offers import keep_quote
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store
from estimator.workflow.work import Work

SITES = {
    "Old Mill": "Kitchen 6 x 8 m, 4 bedrooms 4 x 6 m, 2 bathrooms 3 x 3 m",
    "=Cottage": "Living room 8 x 9 m, 2 bedrooms 5 x 6 m",
    "Shop $5": "Shop 10 x 20 m, office 3 x 4 m",
}


def keep(name, rooms, *, quote="", after=0, book=None, date="", **job):
    book = book or standard_book()
    plan = evolve(sketch_plan(rooms), title=name)
    work = Work(plan=plan, book=book, job=evolve(usual_job(book), **job))
    made = estimate(plan, book=book, job=work.job, date=date or f"2026-11-{10 + after}")
    site = "" if quote else store().sites.save(Site(name=name), after=0).id
    return keep_quote(store(), work, made, site=site, quote_id=quote, after=after), made


@pytest.fixture
def quotes():
    return {name: keep(name, rooms) for name, rooms in SITES.items()}


@pytest.fixture
def app(quotes, opened_at):
    assert len(quotes) == len(SITES)
    return opened_at("compare")


def box(app, label):
    return next(one for one in app.selectbox if one.label == label)


def said(app):
    return [one.value.replace("\\", "") for one in app.markdown]


def test_without_a_quote_the_page_says_what_to_do(opened_at):
    app = opened_at("compare")
    assert "Keep the quotes of two sites first; they are compared here." in said(app)
    assert not app.exception


def test_what_is_still_provisional_is_said_beside_the_prices(app, quotes):
    assert all(made.provisional for _, made in quotes.values())
    told = [one.value.replace("\\", "") for one in app.caption]
    assert "Provisional until label and sprayer's papers are confirmed: all of these." in told


def test_the_latest_quotes_are_compared_and_come_to_their_sums(app, quotes):
    totals = [made.price.total.amount for _, made in quotes.values()]
    shown = {one.label: one.value for one in app.metric}
    assert shown["Quotes"] == "3"
    assert shown["All prices"] == f"${sum(totals):,.2f}"
    assert not app.exception


def test_the_table_is_ranked_by_the_measure_that_is_chosen(app, quotes):
    box(app, "Compared by").set_value(Measure.TOTAL).run()
    dearest = sorted(quotes, key=lambda name: -quotes[name][1].price.total.amount)
    assert list(app.dataframe[0].value["Quote"]) == dearest


def test_why_two_differ_is_said_in_steps_that_add_up(app, quotes):
    first, last = (box(app, label).value for label in ("From", "To"))
    shown = app.dataframe[1].value
    steps = [
        Decimal(text.replace("−", "-").replace("$", "").replace(",", "")) for text in shown["Adds"]
    ]
    names = list(app.dataframe[0].value["Quote"])
    assert first != last
    amounts = {quotes[name][1].price.total.amount for name in names}
    assert abs(sum(steps)) in {abs(one - other) for one in amounts for other in amounts}
    assert any("costs $" in text and "most of all by" in text for text in said(app))


@pytest.mark.usefixtures("quotes")
def test_quotes_in_two_currencies_are_refused_in_one_sentence(opened_at):
    book = standard_book()
    products = tuple(evolve(one, currency="") for one in book.rates.products)
    euros = evolve(book, rates=evolve(book.rates, currency="EUR", products=products))
    keep("Annexe", SITES["Old Mill"], book=euros, date="2026-11-01")
    app = opened_at("compare")
    (told,) = (one.value.replace("\\", "") for one in app.info)
    assert "the two quotes: one is in" in told
    assert len([one for one in app.metric if one.label == "All prices"]) == 2
    assert not app.exception


def test_a_site_is_followed_from_version_to_version(quotes, opened_at):
    key, _ = quotes["Shop $5"]
    keep("Shop $5", SITES["Shop $5"], quote=key.quote, after=1, discount=Decimal("0.1"))
    app = opened_at("compare")
    box(app, "Site").set_value(store().quotes.listed(key.quote).site).run()
    assert any("version 2** costs $" in text and "less than" in text for text in said(app))
    assert not app.exception


def test_more_quotes_can_be_found_added_and_cleared(app, quotes):
    next(one for one in app.button if one.label == "Clear").click().run()
    assert app.multiselect[0].value == []
    next(one for one in app.text_input if one.label == "Find").set_value("cottage").run()
    next(one for one in app.button if one.label == "Add 1 found").click().run()
    assert app.multiselect[0].value == [quotes["=Cottage"][0].quote]
    assert not app.exception


def test_one_document_of_all_quotes_is_made_when_asked_for(app):
    assert not app.get("download_button")
    next(one for one in app.button if one.label == "Make it").click().run()
    (taken,) = app.get("download_button")
    assert "All quotes · PDF" in str(taken.proto)
    assert not app.exception


@pytest.mark.parametrize("page", ["compare", "outcome"])
def test_an_empty_page_leads_to_where_quotes_are_kept(opened_at, page):
    app = opened_at(page)
    assert [one.proto.page for one in app.get("page_link") if "Keep" in one.proto.label] == [
        "sites"
    ]


@pytest.mark.parametrize(
    ("page", "title"),
    [
        ("sites", "Sites"),
        ("compare", "Compare"),
        ("outcome", "Outcomes"),
        ("rates", "Rates"),
        ("firm", "Firm"),
        ("many", "Many plans"),
    ],
)
def test_every_page_of_the_office_says_what_it_is(opened_at, page, title):
    app = opened_at(page)
    assert app.subheader[0].value == title
    assert app.caption[0].value
    assert not app.exception
