"""From what a crew writes on a phone to the firm's changed book."""

import pytest
from attrs import evolve

from estimator.errors import QuantityError, StaleVersion
from estimator.estimation.experience import learned_until
from estimator.estimation.figures import figures_of
from estimator.quantities import Units
from estimator.store.values import Site
from estimator.workflow.firm_book import firm_text, keep_firm_rows
from estimator.workflow.measuring import standard_book
from estimator.workflow.offers import keep_quote
from estimator.workflow.outcomes import (
    Written,
    experience_kept,
    far_off,
    keep_outcome,
    outcome_of,
    take_over,
    written_in,
)
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.storing import store
from estimator.workflow.work import Work

WAGE = {"rates": {"labour_per_hour": 31, "source": "own", "as_of": "2026-11"}}


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("DATABASE_URL", raising=False)


def planned():
    plan, book = sketch_plan("Kitchen 4 x 5 m, 2 bedrooms 3 x 4 m"), standard_book()
    job = usual_job(book)
    quote = estimate(plan, book=book, job=job, date="2026-11-25")
    return Work(plan=plan, book=book, job=job), quote, figures_of(plan, quote, book, job)


def visit(figures, written=(), *, minutes=90.0, units=Units.METRIC, day="2026-12-01"):
    return outcome_of(
        figures, dict(written), units, visited=day, crew=2, minutes=minutes, note=" wet day "
    )


def slower(figures, factor):
    return {
        room.room: Written(minutes=factor * room.spray / 60, passes=room.passes)
        for room in figures.rooms
    }


def kept_visits(factor, days=("2026-12-01", "2026-12-02")):
    work, quote, figures = planned()
    site = store().sites.save(Site(name="Old Mill"), after=0)
    key = keep_quote(store(), work, quote, site=site.id)
    for day in days:
        keep_outcome(store(), key, visit(figures, slower(figures, factor), day=day), None)
    return key, figures


@pytest.mark.parametrize(("units", "volume"), [(Units.METRIC, 0.0015), (Units.US, 4.4360294e-05)])
def test_litres_and_ounces_are_taken_as_written_and_shown_so_again(units, volume):
    *_, figures = planned()
    first = figures.rooms[0].room
    written = {first: Written(volume=1.5, minutes=6.0, passes=1, note="grease")}
    outcome = visit(figures, written, units=units)
    (row,) = outcome.rows
    assert (row.volume, row.time, outcome.on_site) == (pytest.approx(volume), 360, 5400)
    assert written_in(outcome, units)[first] == written[first]
    assert outcome.note == "wet day"


def test_rooms_that_nothing_was_written_about_are_left_out():
    *_, figures = planned()
    untouched = {room.room: Written(passes=room.passes) for room in figures.rooms}
    assert visit(figures, untouched).rows == ()


def test_an_empty_visit_is_refused_in_one_sentence():
    *_, figures = planned()
    with pytest.raises(QuantityError, match="the visit: nothing was written down; give"):
        visit(figures, minutes=None)


def test_an_hour_written_for_a_minute_is_asked_about():
    *_, figures = planned()
    written = slower(figures, 1.0)
    first = figures.rooms[0]
    written[first.room] = evolve(written[first.room], minutes=first.spray)
    assert far_off(figures, visit(figures, written), standard_book()) == (
        f"{first.name}: spraying",
    )


def test_a_visit_is_corrected_and_the_later_of_two_corrections_is_told():
    key, figures = kept_visits(1.0, days=("2026-12-01",))
    (first,) = store().outcomes.of(key.quote)
    keep_outcome(store(), key, visit(figures, minutes=80.0), first)
    with pytest.raises(StaleVersion):
        keep_outcome(store(), key, visit(figures, minutes=70.0), first)
    (kept,) = store().outcomes.of(key.quote)
    assert kept.outcome.on_site == 80 * 60


def test_what_visits_told_becomes_rows_of_the_firm_and_tells_nothing_twice():
    keep_firm_rows(WAGE)
    kept_visits(1.5)
    before = standard_book()
    told = experience_kept(store(), before)
    book = take_over(told, after=firm_text())
    assert book == standard_book()
    assert book.rates.labour_per_hour == 31
    old, new = ({pace.use: pace.spray for pace in one.paces} for one in (before, book))
    offered = {pace.use: pace.spray for pace in told.book.paces}
    assert new == pytest.approx(offered, rel=1e-3)
    assert new["*"] < old["*"]
    assert book.films == before.films
    assert learned_until(book) == "2026-12-02"
    assert not experience_kept(store(), book).records


def test_a_book_that_somebody_changed_meanwhile_is_not_overwritten():
    kept_visits(1.5)
    told = experience_kept(store(), standard_book())
    keep_firm_rows(WAGE)
    with pytest.raises(StaleVersion):
        take_over(told, after="")
    assert standard_book().rates.labour_per_hour == 31
