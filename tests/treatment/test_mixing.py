"""Mixing of single strengths; the tablets of 1.5 g are those of the WHO manual's Table 12."""

import itertools

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import TreatmentError
from estimator.treatment.measuring import Measuring
from estimator.treatment.mixing import TOLERATED, TOLERATED_MEASURED, tank_fills
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import TankFill

LITRE = 0.001
GRAM = 0.001
CASE_600 = 6.384 * LITRE  # 159.6 m² at 40 mL/m²
FINE = Measuring(
    jug=LITRE,
    mark=1e-6,
    scales=0.01 * GRAM,
    cylinder=1e-6,
    source="invented",
    as_of="2026-01-01",
)
COARSE = evolve(FINE, mark=0.05 * LITRE, scales=0.1 * GRAM)


def mixed(needed, wanted, product, tank, measuring=FINE) -> tuple[TankFill, ...]:
    return tank_fills(needed, wanted, product, tank, measuring)


def product(form: Form, **facts: float | None) -> Product:
    return Product(
        slug="invented",
        label="Invented",
        active="dichlor",
        form=form,
        basis="weight per volume",
        source="invented",
        as_of="2026-01-01",
        **facts,
    )


def tablets(grams: float = 1.5, most: float | None = None) -> Product:
    return product(Form.TABLET, available_per_tablet=grams * GRAM, most=most)


def made(fills: tuple[TankFill, ...]) -> float:
    return sum(fill.volume for fill in fills)


def test_case_600_takes_five_tablets_in_one_tank_of_8_litres():
    (fill,) = mixed(CASE_600, 1.0, tablets(), 8 * LITRE)

    assert fill.tablets == 5
    assert fill.volume == pytest.approx(CASE_600)
    assert fill.strength == pytest.approx(1.175, abs=5e-4)


def test_case_600_takes_five_tablets_in_a_tank_of_4_litres_filled_twice():
    fills = mixed(CASE_600, 1.0, tablets(), 4 * LITRE)

    assert [fill.tablets for fill in fills] == [3, 2]
    assert made(fills) == pytest.approx(CASE_600)
    assert [fill.strength for fill in fills] == pytest.approx([1.125, 1.25], abs=5e-3)


def test_case_600_takes_10_64_grams_of_powder_of_60_percent():
    powder = product(Form.POWDER, available_share=0.6)

    (fill,) = mixed(CASE_600, 1.0, powder, 8 * LITRE)

    assert fill.powder == pytest.approx(10.64 * GRAM)
    assert fill.strength == 1.0


def test_concentrate_is_part_of_the_volume_and_water_the_rest():
    liquid = product(Form.LIQUID, available_strength=50.0)

    fills = mixed(20 * LITRE, 1.0, liquid, 8 * LITRE)  # C₁V₁ = C₂V₂: 0.4 L of 5 %

    assert [fill.volume for fill in fills] == pytest.approx([8 * LITRE, 8 * LITRE, 4 * LITRE])
    assert sum(fill.concentrate for fill in fills) == pytest.approx(0.4 * LITRE)
    assert all(fill.water + fill.concentrate == pytest.approx(fill.volume) for fill in fills)


def test_a_ready_product_is_used_as_it_is():
    ready = product(Form.READY, available_strength=1.2)

    (fill,) = mixed(5 * LITRE, 1.0, ready, 8 * LITRE)

    assert (fill.concentrate, fill.water, fill.strength) == (5 * LITRE, 0.0, 1.2)


def test_a_label_that_allows_no_more_than_wanted_leaves_a_little_over():
    fills = mixed(10 * LITRE, 1.0, tablets(most=1.0), 8 * LITRE)

    assert [fill.tablets for fill in fills] == [5, 2]
    assert made(fills) == pytest.approx(10.5 * LITRE)
    assert all(fill.strength == pytest.approx(1.0) for fill in fills)


@pytest.mark.parametrize(
    ("what", "wanted", "tank", "says"),
    [
        (tablets(most=0.9), 1.0, 8.0, "1,000 ppm is more than the 900 ppm its label allows"),
        (tablets(grams=5, most=2.0), 1.0, 2.0, "whole tablets make at least 2,500 ppm in a full"),
        (product(Form.TABLET), 1.0, 8.0, "chlorine per tablet is not known"),
        (product(Form.POWDER), 1.0, 8.0, "chlorine as a share of the mass is not known"),
        (product(Form.LIQUID), 1.0, 8.0, "chlorine by volume is not known"),
        (product(Form.READY, available_strength=0.5), 1.0, 8.0, "weaker than the 1,000 ppm"),
        (product(Form.READY, available_strength=2.0, most=1.5), 1.0, 8.0, "2,000 ppm is more"),
    ],
)
def test_what_cannot_be_mixed_by_the_label_is_refused_in_a_sentence(what, wanted, tank, says):
    with pytest.raises(TreatmentError, match=says):
        mixed(5 * LITRE, wanted, what, tank * LITRE)


def test_nothing_needed_is_nothing_mixed():
    assert mixed(0.0, 1.0, tablets(), 8 * LITRE) == ()


def test_water_comes_in_marks_of_the_jug_and_powder_in_steps_of_the_scales():
    powder = product(Form.POWDER, available_share=0.6)

    (fill,) = mixed(CASE_600, 1.0, powder, 8 * LITRE, COARSE)

    assert fill.water == pytest.approx(6.4 * LITRE)
    assert fill.powder == pytest.approx(10.7 * GRAM)  # 10.67 g for 6.4 L
    assert fill.strength == pytest.approx(10.7 * 0.6 / 6.4)


