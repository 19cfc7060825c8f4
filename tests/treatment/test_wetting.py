import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.surfaces.schedule import Lie
from estimator.treatment.evaporation import Evaporation
from estimator.treatment.film import Film
from estimator.treatment.solution import Wetness
from estimator.treatment.wetting import (
    dry_after_last_pass,
    drying_time,
    film_needed,
    passes_needed,
    wetness,
)

MINUTE = 60.0
MILLILITRES = 1e-6  # per square metre, in metres
STILL_AIR = 150 * MILLILITRES / 3600  # 150 g/m² in an hour: from memory, order of magnitude


def film(volume: float, most: float) -> Film:
    return Film(
        lie=Lie.UPRIGHT,
        volume=volume * MILLILITRES,
        most=most * MILLILITRES,
        loss=0,
        source="invented",
        as_of="2026-01-01",
    )


def kept_wet(contact: float, laid: Film, rate: float = STILL_AIR, **claim: float) -> Wetness:
    drying = Evaporation(fastest=rate, slowest=rate / 3)
    return wetness("general", contact, laid, drying, **claim)


def test_ten_minutes_in_still_air_need_25_millilitres():  # arithmetic
    assert film_needed(STILL_AIR, 10 * MINUTE) == pytest.approx(25 * MILLILITRES)


def test_a_film_of_10_millilitres_dries_in_four_minutes():  # arithmetic
    assert drying_time(10 * MILLILITRES, STILL_AIR) == pytest.approx(4 * MINUTE)


def test_the_books_film_is_laid_where_it_stays_wet():
    wet = kept_wet(10 * MINUTE, film(40, 60))

    assert (wet.film, wet.passes, wet.holds) == (40 * MILLILITRES, 1, True)


def test_a_thin_film_is_made_thicker_in_one_pass():
    wet = kept_wet(10 * MINUTE, film(10, 40))

    assert wet.film == pytest.approx(25 * MILLILITRES)
    assert (wet.passes, wet.holds) == (1, False)


def test_what_would_run_off_is_laid_in_several_passes():
    wet = kept_wet(30 * MINUTE, film(20, 40))

    assert wet.film == pytest.approx(37.5 * MILLILITRES)
    assert (wet.passes, wet.holds) == (2, False)


def test_passes_follow_each_other_over_the_contact_time():
    wet = kept_wet(30 * MINUTE, film(20, 40))

    assert (wet.runs, wet.again_every) == (True, 15 * MINUTE)
    assert wet.stays_wet == pytest.approx(30 * MINUTE)
    assert kept_wet(10 * MINUTE, film(40, 40)).again_every is None


def test_going_back_in_waits_for_the_slowest_drying():
    wet = kept_wet(10 * MINUTE, film(40, 40))

    assert wet.usual_dries_after == pytest.approx(16 * MINUTE)
    assert wet.dries_after == pytest.approx(48 * MINUTE)


@pytest.mark.parametrize(
    # 8 L over 800 m² is 10 mL/m², which is wet for 4 minutes in still air (arithmetic)
    ("claimed", "minutes", "holds"),
    [(8 / 800 * 1000, 4, False), (30, 12, True), (50, 20, False)],
)
def test_an_advertised_coverage_is_held_against_the_contact_time(claimed, minutes, holds):
    wet = kept_wet(10 * MINUTE, film(40, 40), claimed=claimed * MILLILITRES)

    assert wet.claimed_dries_after == pytest.approx(minutes * MINUTE)
    assert wet.claim_holds is holds


def test_without_an_advertised_coverage_nothing_is_said_of_one():
    assert kept_wet(10 * MINUTE, film(40, 40)).claim_holds is None


def test_a_film_that_just_holds_needs_no_second_pass():
    assert passes_needed(3 * 0.1, 0.3) == 1


def test_the_last_pass_dries_after_what_is_left_of_all_passes():
    # two passes of 40 mL/m², 15 minutes apart: 80 mL/m² last 32 minutes from the first
    dry = dry_after_last_pass(40 * MILLILITRES, 2, STILL_AIR, 30 * MINUTE)

    assert dry == pytest.approx(17 * MINUTE)


@given(
    contact=st.floats(10, 7200),
    usual=st.floats(1, 60),
    spare=st.floats(1, 3),
    evaporation=st.floats(20, 500),
)
def test_the_film_outlasts_the_contact_time_and_never_runs(contact, usual, spare, evaporation):
    laid = film(usual, usual * spare)
    rate = evaporation * MILLILITRES / 3600

    wet = kept_wet(contact, laid, rate)

    assert wet.passes * drying_time(wet.film, rate) >= contact * (1 - 1e-6)
    assert laid.volume <= wet.film <= laid.most * (1 + 1e-6)
    assert wet.passes == 1 or (wet.passes - 1) * laid.most < film_needed(rate, contact)
