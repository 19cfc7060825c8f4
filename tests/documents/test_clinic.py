"""The clinic among the reference buildings, from plan to mixing plan, timetable and work sheet."""

from functools import cache

import pypdfium2
import pytest
from attrs import evolve
from clinic import clinic

from estimator.documents.stops import stops, tanks
from estimator.documents.worksheet_pdf import worksheet_pdf
from estimator.quantities import Units
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import estimate, usual_job

PLAN, BOOK = clinic(), standard_book()


@cache
def quote():
    job = evolve(usual_job(BOOK), crew=4)
    return estimate(PLAN, book=BOOK, job=job, date="2026-11-25")


def words(pdf):
    document = pypdfium2.PdfDocument(pdf)
    try:
        texts = [page.get_textpage() for page in document]
        return [" ".join(text.get_text_range().split()) for text in texts]
    finally:
        document.close()


def test_all_rooms_are_measured_sprayed_and_reached_by_doors():
    # The model's floors sum to 1317.92 m², Deru et al. (2010).
    assert quote().schedule.floor_area == pytest.approx(1317.92, abs=0.01)
    assert {stop.room for stop in stops(quote())} == {room.id for room in PLAN.rooms}
    assert quote().timetable.findings == ()


def test_tanks_hold_what_is_sprayed_and_no_more_than_a_mark_of_the_jug_is_left():
    solution = quote().solution
    made = sum(tank.fill.volume for tank in tanks(quote()))

    assert solution.volume <= made <= solution.volume + len(solution.mixes) * BOOK.measuring.mark


def test_the_timetable_is_within_a_tenth_of_the_shortest():
    assert 1 <= quote().timetable.over_bound <= 1.1


@pytest.mark.parametrize("units", list(Units))
def test_the_work_sheet_is_two_pages_with_all_a_crew_needs(units):
    first, second = words(worksheet_pdf(PLAN, quote(), units))

    for said in ("The way", "Wear disposable gloves", "If something goes wrong", "D: smoke det"):
        assert said in first
    for said in ("Mixing, tank by tank", "Rooms in order", "What it really took"):
        assert said in second
    assert all(room.name in second for room in PLAN.rooms)
