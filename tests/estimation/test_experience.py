"""What visits tell about the book: found again when drawn, shrunk when few, deaf to the absurd."""

from math import exp, log

import numpy as np
import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.estimation.experience import (
    LEARNED,
    Figure,
    experience,
    learned_until,
)
from estimator.estimation.figures import figures_of
from estimator.estimation.lessons import BOOK_WORTH
from estimator.estimation.records import Task, Visit, records
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)


def figures(rooms, book=BOOK):
    plan = sketch_plan(rooms, book=BOOK)
    return figures_of(plan, estimate(plan, book=book, job=JOB, date="2026-11-25"), book, JOB)


HOME = figures("Kitchen 4 x 5 m, 3 bedrooms 3 x 4 m, bathroom 2 x 3 m, hall 2 x 5 m")
OFFICE = figures("Open office 10 x 12 m, 4 offices 3 x 4 m, 2 toilets 2 x 2 m, kitchen 3 x 3 m")


def went(planned, *, day="2026-12-01", slower=1.0, wetter=1.0, rng=None, noise=0.0):
    """A visit whose rooms took so much longer and more than planned, with noise."""

    def by(factor):
        return factor * (exp(noise * rng.standard_normal()) if rng else 1.0)

    rows = tuple(
        RoomOutcome(
            room=room.room,
            use=room.use,
            volume=by(wetter) * room.volume,
            passes=room.passes,
            time=by(slower) * room.spray,
        )
        for room in planned.rooms
    )
    on_site = slower * planned.work.on_site
    outcome = Outcome(visited=day, crew=planned.work.crew, on_site=on_site, rows=rows)
    return Visit(figures=planned, outcome=outcome)


def lesson(found, task, use=None):
    return next(one for one in found.lessons if (one.task, one.use) == (task, use))


def pace(book, use):
    return next(one for one in book.paces if one.use == use)


def test_no_visit_leaves_the_book_as_it_is():
    found = experience(BOOK, [])
    assert found.book == BOOK
    assert not found.changes
    assert not found.lessons


def test_one_visit_moves_the_book_a_part_of_the_way():
    """Normal mean with a known variance; visits of equal records, and the prior worth three."""
    found = experience(BOOK, [went(HOME, slower=1.3)])
    factor = lesson(found, Task.SPRAY).factor
    assert 1 < factor < 1.3 ** (1.6 / (1 + BOOK_WORTH))
    assert pace(found.book, "*").spray == pytest.approx(pace(BOOK, "*").spray / factor)


def test_the_factors_of_a_firm_are_found_again_from_many_visits():
    rng = np.random.default_rng(3)
    visits = [
        went(
            site,
            slower=1.3 * exp(0.1 * rng.standard_normal()),
            wetter=1.1 * exp(0.05 * rng.standard_normal()),
            rng=rng,
            noise=0.15,
        )
        for site in [HOME, OFFICE] * 20
    ]
    found = experience(BOOK, visits)
    slower, wetter = lesson(found, Task.SPRAY), lesson(found, Task.SOLUTION)
    assert slower.factor == pytest.approx(1.3, rel=0.06)
    assert slower.low < 1.3 < slower.high
    assert wetter.factor == pytest.approx(1.1, rel=0.04)
    assert found.book.spread.pace < BOOK.spread.pace
    assert found.book.spread.film < BOOK.spread.film
    again = figures("Open office 10 x 12 m, 4 offices 3 x 4 m", found.book)
    before = figures("Open office 10 x 12 m, 4 offices 3 x 4 m")
    assert again.volume / before.volume == pytest.approx(wetter.factor, rel=0.01)
    sprayed = [sum(room.spray for room in one.rooms) for one in (before, again)]
    assert sprayed[1] / sprayed[0] == pytest.approx(1.3, rel=0.08)


def test_a_use_of_its_own_pace_is_told_apart_from_the_rest():
    def kitchens_slow(planned, rng):
        fair = went(planned, rng=rng, noise=0.05)
        rows = (
            evolve(row, time=1.6 * row.time) if row.use == "kitchen" else row
            for row in fair.outcome.rows
        )
        return evolve(fair, outcome=evolve(fair.outcome, rows=tuple(rows)))

    rng = np.random.default_rng(2)
    found = experience(BOOK, [kitchens_slow(site, rng) for site in [HOME, OFFICE] * 8])
    assert lesson(found, Task.SPRAY, "kitchen").factor == pytest.approx(1.6, rel=0.15)
    assert lesson(found, Task.SPRAY, "bedroom").factor == pytest.approx(1, rel=0.08)
    ratio = pace(found.book, "kitchen").spray / pace(BOOK, "kitchen").spray
    assert ratio == pytest.approx(1 / lesson(found, Task.SPRAY, "kitchen").factor)


