"""Every number of the solution that a screen shows is in the quote's data."""

import json

import pytest
from attrs import evolve

from estimator.documents.quote_json import quote_to_dict
from estimator.treatment.product import LabelUse
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan

USE = LabelUse(label="Hard surfaces", least=0.02, most=5.0, contact_time=600.0)


@pytest.fixture(scope="module")
def shown() -> dict:
    """The solution of a cafe, its product read from a label, beside an advertised coverage."""
    book = standard_book()
    job = evolve(usual_job(book), claimed_film=10e-6)
    product = evolve(
        book.product(job.product), uses=(USE,), droplet_least=40e-6, mix_keeps=8 * 3600.0
    )
    book = evolve(book, products=(product,))
    plan = sketch_plan("Restaurant kitchen 5 x 4 m, dining room 8 x 6 m")
    quote = estimate(plan, book=book, job=job, date="2026-11-25")
    return json.loads(json.dumps(quote_to_dict(quote), allow_nan=False))["solution"]


def test_the_air_and_how_fast_films_dry_in_it_are_told(shown):
    assert shown["air"] == {"temperature_k": 293.15, "humidity": 0.5, "speed_m_per_s": 0.1}
    assert 0 < shown["drying"]["slowest_m_per_s"] < shown["drying"]["fastest_m_per_s"]


def test_wet_time_stands_beside_contact_time(shown):
    for wet in shown["wetness"]:
        fastest = shown["drying"]["fastest_m_per_s"]
        assert wet["contact_time_s"] == 600.0
        assert wet["needed_film_m"] == pytest.approx(600.0 * fastest)
        assert wet["stays_wet_s"] == pytest.approx(wet["passes"] * wet["film_m"] / fastest)
        assert wet["stays_wet_s"] >= wet["contact_time_s"]
        assert wet["claimed_dries_after_s"] == pytest.approx(10e-6 / fastest)
        assert wet["claim_holds"] is False


def test_what_was_read_of_the_label_is_told_and_what_was_not_is_null(shown):
    label = shown["label"]

    assert label["available_per_tablet_kg"] == pytest.approx(0.0015)
    assert label["uses"][0]["most_ppm"] == 5000.0
    assert (label["droplet_least_m"], label["reentry_s"]) == (40e-6, None)
    assert (shown["use_within_s"], shown["use_within_by_label"]) == (8 * 3600.0, True)


def test_water_is_told_in_marks_of_the_jug_and_a_stock_where_one_is_offered(shown):
    mark = shown["measuring"]["mark_m3"]
    food = next(mix for mix in shown["mixes"] if mix["wanted_ppm"] == 100.0)

    for mix in shown["mixes"]:
        for fill in mix["fills"]:
            assert fill["water_m3"] / mark == pytest.approx(round(fill["water_m3"] / mark))
            assert mix["wanted_ppm"] <= fill["strength_ppm"] <= mix["most_ppm"]
    assert food["stock"]["strength_ppm"] > 100.0
    assert sum(fill["volume_m3"] for fill in food["stock"]["fills"]) >= food["needed_m3"]
