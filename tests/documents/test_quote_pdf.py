"""The client's quote, read back from its PDF in every language, paper and system of units."""

from decimal import Decimal
from io import BytesIO
from itertools import product

import pypdfium2
import pytest
from attrs import evolve
from PIL import Image

from estimator.catalogue.loader import packaged_book
from estimator.documents.paper import Paper
from estimator.documents.phrasebook import phrases
from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.reader import Reader
from estimator.plan.storey import Storey
from estimator.price.money import Money
from estimator.quantities import Units
from estimator.quantities.language import Language
from estimator.quote.firm import BusinessTerms, Firm
from estimator.quote.option import Option
from estimator.quote.recipient import Recipient
from estimator.surfaces.scope import Scope

VARIANTS = list(product(Language, Paper, Units))
FIRM = Firm(
    name="Oak Street Cleaning",
    address=("3 Oak Street", "Larkfield"),
    contact=("555 0100",),
    accent="#7a1f3d",
    terms=BusinessTerms(en=("Pay within a week.",), fr=("Payez sous huit jours : merci.",)),
)


def _pages(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        texts = [page.get_textpage() for page in document]
        return [" ".join(text.get_text_range().split()) for text in texts]
    finally:
        document.close()


def _text(*given, **more):
    return " ".join(_pages(quote_pdf(*given, **more)))


def _spaced(words):
    return " ".join(words.split())


def _money(amount):
    return Money(Decimal(amount), "USD")


def _with_options(quote):
    names = (
        "Floors, walls to 2 m, furniture and touch points",
        "With ceilings and glass",
        "As asked",
    )
    options = tuple(
        Option(
            name=name,
            scope=Scope(),
            treated=100.0 * at,
            volume=0.01,
            on_site=3600.0 * at,
            price=quote.price,
            range=quote.range,
        )
        for at, name in enumerate(names, 1)
    )
    return evolve(quote, options=options)


@pytest.mark.parametrize(("language", "paper", "units"), VARIANTS)
def test_every_variant_says_all_figures_on_two_pages(plan, quote, language, paper, units):
    pages = _pages(quote_pdf(plan, quote, units, firm=FIRM, language=language, paper=paper))
    reader = Reader(language=language, units=units)

    assert len(pages) == 2
    for words in (
        "Oak Street Cleaning",
        "3 Oak Street, Larkfield",
        "Larkfield Health Clinic",
        reader.day("2026-03-02"),
        reader.day(quote.terms.valid_until),
        reader.money(quote.price.total),
        reader.money(quote.price.charge),
        reader.money(quote.terms.deposit),
        reader.money(quote.range.p10),
        reader.money(quote.range.p90),
        reader.area(quote.schedule.treated),
        reader.area(quote.schedule.floor_area),
        reader.volume(quote.solution.volume),
        reader.time(quote.timetable.on_site),
        "Waiting room",
        "Exam room 1",
    ):
        assert _spaced(words) in pages[0], words
    assert "0123456789abcdef" in pages[1]


@pytest.mark.parametrize("language", [Language.FR, Language.ES])
def test_no_word_of_ours_is_left_in_english(plan, quote, language):
    """Only names, and cautions that the table does not know, are not the reader's."""
    nameless = evolve(plan, title="", rooms=tuple(evolve(room, name="") for room in plan.rooms))
    rooms = tuple(evolve(room, name="", use_label="Office") for room in quote.schedule.rooms)
    bare = evolve(quote, title="", schedule=evolve(quote.schedule, rooms=rooms))
    text = _text(nameless, bare, Units.METRIC, language=language).lower().split()

    foreign = {word for words in _words(phrases(language)) for word in words.lower().split()}
    english = {word for words in _words(phrases(Language.EN)) for word in words.lower().split()}
    left = {word for word in text if word.isalpha()} & (english - foreign)
    assert left <= {"general", "food", "exam", "room"}  # zones and a name of this invented quote


def _words(section):
    for value in section.values():
        if isinstance(value, str):
            yield value
        else:
            yield from _words(value)


def test_paper_and_units_are_chosen_apart(plan, quote):
    # ISO 216: 210 × 297 mm; letter 8.5 × 11 in; 72 points to the inch.
    sizes = {}
    for paper, units in product([*Paper, None], Units):
        document = pypdfium2.PdfDocument(quote_pdf(plan, quote, units, paper=paper))
        sizes[paper, units] = tuple(round(side) for side in document[0].get_size())
        document.close()

    assert {sizes[Paper.A4, units] for units in Units} == {(595, 842)}
    assert {sizes[Paper.LETTER, units] for units in Units} == {(612, 792)}
    assert sizes[None, Units.METRIC] == (595, 842)
    assert sizes[None, Units.US] == (612, 792)


def test_the_quote_shows_no_cost_of_the_firm(plan, quote):
    text = _text(plan, quote, Units.METRIC)

    assert not [words for words in ("Mark-up", "51.12", "131.67", "146.07") if words in text]


def test_a_confirmed_quote_is_not_called_provisional(plan, quote):
    confirmed = evolve(quote, solution=evolve(quote.solution, unconfirmed=()))

    assert "Provisional" in _text(plan, quote, Units.METRIC)
    assert "Provisional" not in _text(plan, confirmed, Units.METRIC)


def test_every_caution_stands_on_the_quote(plan, quote):
    text = _text(plan, quote, Units.METRIC)

    assert all(caution.text in text for caution in quote.cautions)


def test_what_is_agreed_to_stands_before_the_signature(plan, quote):
    wordy = evolve(
        quote,
        assumptions=tuple(
            evolve(quote.assumptions[0], room=None, says=f"Assumption number {at}.")
            for at in range(200)
        ),
    )
    pages = _pages(quote_pdf(plan, wordy, Units.METRIC, firm=FIRM))
    text = " ".join(pages)

    assert len(pages) > 2
    assert "Signature" in pages[-1]
    order = [text.index(f"Assumption number {at}.") for at in range(200)]
    assert max(order) < text.index("Pay within a week.") < text.index("Signature")


def test_the_same_assumption_about_several_rooms_is_said_once(plan, quote):
    doubt = quote.assumptions[1]
    other = evolve(doubt, room="toilet", says=doubt.says.replace("Exam room 1", "Toilet"))
    twice = evolve(quote, assumptions=(doubt, other))

    text = _text(plan, twice, Units.METRIC)
    assert "stands in a room of its use; likewise for Toilet." in text
    assert "de même pour Toilet" in _text(plan, twice, Units.METRIC, language=Language.FR)


def test_terms_are_those_in_the_readers_language(plan, quote):
    assert "Payez sous huit jours : merci." in _text(
        plan, quote, Units.METRIC, firm=FIRM, language=Language.FR
    )
    assert "Pay within a week." in _text(plan, quote, Units.METRIC, firm=FIRM, language=Language.ES)


def test_terms_of_one_endless_paragraph_run_over_several_columns(plan, quote):
    endless = " ".join(f"Clause number {at} applies." for at in range(1500))
    firm = evolve(FIRM, terms=BusinessTerms(en=(endless,)))
    pages = _pages(quote_pdf(plan, quote, Units.METRIC, firm=firm))

    assert len(pages) > 3
    assert all(f"Clause number {at} applies." in " ".join(pages) for at in (0, 700, 1499))
    assert "Signature" in pages[-1]


def test_options_stand_on_the_offer_and_beside_the_signature(plan, quote):
    pages = _pages(quote_pdf(plan, _with_options(quote), Units.METRIC, language=Language.FR))

    for page in pages:
        assert "Sols, murs jusqu'à 2 m, mobilier et points de contact" in page
        assert "Avec plafonds et vitrage" in page
        assert "As asked" in page  # named by somebody, kept as it is


def test_a_client_shown_a_range_finds_it_in_place_of_one_price(plan, quote):
    open_price = evolve(quote, terms=evolve(quote.terms, fixed=False))
    text = _text(plan, open_price, Units.METRIC)

    assert "$190.10 – $236.80" in text
    assert "Expected total" in text
    assert "This price is fixed" not in text


def test_recurring_visits_say_how_many_how_often_and_what_they_come_to(plan, quote):
    terms = evolve(
        quote.terms,
        visits=12,
        every="half-year",
        term_total=_money("2531.88"),
        term_discount=Decimal("0.1"),
    )
    text = _text(plan, evolve(quote, terms=terms), Units.METRIC, language=Language.ES)

    assert "Se prevén 12 visitas, una al semestre." in text
    assert "2.531,88 US$" in text
    assert "10 % menos por la duración" in text


def test_the_letterhead_shows_the_logo_and_the_packaged_terms(plan, quote):
    firm = packaged_book().firm
    with_logo = quote_pdf(plan, quote, Units.METRIC, firm=firm)
    document = pypdfium2.PdfDocument(with_logo)
    kinds = [thing.type for thing in document[0].get_objects()]
    document.close()

    assert pypdfium2.raw.FPDF_PAGEOBJ_IMAGE in kinds
    assert firm.terms.en[0] in " ".join(_pages(with_logo))


@pytest.mark.parametrize(("mode", "size"), [("L", (4, 900)), ("CMYK", (900, 4)), ("P", (60, 60))])
def test_any_logo_can_be_printed(plan, quote, mode, size):
    written = BytesIO()
    Image.new(mode, size).save(written, "JPEG" if mode == "CMYK" else "PNG")

    assert quote_pdf(plan, quote, Units.METRIC, firm=evolve(FIRM, logo=written.getvalue()))


@pytest.mark.parametrize("name", ["Ω " * 200, "W" * 300, "厨房", "<b>&", "=1+1"])
def test_a_firm_of_any_name_can_send_quotes(plan, quote, name):
    firm = Firm(name=name, address=(name,), contact=(name,), registration=name)

    assert _pages(quote_pdf(plan, quote, Units.METRIC, firm=firm))


@pytest.mark.parametrize("count", [2, 3, 7])
def test_several_storeys_are_all_drawn(plan, quote, count):
    storeys = tuple(Storey(number=at, name=f"Level {at}") for at in range(count))
    rooms = tuple(
        evolve(room, id=f"{room.id}-{at}", storey=at, openings=())
        for at in range(count)
        for room in plan.rooms
    )
    measured = tuple(
        evolve(room, room=f"{room.room}-{at}", storey=at)
        for at in range(count)
        for room in quote.schedule.rooms
    )
    large = evolve(quote, schedule=evolve(quote.schedule, rooms=measured))
    text = _text(evolve(plan, storeys=storeys, rooms=rooms), large, Units.METRIC)

    assert all(f"Level {at}" in text for at in range(count))


@pytest.mark.parametrize("language", list(Language))
def test_the_same_inputs_give_the_same_bytes(plan, quote, language):
    given = {"firm": packaged_book().firm, "language": language}

    assert quote_pdf(plan, quote, Units.US, **given) == quote_pdf(plan, quote, Units.US, **given)


RECIPIENT = Recipient(
    client="Larkfield Health Trust",
    address=("The practice manager", "14 Mill Lane"),
    site="Clinic by the river",
    place=("2 Bridge Road",),
    number="3F9A21BC",
    version=2,
)


@pytest.mark.parametrize(("language", "paper", "units"), VARIANTS)
def test_an_addressed_quote_names_client_site_and_number(plan, quote, language, paper, units):
    pages = _pages(
        quote_pdf(plan, quote, units, language=language, paper=paper, recipient=RECIPIENT)
    )
    reader = Reader(language=language, units=units)
    number = reader.say("quote", "numbered", number="3F9A21BC", version=2)

    assert len(pages) == 2
    for words in (
        *(RECIPIENT.client, *RECIPIENT.address, RECIPIENT.site, *RECIPIENT.place),
        reader.say("quote", "for"),
    ):
        assert _spaced(words) in pages[0], words
    assert pages[0].count(number) == 2, "beside the date and at the foot"
    assert number in pages[1]


def test_a_quote_without_a_title_is_titled_by_its_site(plan, quote):
    untitled = evolve(quote, title="")
    assert "Untitled site" not in _text(plan, untitled, Units.METRIC, recipient=RECIPIENT)
    assert "Untitled site" in _text(plan, untitled, Units.METRIC)


def test_a_draft_is_told_from_a_version(plan, quote):
    text = _text(plan, quote, Units.METRIC, recipient=evolve(RECIPIENT, version=0))

    assert "Quote 3F9A21BC, draft" in text


def test_nobody_named_leaves_the_paper_as_it_is(plan, quote):
    assert quote_pdf(plan, quote, Units.US) == quote_pdf(plan, quote, Units.US, recipient=None)
    assert "No. 00110123" in _text(plan, quote, Units.US)


@pytest.mark.parametrize(
    "name",
    ["=1+1 <b>&amp;</b>", "Κλινική Ωμέγα", "مستشفى", "廚房", "x" * 5000, "ab " * 3000, "\x00"],
    ids=range(7),
)
def test_any_name_and_address_leave_the_page_to_the_offer(plan, quote, name):
    recipient = Recipient(
        client=name, address=(name,) * 40, site=name, place=(name,) * 40, number="1"
    )
    pages = _pages(quote_pdf(plan, quote, Units.METRIC, recipient=recipient))

    assert 2 <= len(pages) <= 3
    assert Reader().money(quote.price.total) in pages[0]