def test_one_absurd_record_changes_the_book_little():
    visits = [went(site, slower=1.1, wetter=1.05) for site in (HOME, OFFICE, HOME, OFFICE)]
    fair = experience(BOOK, visits)
    first = visits[0].outcome.rows[0]
    absurd = evolve(first, time=60 * first.time, volume=1000 * first.volume)
    outcome = evolve(visits[0].outcome, rows=(absurd, *visits[0].outcome.rows[1:]))
    spoilt = experience(BOOK, [evolve(visits[0], outcome=outcome), *visits[1:]])
    for task in (Task.SPRAY, Task.SOLUTION):
        moved = lesson(spoilt, task).factor / lesson(fair, task).factor
        assert moved == pytest.approx(1, abs=0.03)
    least = min(zip(spoilt.weights, spoilt.records, strict=True), key=lambda pair: pair[0])
    assert least[1].room == HOME.rooms[0].name
    assert least[0] < 0.1


def test_a_pass_more_than_planned_is_no_thicker_film_and_no_slower_pace():
    fair = went(HOME)
    rows = tuple(
        evolve(row, passes=2 * row.passes, volume=2 * row.volume, time=2 * row.time)
        for row in fair.outcome.rows
    )
    told = records([evolve(fair, outcome=evolve(fair.outcome, rows=rows))], BOOK)
    assert max(abs(record.stray) for record in told) < 1e-9


def test_film_and_loss_together_make_up_the_litres_and_no_film_runs_off():
    found = experience(BOOK, [went(HOME, wetter=1.25), went(OFFICE, wetter=1.25)])
    factor = lesson(found, Task.SOLUTION).factor
    for was, film in zip(BOOK.films, found.book.films, strict=True):
        before, after = (one.volume * (1 + one.loss) for one in (was, film))
        assert after == pytest.approx(factor * before)
        assert film.volume <= film.most
        assert film.loss >= was.loss


def test_litres_are_parted_by_how_unsure_film_and_loss_were():
    """E[x | x + y = d] = d · s²/(s² + u²) for independent normal x and y of mean 0 (textbook)."""
    found = experience(BOOK, [went(HOME, wetter=0.8), went(OFFICE, wetter=0.8)])
    was, film = (
        next(one for one in book.films if one.lie == "level") for book in (BOOK, found.book)
    )
    told = log(lesson(found, Task.SOLUTION).factor)
    unsure = 0.5 * was.loss / (1 + was.loss)
    laid = BOOK.spread.film**2 / (BOOK.spread.film**2 + unsure**2)
    assert log(film.volume / was.volume) == pytest.approx(laid * told)


def test_a_visit_with_only_its_whole_time_slows_every_task():
    fair = went(OFFICE)
    whole = OFFICE.setting_up + 1.5 * (OFFICE.work.on_site - OFFICE.setting_up)
    told = evolve(fair, outcome=evolve(fair.outcome, rows=(), on_site=whole))
    found = experience(BOOK, [told])
    before, after = pace(BOOK, "*"), pace(found.book, "*")
    assert after.spray < before.spray
    assert after.prepare > before.prepare
    assert after.wipe < before.wipe
    assert lesson(found, Task.VISIT).actual == pytest.approx(
        1.5 * lesson(found, Task.VISIT).planned
    )


def test_a_visit_is_learned_from_once():
    visits = [went(HOME, slower=1.4), went(OFFICE, slower=1.4, day="2026-12-05")]
    learned = experience(BOOK, visits).book
    assert learned_until(learned) == "2026-12-05"
    assert learned.spread.source == f"{LEARNED} 2 visits up to 2026-12-05"
    assert experience(learned, visits).book == learned
    later = went(HOME, slower=1.4, day="2026-12-09")
    assert experience(learned, [*visits, later]).visits == 1


def test_every_change_is_listed_with_what_the_book_says():
    found = experience(BOOK, [went(HOME, slower=1.2, wetter=1.1)])
    spray = {one.row: one for one in found.changes if one.figure is Figure.SPRAY}
    assert spray["kitchen"].before == pace(BOOK, "kitchen").spray
    assert spray["kitchen"].after == pace(found.book, "kitchen").spray
    assert spray["bedroom"].before == pace(BOOK, "*").spray
    assert {one.row for one in found.changes if one.figure is Figure.LOSS} == {
        film.lie for film in BOOK.films
    }
    assert not [one for one in found.changes if one.figure is Figure.WIPE]


def test_minutes_that_the_nozzle_decides_tell_nothing_of_the_crew():
    slow = evolve(BOOK, sprayers=tuple(evolve(one, flow=one.flow / 20) for one in BOOK.sprayers))
    told = records([went(figures("Office 4 x 5 m", slow))], slow)
    assert {record.task for record in told} == {Task.SOLUTION}
