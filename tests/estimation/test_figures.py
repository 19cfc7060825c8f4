"""The figures of a quote repeat what the quote says, and survive being kept as JSON."""

import json
from decimal import Decimal

import cattrs
import pytest

from estimator.catalogue.loader import packaged_book
from estimator.estimation.figures import Figures, figures_of
from estimator.visit.timetable import Step
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)
PLAN = sketch_plan(
    "Kitchen 4 x 5 m, bathroom 2 x 3 m, 3 bedrooms 3 x 4 m, ceilings 2.6 m", book=BOOK
)
QUOTE = estimate(PLAN, book=BOOK, job=JOB, date="2026-11-25")
FIGURES = figures_of(PLAN, QUOTE, BOOK, JOB)


def test_the_sums_are_those_of_the_quote():
    assert FIGURES.total == QUOTE.price.total
    assert FIGURES.treated == pytest.approx(QUOTE.schedule.treated)
    assert FIGURES.floor_area == pytest.approx(20 + 6 + 36)
    assert sum(room.volume for room in FIGURES.rooms) == pytest.approx(QUOTE.solution.volume)
    assert sum(room.treated for room in FIGURES.rooms) == pytest.approx(FIGURES.treated)


def test_the_tasks_of_the_rooms_are_those_of_the_timetable():
    planned = sum(room.prepare + room.spray + room.wipe for room in FIGURES.rooms)
    steps = {Step.PREPARE, Step.UNMASK, Step.SPRAY, Step.WIPE}
    told = sum(task.end - task.start for task in QUOTE.timetable.tasks if task.step in steps)
    assert planned == pytest.approx(told)


def test_the_margin_is_that_of_the_price():
    assert pytest.approx(float(QUOTE.price.margin)) == FIGURES.margin


def test_the_loss_of_a_room_lies_between_those_of_its_films():
    least = min(film.loss / (1 + film.loss) for film in BOOK.films)
    most = max(film.loss / (1 + film.loss) for film in BOOK.films)
    assert all(least <= room.loss <= most for room in FIGURES.rooms)


def test_the_figures_come_back_from_json_as_they_were():
    converter = cattrs.Converter()
    converter.register_unstructure_hook(Decimal, str)
    converter.register_structure_hook(Decimal, lambda given, _: Decimal(given))
    text = json.dumps(converter.unstructure(FIGURES), allow_nan=False)
    assert converter.structure(json.loads(text), Figures) == FIGURES
