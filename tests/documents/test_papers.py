"""The two PDF papers, read back."""

import pypdfium2
import pytest
from attrs import evolve

from estimator.documents.quote_pdf import quote_pdf
from estimator.documents.worksheet_pdf import worksheet_pdf
from estimator.plan.storey import Storey
from estimator.quantities import Units

PAPERS = [quote_pdf, worksheet_pdf]
NAMES = ["<b>x</b> & <script>", "厨房 😀", "\x00", "\ud800", "Long name " * 30, ""]


def _pages(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        texts = [page.get_textpage() for page in document]
        return [" ".join(text.get_text_range().split()) for text in texts]
    finally:
        document.close()


def _size(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        return tuple(round(side) for side in document[0].get_size())
    finally:
        document.close()


def _named(plan, quote, name):
    rooms = tuple(evolve(room, name=name) for room in plan.rooms)
    measured = tuple(evolve(room, name=name) for room in quote.schedule.rooms)
    return evolve(plan, title=name, rooms=rooms), evolve(
        quote, title=name, schedule=evolve(quote.schedule, rooms=measured)
    )


def test_what_must_be_confirmed_stands_on_both_papers(plan, quote):
    for paper in PAPERS:
        said = _pages(paper(plan, quote, Units.METRIC))[0]
        assert "that application by charged mist or fog is allowed" in said


def test_the_work_sheet_lists_rooms_in_order_with_tanks(plan, quote):
    text = " ".join(_pages(worksheet_pdf(plan, quote, Units.METRIC)))
    rooms = text[text.index("Rooms in order") :]
    order = [rooms.index(room.name) for room in map(plan.room, quote.timetable.order)]

    assert order == sorted(order)
    # Staff kitchen: sprayed from 25 min on, tank 1, 1.73 L, wet for 10 min, its table wiped.
    assert "1 0:25 Staff kitchen 1 200 ppm 1 4 L 1.73 L" in rooms
    assert "10 min – Table 2:30" in rooms


def test_the_work_sheet_says_what_to_wear_and_what_goes_into_each_tank(plan, quote):
    text = " ".join(_pages(worksheet_pdf(plan, quote, Units.METRIC)))

    assert "Wear disposable gloves" in text
    assert "2 500 ppm 4 L 2 tablets 4 L of 750 ppm" in text


@pytest.mark.parametrize("paper", PAPERS)
def test_the_same_inputs_give_the_same_bytes(paper, plan, quote):
    assert paper(plan, quote, Units.METRIC) == paper(plan, quote, Units.METRIC)


@pytest.mark.parametrize("paper", PAPERS)
def test_paper_is_letter_for_us_units_and_a4_otherwise(paper, plan, quote):
    # ISO 216: 210 × 297 mm; letter 8.5 × 11 in; 72 points to the inch.
    assert _size(paper(plan, quote, Units.METRIC)) == (595, 842)
    assert _size(paper(plan, quote, Units.US)) == (612, 792)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", NAMES)
def test_any_name_can_be_printed(paper, plan, quote, name):
    assert _pages(paper(*_named(plan, quote, name), Units.METRIC))


@pytest.mark.parametrize("paper", PAPERS)
def test_several_storeys_and_hundreds_of_rooms_run_over_several_pages(paper, plan, quote):
    rooms = tuple(
        evolve(room, id=f"{room.id}-{at}", storey=at % 3, openings=())
        for at in range(40)
        for room in plan.rooms
    )
    storeys = tuple(Storey(number=at, name=f"Level {at}") for at in range(3))
    measured = tuple(
        evolve(room, room=f"{room.room}-{at}", storey=at % 3)
        for at in range(40)
        for room in quote.schedule.rooms
    )
    large = evolve(quote, schedule=evolve(quote.schedule, rooms=measured))

    text = " ".join(_pages(paper(evolve(plan, storeys=storeys, rooms=rooms), large, Units.METRIC)))

    assert "240 rooms" in text or paper is worksheet_pdf


@pytest.mark.parametrize("units", list(Units))
def test_a_small_work_sheet_is_two_pages(plan, quote, units):
    pages = _pages(worksheet_pdf(plan, quote, units))

    assert len(pages) == 2
    assert "If something goes wrong" in pages[1]
    assert "What it really took" in pages[1]
