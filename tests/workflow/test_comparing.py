"""Quotes that were kept: their names side by side, one site over time, all in one document."""

from decimal import Decimal

import pypdfium2
import pytest
from attrs import evolve

from estimator.documents.paper import Paper
from estimator.errors import DocumentError
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quantities.shown_money import shown_money
from estimator.quote.firm import Firm
from estimator.store.tables import VersionRow
from estimator.store.values import Search, Site
from estimator.workflow.comparing import compared, one_document, over_time
from estimator.workflow.measuring import standard_book
from estimator.workflow.offers import keep_quote
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store
from estimator.workflow.work import Work


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("DATABASE_URL", raising=False)


def keep(name, site_name, *, quote="", after=0, date="2026-11-25", **job):
    book = standard_book()
    plan = evolve(sketch_plan("Shop 12 x 20 m, 2 offices 5 x 6 m"), title=name)
    work = Work(plan=plan, book=book, job=evolve(usual_job(book), **job))
    made = estimate(plan, book=book, job=work.job, date=date)
    site = "" if quote else store().sites.save(Site(name=site_name), after=0).id
    return keep_quote(store(), work, made, site=site, quote_id=quote, after=after)


def listed():
    return store().quotes.find(Search()).rows


def document(quotes):
    return one_document(
        store(),
        quotes,
        Units.METRIC,
        firm=Firm(),
        language=Language.EN,
        paper=Paper.A4,
        title="Larkfield shops",
    )


def test_a_quote_is_called_by_its_site_and_by_its_title_where_that_says_more():
    keep("Ground floor", "Old Mill")
    keep("Corner shop", "Corner shop")
    assert {one.name for one in compared(store(), listed())} == {
        "Old Mill: Ground floor",
        "Corner shop",
    }


def test_a_site_is_followed_through_all_versions_the_oldest_first():
    key = keep("Shop", "Shop", date="2026-11-01")
    keep("Shop", "Shop", quote=key.quote, after=1, date="2026-11-20", discount=Decimal("0.1"))
    (row,) = listed()
    first, last = over_time(store(), row.site)
    assert (first.name, last.name) == ("2026-11-01, version 1", "2026-11-20, version 2")
    assert last.figures.total.amount < first.figures.total.amount


def test_one_document_names_every_site_and_what_they_come_to_together():
    keep("Corner shop", "Corner shop")
    keep("Station shop", "Station shop", distance=30_000.0, road_time=1800.0)
    quotes = compared(store(), listed())
    pages = pypdfium2.PdfDocument(document(quotes))
    text = "".join(page.get_textpage().get_text_bounded() for page in pages)
    one, other = (quote.figures.total for quote in quotes)
    for words in ("Larkfield shops", "Corner shop", "Station shop", shown_money(one + other)):
        assert words in text


def test_a_quote_that_comes_to_another_price_today_is_refused_by_name():
    keep("Corner shop", "Corner shop")
    (older,) = compared(store(), listed())
    with store().database.writing() as session:
        session.get(VersionRow, (older.key.quote, older.key.number)).total += 1
    with pytest.raises(DocumentError, match="Corner shop: it was made by other rules"):
        document([older])
