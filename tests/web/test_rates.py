"""The page of rates: what is typed, what it would do, and what is kept."""

from decimal import Decimal

import pytest
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest
from streamlit.util import calc_hash

from estimator.estimation.chain import estimate
from estimator.store.values import Site
from estimator.workflow.firm_book import (
    FILE,
    firm_book,
    firm_folder,
    firm_rows,
    firm_text,
    keep_firm_rows,
)
from estimator.workflow.offers import keep_quote
from estimator.workflow.storing import store


@pytest.fixture
def rates(opened_at) -> AppTest:
    app = opened_at("rates")
    assert not app.exception
    return app


def field(app, name):
    """A field by the name of its key, whatever edition it is."""
    kinds = (app.number_input, app.text_input, app.radio, app.selectbox, app.checkbox, app.button)
    found = [
        one for kind in kinds for one in kind if one.key and one.key.startswith(f"rates-{name}")
    ]
    (only,) = found
    return only


def shown(app):
    return {row["Quote"]: row for row in app.dataframe[-1].value.to_dict("records")}


def test_a_change_shows_what_it_does_before_it_is_kept(rates):
    session = session_of(rates)
    site = store().sites.save(Site(name="Alder House"), after=0)
    kept = keep_quote(store(), session.work, quote_of(rates), site=site.id)
    before = quote_of(rates).price.total

    field(rates, "labour_per_hour").set_value(52.0).run()
    field(rates, "show").click().run()
    assert not rates.exception
    assert firm_text() == ""
    rows = shown(rates)
    told = next(row for title, row in rows.items() if not title.startswith("On the screen"))
    dearer = Decimal(told["Difference"].replace("$", ""))
    assert dearer > 0
    assert told["Difference"] == rows[f"On the screen: {session.work.plan.title}"]["Difference"]

    field(rates, "keep").click().run()
    assert not rates.exception
    assert firm_rows()["rates"]["labour_per_hour"] == 52
    assert firm_rows()["rates"]["source"] == "Our own figures"
    after = quote_of(rates).price.total
    assert after.amount - before.amount == dearer
    work = session_of(rates).work
    assert (
        after
        == estimate(work.plan, firm_book(), work.job, date="2026-11-25", version="").price.total
    )
    assert store().quotes.version(kept).total == before


def test_what_is_refused_stays_as_it_was_typed(rates):
    field(rates, "basis").set_value("Margin, a share of the charge").run()
    field(rates, "profit").set_value(100.0).run()
    field(rates, "currency").set_value("E1").run()
    field(rates, "show").click().run()
    said = " ".join(error.value for error in rates.error)
    assert "2 mistakes" in said
    assert "currency\\: “E1” is none" in said
    assert "margin\\: 100% of the charge would leave nothing" in said
    assert "nothing was kept" in said
    assert field(rates, "profit").value == 100
    assert field(rates, "basis").value.startswith("Margin")
    assert firm_text() == ""


def test_taxes_of_a_place_are_lines_of_a_table(rates):
    def typed():
        # What the browser would send with every run.
        rates.session_state["rates-places-0"] = {
            "edited_rows": {},
            "deleted_rows": [],
            "added_rows": [
                {"name": "quebec", "label": "Québec", "tax": "GST", "share": 5.0},
                {"name": "quebec", "tax": "QST", "share": 9.975, "on_taxes": False},
            ],
        }

    typed()
    rates.run()
    assert not rates.exception, rates.exception
    assert "Québec" in field(rates, "place").options
    typed()
    field(rates, "show").click().run()
    typed()
    field(rates, "keep").click().run()
    assert not rates.exception
    place = firm_book().rates.tax_place("quebec")
    assert [(tax.label, tax.share) for tax in place.taxes] == [
        ("GST", Decimal("0.05")),
        ("QST", Decimal("0.09975")),
    ]


def test_what_was_typed_is_there_when_the_page_is_come_back_to(rates):
    field(rates, "labour_per_hour").set_value(33.0).run()
    rates._page_hash = calc_hash("quote")
    rates.run()
    assert not [one for one in rates.number_input if one.key and "labour" in one.key]
    rates._page_hash = calc_hash("rates")
    rates.run()
    assert not rates.exception
    assert field(rates, "labour_per_hour").value == 33
    assert firm_text() == ""


def test_a_change_made_elsewhere_meanwhile_is_told_and_then_yours_can_be_saved(rates):
    field(rates, "overhead").set_value(30.0).run()
    field(rates, "show").click().run()
    theirs = {"rates": {"burden": 0.4, "source": "theirs", "as_of": "2026-11"}}
    keep_firm_rows(theirs)
    field(rates, "keep").click().run()
    assert "changed elsewhere meanwhile" in rates.error[0].value
    assert firm_rows() == theirs
    assert field(rates, "overhead").value == 30

    field(rates, "show").click().run()
    field(rates, "keep").click().run()
    assert not rates.exception
    assert firm_rows()["rates"]["overhead"] == 0.3


def test_what_is_beside_the_rates_may_change_while_they_are_edited(rates):
    field(rates, "overhead").set_value(30.0).run()
    keep_firm_rows({"firm": {"name": "Larkfield Care", "source": "us", "as_of": "2026-11"}})
    field(rates, "show").click().run()
    field(rates, "keep").click().run()
    assert not rates.error
    assert firm_rows()["firm"]["name"] == "Larkfield Care"
    assert firm_rows()["rates"]["overhead"] == 0.3


def test_rates_changed_elsewhere_are_shown_where_nothing_was_typed(rates):
    keep_firm_rows({"rates": {"overhead": 0.45, "source": "theirs", "as_of": "2026-11"}})
    rates.run()
    assert field(rates, "overhead").value == 45


def test_a_broken_file_leaves_the_app_open_and_says_what_is_wrong(opened_at):
    (firm_folder() / FILE).write_text("rates = = 1")
    app = opened_at("rates")
    assert not app.exception
    said = " ".join(error.value for error in app.error)
    assert "it is not TOML" in said
    assert any("packaged book is used" in warning.value for warning in app.warning)
