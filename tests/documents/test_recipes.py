import pytest
from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.documents.recipes import jug_units, recipe_words
from estimator.documents.wording import water_words
from estimator.quantities import Units
from estimator.treatment.solution import Mix, Solution

BOOK = packaged_book()
US_GALLON = 231 * 0.0254**3


def mix(ppm: float) -> Mix:
    return Mix(zones=("general",), wanted=ppm / 1000, contact_time=60, needed=0.004, fills=())


@pytest.mark.parametrize(
    ("product", "ppm", "says"),
    [
        # World Health Organization, Laboratory biosafety manual, Table 12.
        ("liquid_5", 1000, "1 part of product plus 49 parts of water, 20 mL in each litre"),
        ("powder_60", 5000, "8.33 g of powder to each litre"),
        ("tablets_1500", 1000, "one tablet to 1.5 L of solution"),  # arithmetic
    ],
)
def test_the_rule_is_that_of_published_tables(product, ppm, says):
    assert says in recipe_words(mix(ppm), BOOK.product(product))


def test_what_is_ready_to_use_or_not_known_needs_no_rule():
    assert recipe_words(mix(1000), BOOK.product("ready_1000")) == ""
    assert recipe_words(mix(1000), None) == ""
    unread = evolve(BOOK.product("powder_60"), available_share=None)
    assert recipe_words(mix(1000), unread) == ""


@pytest.mark.parametrize(
    ("mark", "units"),
    [(50e-6, Units.METRIC), (US_GALLON / 128, Units.US), (US_GALLON / 16, Units.US)],
)
def test_water_is_told_in_the_units_on_the_jug(mark, units):
    measuring = evolve(BOOK.measuring, jug=20 * mark, mark=mark)

    assert jug_units(measuring, Units.METRIC) is jug_units(measuring, Units.US) is units


def test_a_jug_of_a_us_gallon_is_counted_in_gallons():
    measuring = evolve(BOOK.measuring, jug=US_GALLON, mark=US_GALLON / 128)
    solution = Solution(product="x", doses=(), mixes=(), wetness=(), measuring=measuring)

    assert water_words(2 * US_GALLON, solution, Units.METRIC) == "2 × 1 US gal"
    assert water_words(2.25 * US_GALLON, solution, Units.US) == "2 × 1 US gal + 0.25 US gal"