def test_concentrate_comes_in_marks_of_the_cylinder():
    liquid = product(Form.LIQUID, available_strength=50.0)

    (fill,) = mixed(5 * LITRE, 1.0, liquid, 8 * LITRE, COARSE)

    assert fill.concentrate == pytest.approx(100e-6)  # exactly 1 part and 49 parts water
    assert fill.water == pytest.approx(4.9 * LITRE)
    assert fill.strength == pytest.approx(1.0)


def test_concentrate_as_strong_as_wanted_takes_no_water():
    liquid = product(Form.LIQUID, available_strength=1.0)

    (fill,) = mixed(0.5 * LITRE, 1.0, liquid, 8 * LITRE, COARSE)

    assert (fill.water, fill.concentrate) == (0.0, pytest.approx(0.5 * LITRE))


def test_a_tank_smaller_than_the_measures_is_refused():
    with pytest.raises(TreatmentError, match="less than the smallest measure"):
        mixed(LITRE, 1.0, tablets(), 0.04 * LITRE, COARSE)


volumes = st.floats(0.01, 60.0).map(lambda litres: litres * LITRE)
tanks = st.sampled_from([0.5, 1.0, 4.0, 8.0, 16.0]).map(lambda litres: litres * LITRE)
strengths = st.floats(0.05, 5.0)
products = st.sampled_from(
    [
        *(tablets(grams) for grams in (0.5, 1.0, 1.5, 2.5, 3.3)),
        product(Form.POWDER, available_share=0.6),
        product(Form.LIQUID, available_strength=125.0),
    ]
)


@given(
    needed=volumes,
    wanted=strengths,
    tank=tanks,
    kind=products,
    allowance=st.none() | st.floats(1.0, 3.0),
)
def test_no_tank_is_weaker_than_wanted_or_stronger_than_the_label(
    needed, wanted, tank, kind, allowance
):
    most = allowance and wanted * allowance
    try:
        fills = mixed(needed, wanted, evolve(kind, most=most), tank, COARSE)
    except TreatmentError:
        assert most is not None
        return

    assert made(fills) >= needed * (1 - 1e-6)
    for fill in fills:
        chlorine = fill.tablets * (kind.available_per_tablet or 0)
        chlorine += fill.powder * 0.6 + fill.concentrate * 125.0
        assert fill.strength * fill.volume == pytest.approx(chlorine)
        assert fill.strength >= wanted * (1 - 1e-6)
        assert most is None or fill.strength <= most * (1 + 1e-6)
        assert 0 < fill.volume <= tank * (1 + 1e-6)


def best_by_trying_all(needed, wanted, per_tablet, most, tank, mark):
    """Fills and litres made up of the best plan, by trying every number of tablets and marks."""
    possible = {
        marks
        for marks in range(1, round(tank / mark) + 1)
        for count in range(1, 40)
        if wanted * (1 - 1e-9) <= count * per_tablet / (marks * mark) <= most * (1 + 1e-9)
    }
    for fills in range(1, 5):
        ways = [
            sum(way)
            for way in itertools.combinations_with_replacement(possible, fills)
            if sum(way) * mark >= needed * (1 - 1e-9)
        ]
        if ways:
            return fills, min(ways) * mark
    return None


@given(
    quarter_litres=st.integers(1, 60),
    wanted=st.sampled_from([0.5, 1.0, 2.0]),
    tank=st.sampled_from([2.0, 4.0, 5.0]),
    grams=st.sampled_from([0.5, 1.0, 1.5]),
    allowance=st.sampled_from([1.0, 1.1, 1.25]),
)
def test_no_other_plan_has_fewer_fills_or_less_left_over(
    quarter_litres, wanted, tank, grams, allowance
):
    needed, most = quarter_litres * 0.25 * LITRE, wanted * allowance
    coarse = evolve(FINE, mark=0.25 * LITRE)
    best = best_by_trying_all(needed, wanted, grams * GRAM, most, tank * LITRE, coarse.mark)
    if best is None:
        return
    fills = mixed(needed, wanted, tablets(grams, most), tank * LITRE, coarse)

    assert (len(fills), made(fills)) == (best[0], pytest.approx(best[1]))


@given(needed=volumes, wanted=strengths, tank=tanks)
def test_only_a_full_tank_is_much_stronger_than_wanted(needed, wanted, tank):
    for fill in mixed(needed, wanted, tablets(1.5), tank, COARSE):
        too_strong = fill.strength > TOLERATED * wanted * (1 + 1e-6)
        assert not too_strong or fill.volume == pytest.approx(tank)


def test_what_is_measured_comes_closer_than_whole_tablets():
    powder = product(Form.POWDER, available_share=0.6)

    for fill in mixed(53 * LITRE, 1.0, powder, 8 * LITRE, COARSE):
        assert 1.0 <= fill.strength <= TOLERATED_MEASURED


def test_a_few_decilitres_for_toys_are_thinned_to_a_whole_tank():
    # 1.5 g in 8 L is 188 ppm, where 50 ppm (common practice) in 0.2 L would have come out at 7500.
    (fill,) = mixed(0.2 * LITRE, 0.05, tablets(1.5), 8 * LITRE)

    assert fill.volume == pytest.approx(8 * LITRE)
    assert fill.strength == pytest.approx(0.1875)


def test_a_product_may_be_strong_enough_to_be_refused_only_by_its_label():
    assert mixed(CASE_600, 1.0, tablets(most=1.2), 8 * LITRE)[0].strength <= 1.2
