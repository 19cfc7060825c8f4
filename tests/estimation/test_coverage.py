"""How often the range held: the binomial interval against scipy, and the stretching of a range."""

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest

from estimator.catalogue.loader import packaged_book
from estimator.estimation.coverage import coverage, hindsight, stretched, wilson_interval
from estimator.estimation.figures import figures_of
from estimator.estimation.records import Visit
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)
PLAN = sketch_plan("Shop 10 x 20 m, office 3 x 4 m", book=BOOK)
FIGURES = figures_of(PLAN, estimate(PLAN, book=BOOK, job=JOB, date="2026-11-25"), BOOK, JOB)


def visit(time_factor):
    on_site = time_factor * FIGURES.work.on_site
    outcome = Outcome(visited="2026-12-01", crew=FIGURES.work.crew, on_site=on_site)
    return Visit(figures=FIGURES, outcome=outcome)


@given(st.integers(1, 300).flatmap(lambda n: st.tuples(st.integers(0, n), st.just(n))))
def test_the_interval_is_wilsons(counts):
    told = binomtest(*counts).proportion_ci(0.95, method="wilson")
    assert wilson_interval(*counts) == pytest.approx((told.low, told.high), abs=2e-5)


def test_of_no_visit_nothing_is_known():
    found = coverage([])
    assert (found.low, found.high, found.holds, found.widening) == (0, 1, True, 1)


def test_few_visits_say_nothing_against_a_range():
    assert coverage([visit(3.0)] * 4).holds
    assert not coverage([visit(3.0)] * 5).holds


def test_a_visit_that_went_as_planned_costs_what_was_quoted():
    assert hindsight(FIGURES, visit(1).outcome) == FIGURES.total


def test_twice_the_litres_cost_twice_the_tablets():
    rows = tuple(
        RoomOutcome(room=room.room, use=room.use, volume=2 * room.volume) for room in FIGURES.rooms
    )
    doubled = evolve(FIGURES.work, tablets=2 * FIGURES.work.tablets)
    quoted = evolve(visit(1).outcome, rows=rows)
    other = hindsight(evolve(FIGURES, work=doubled), visit(1).outcome)
    assert hindsight(FIGURES, quoted) == other != FIGURES.total


def test_without_the_time_on_site_there_is_no_hindsight():
    assert hindsight(FIGURES, Outcome(visited="2026-12-01", crew=2)) is None


def test_a_range_that_eight_of_ten_visits_fell_into_is_left_as_it_is():
    found = coverage([*[visit(1.0)] * 8, visit(2.0), visit(0.4)])
    assert (found.visits, found.within, found.holds, found.widening) == (10, 8, True, 1)


def test_a_range_that_hardly_any_visit_fell_into_is_stretched():
    found = coverage([visit(factor) for factor in (0.3, 0.4, 1.0, 1.0, 1.8, 1.9, 2.0, 2.1)])
    assert found.within == 2
    assert not found.holds
    assert 1.3 < found.widening < 4


def test_visits_that_all_came_out_dear_by_as_much_do_not_stretch_the_range():
    found = coverage([visit(1.9)] * 10)
    assert not found.holds
    assert found.widening < 1


def test_a_range_half_as_wide_as_prices_stray_is_stretched_to_twice_its_width():
    scores = 2 * np.random.default_rng(5).standard_normal(500)
    assert stretched(scores.tolist()) == pytest.approx(2, rel=0.1)
    assert stretched([*scores.tolist(), 1e3]) == pytest.approx(2, rel=0.1)
