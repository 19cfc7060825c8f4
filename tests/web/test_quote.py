"""The quote's page: what it shows, and that the paper says the same."""

import re
from io import BytesIO

import pypdfium2
import pytest
from attrs import evolve
from openpyxl import load_workbook
from sessions import quote_of, session_of
from streamlit.testing.v1 import AppTest

from estimator.documents.paper import Paper
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.tables import quote_xlsx
from estimator.plan.edits import with_height
from estimator.price.recurrence import Every
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.store.values import Client, Site
from estimator.workflow.offers import keep_quote
from estimator.workflow.preferences import preferences
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store

NUMBER = re.compile(r"\d+(?:[.,]\d+)*")


@pytest.fixture
def screen(opened_at) -> AppTest:
    app = opened_at("quote")
    assert not app.exception
    return app


def _paper(app, **more):
    work = session_of(app).work
    return quote_pdf(work.plan, quote_of(app), session_of(app).units, firm=work.book.firm, **more)


def _text(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        return " ".join(page.get_textpage().get_text_range() for page in document)
    finally:
        document.close()


def _shown(app):
    """Return every number that the page shows a client or of the offer."""
    asides = {one.value for box in app.expander for one in (*box.markdown, *box.caption)}
    said = [one.value for one in (*app.markdown, *app.caption) if one.value not in asides]
    said += [words for one in app.metric for words in (one.value, one.delta)]
    quote = quote_of(app)
    if len(quote.options) > 1:  # the first table; the other holds the firm's own costs
        said += [str(cell) for row in app.dataframe[0].value.values for cell in row]
    said += [f"{money.amount:,.2f}" for money in (quote.range.p10, quote.range.p90)]
    return {number for words in said for number in NUMBER.findall(words.replace("\\", ""))}


def _offered(app):
    """Add a term and an option to what is offered."""
    app.number_input(key="terms-visits-0").set_value(12).run()
    app.selectbox(key="terms-every-0").set_value(Every.MONTH).run()
    app.text_input(key="option-walls-0").set_value("2 m").run()
    app.button(key="option-add-0").click().run()
    assert not app.exception
    assert len(quote_of(app).options) == 2
    return app


@pytest.mark.parametrize("units", list(Units))
def test_the_paper_says_every_number_of_the_offer_on_the_screen(screen, units):
    screen.button_group(key="units").set_value(units).run()
    app = _offered(screen) if units is Units.METRIC else screen
    shown, text = _shown(app), _text(_paper(app))

    assert len(shown) > 15
    assert [number for number in shown if number not in text] == []


def test_what_only_the_firm_may_see_stands_in_the_workbook(screen):
    quote, rates = quote_of(screen), session_of(screen).work.book.rates
    book = load_workbook(BytesIO(quote_xlsx(quote, Units.METRIC, rates=rates)), data_only=True)
    amounts = {row[4].value for row in book["Price"].iter_rows(min_row=2)}

    assert {float(line.amount.amount) for line in quote.price.lines} <= amounts


def test_language_and_paper_are_chosen_and_remembered(screen):
    screen.selectbox(key="paper-language").set_value(Language.ES).run()
    screen.selectbox(key="paper-size-metric").set_value(Paper.LETTER).run()

    assert not screen.exception
    assert preferences().language is Language.ES
    assert preferences().paper is Paper.LETTER
    screen.button_group(key="units").set_value(Units.US).run()
    assert preferences().language is Language.ES
    assert preferences().units is Units.US


def test_a_range_takes_the_place_of_one_price(screen):
    screen.button_group(key="terms-fixed-0").set_value(False).run()

    pays = next(one for one in screen.metric if one.label.startswith("The client pays"))
    assert " – " in pays.value
    assert pays.value.replace("\u202f", " ") in _text(_paper(screen))


def kept(screen, language=None):
    """Keep the work on the screen as a quote of a client's site."""
    work = session_of(screen).work
    client = store().clients.save(Client(name="Larkfield Trust", language=language), after=0)
    site = store().sites.save(Site(name="Home", client=client.id), after=0)
    key = keep_quote(store(), work, quote_of(screen), site=site.id)
    session_of(screen).kept_as = key
    screen.run()
    assert not screen.exception
    return key


def captions(screen):
    return " ".join(one.value for one in screen.caption).replace("\\", "")


def test_the_page_says_whom_papers_are_addressed_to(screen):
    assert "Addressed to nobody yet" in captions(screen)
    key = kept(screen)
    assert f"For Larkfield Trust, Home: quote {key.called}, version 1." in captions(screen)
    session_of(screen).correct(lambda plan: with_height(plan, plan.rooms[0].id, 4.5))
    screen.run()
    assert f"quote {key.called}, a draft that differs from version 1." in captions(screen)


def test_the_language_of_the_client_is_offered_and_another_chosen_for_one_quote(screen):
    key = kept(screen, Language.FR)
    choice = screen.selectbox(key=f"paper-language-{key.quote}")
    assert choice.value is Language.FR
    choice.set_value(Language.ES).run()
    assert screen.selectbox(key=f"paper-language-{key.quote}").value is Language.ES
    assert preferences().language is Language.EN
    assert not screen.exception


def test_measures_in_assumptions_are_said_in_the_units_of_the_screen(screen):
    def said():
        return " ".join(one.value for one in screen.markdown).replace("\\", "")

    session_of(screen).open(lambda work: evolve(work, plan=sketch_plan("hall 5 x 2 m")))
    screen.run()
    assert "was assumed to be 2.44 m high" in said()
    screen.segmented_control(key="units").set_value(Units.US).run()
    assert "was assumed to be 8' 0\" high" in said()
