"""Sites side by side: measures, what stands out, and what all come to."""

from decimal import Decimal

import numpy as np
import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import median_abs_deviation

from estimator.catalogue.loader import packaged_book
from estimator.estimation.comparison import (
    FEWEST,
    Measure,
    modified_z_scores,
    outliers,
    portfolio,
    ranked,
    value_of,
)
from estimator.estimation.figures import figures_of
from estimator.price.money import Money
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan

BOOK = packaged_book()
JOB = usual_job(BOOK)


def figures(rooms):
    plan = sketch_plan(rooms, book=BOOK)
    quote = estimate(plan, book=BOOK, job=JOB, date="2026-11-25")
    return figures_of(plan, quote, BOOK, JOB)


FLAT = figures("Kitchen 3 x 4 m, bedroom 3 x 4 m, bathroom 2 x 2 m")
SHOP = figures("Shop 10 x 20 m, office 3 x 4 m")
ALIKE = [evolve(FLAT, floor_area=FLAT.floor_area * (1 + at / 100)) for at in range(FEWEST - 1)]


def dearer(site, factor, currency="USD"):
    amount = (site.total.amount * Decimal(factor)).quantize(Decimal("0.01"))
    return evolve(site, total=Money(amount, currency))


def test_measures_are_ratios_of_the_figures():
    assert value_of(SHOP, Measure.SURFACE_PER_FLOOR) == SHOP.treated / SHOP.floor_area
    price = float(SHOP.total.amount) / SHOP.treated
    assert value_of(SHOP, Measure.PRICE_PER_SURFACE) == pytest.approx(price)
    assert value_of(SHOP, Measure.MARGIN) == SHOP.margin


def test_the_largest_is_ranked_first_and_equal_ones_keep_their_order():
    assert ranked([FLAT, SHOP, FLAT], Measure.FLOOR_AREA) == (1, 0, 2)


def test_a_site_priced_four_times_as_high_stands_out_and_is_told_the_usual_price():
    found = outliers([*ALIKE, dearer(FLAT, 4)])
    assert {(one.site, one.measure) for one in found} == {
        (len(ALIKE), Measure.PRICE_PER_FLOOR),
        (len(ALIKE), Measure.PRICE_PER_SURFACE),
    }
    assert all(one.value == pytest.approx(4 * one.usual, rel=0.1) for one in found)


def test_nothing_is_said_of_few_sites():
    assert outliers([*ALIKE[1:], dearer(FLAT, 4)]) == ()


def test_nothing_stands_out_among_sites_that_are_all_alike():
    assert outliers([FLAT] * 20) == ()


def test_that_a_site_is_large_is_no_finding():
    large = evolve(
        FLAT,
        floor_area=50 * FLAT.floor_area,
        flat=50 * FLAT.flat,
        upright=50 * FLAT.upright,
        inside=50 * FLAT.inside,
        volume=50 * FLAT.volume,
        work=evolve(FLAT.work, person_time=50 * FLAT.work.person_time),
    )
    assert outliers([*ALIKE, dearer(large, 50)]) == ()


def test_a_price_in_another_currency_is_held_against_none():
    assert outliers([*ALIKE, dearer(FLAT, 160, "JPY")]) == ()


@given(st.lists(st.floats(-1e3, 1e3), min_size=3, max_size=30))
def test_scores_are_distances_in_normal_median_deviations(values):
    spread = median_abs_deviation(values, scale="normal")
    if spread > 1e-6 * max(1, abs(np.median(values))):
        expected = (np.array(values) - np.median(values)) / spread
        assert modified_z_scores(values) == pytest.approx(expected, rel=1e-3)


def test_a_portfolio_adds_what_its_sites_have():
    both = portfolio([FLAT, SHOP])
    assert both.treated == pytest.approx(FLAT.treated + SHOP.treated)
    assert both.totals == (FLAT.total + SHOP.total,)


def test_a_portfolio_of_two_currencies_has_two_totals():
    yen = dearer(FLAT, 160, "JPY")
    assert portfolio([FLAT, yen, SHOP]).totals == (FLAT.total + SHOP.total, yen.total)
