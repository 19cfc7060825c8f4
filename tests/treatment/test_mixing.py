"""Mixing of single strengths; the tablets of 1.5 g are those of the WHO manual's Table 12."""

import itertools
import math

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import TreatmentError
from estimator.treatment.mixing import TOLERATED, even_volumes, tank_fills
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import TankFill

LITRE = 0.001
GRAM = 0.001
CASE_600 = 6.384 * LITRE  # 159.6 m² at 40 mL/m²


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
    (fill,) = tank_fills(CASE_600, 1.0, tablets(), 8 * LITRE)

    assert fill.tablets == 5
    assert fill.volume == pytest.approx(CASE_600)
    assert fill.strength == pytest.approx(1.175, abs=5e-4)


def test_case_600_takes_five_tablets_in_a_tank_of_4_litres_filled_twice():
    fills = tank_fills(CASE_600, 1.0, tablets(), 4 * LITRE)

    assert [fill.tablets for fill in fills] == [3, 2]
    assert made(fills) == pytest.approx(CASE_600)
    assert [fill.strength for fill in fills] == pytest.approx([1.175, 1.175], abs=5e-4)


def test_case_600_takes_10_64_grams_of_powder_of_60_percent():
    powder = product(Form.POWDER, available_share=0.6)

    (fill,) = tank_fills(CASE_600, 1.0, powder, 8 * LITRE)

    assert fill.powder == pytest.approx(10.64 * GRAM)
    assert fill.strength == 1.0


def test_concentrate_is_part_of_the_volume_and_water_the_rest():
    liquid = product(Form.LIQUID, available_strength=50.0)

    fills = tank_fills(20 * LITRE, 1.0, liquid, 8 * LITRE)  # C₁V₁ = C₂V₂: 0.4 L of 5 %

    assert [fill.volume for fill in fills] == pytest.approx([8 * LITRE, 8 * LITRE, 4 * LITRE])
    assert sum(fill.concentrate for fill in fills) == pytest.approx(0.4 * LITRE)
    assert all(fill.water + fill.concentrate == pytest.approx(fill.volume) for fill in fills)


def test_a_ready_product_is_used_as_it_is():
    ready = product(Form.READY, available_strength=1.2)

    (fill,) = tank_fills(5 * LITRE, 1.0, ready, 8 * LITRE)

    assert (fill.concentrate, fill.water, fill.strength) == (5 * LITRE, 0.0, 1.2)


def test_a_label_that_allows_no_more_than_wanted_leaves_a_little_over():
    fills = tank_fills(10 * LITRE, 1.0, tablets(most=1.0), 8 * LITRE)

    assert [fill.tablets for fill in fills] == [4, 3]
    assert made(fills) == pytest.approx(10.5 * LITRE)


@pytest.mark.parametrize(
    ("mixed", "wanted", "tank", "says"),
    [
        (tablets(most=0.9), 1.0, 8.0, "1000 ppm is more than the 900 ppm its label allows"),
        (tablets(grams=5, most=2.0), 1.0, 2.0, "one tablet in a full tank makes more"),
        (product(Form.TABLET), 1.0, 8.0, "chlorine per tablet is not known"),
        (product(Form.POWDER), 1.0, 8.0, "chlorine as a share of the mass is not known"),
        (product(Form.LIQUID), 1.0, 8.0, "chlorine by volume is not known"),
        (product(Form.READY, available_strength=0.5), 1.0, 8.0, "weaker than the 1000 ppm"),
        (product(Form.READY, available_strength=2.0, most=1.5), 1.0, 8.0, "2000 ppm is more"),
    ],
)
def test_what_cannot_be_mixed_by_the_label_is_refused_in_a_sentence(mixed, wanted, tank, says):
    with pytest.raises(TreatmentError, match=says):
        tank_fills(5 * LITRE, wanted, mixed, tank * LITRE)


def test_nothing_needed_is_nothing_mixed():
    assert tank_fills(0.0, 1.0, tablets(), 8 * LITRE) == ()


volumes = st.floats(0.01, 60.0).map(lambda litres: litres * LITRE)
tanks = st.floats(0.5, 20.0).map(lambda litres: litres * LITRE)
strengths = st.floats(0.05, 5.0)
allowances = st.none() | st.floats(1.0, 3.0)


@given(needed=volumes, tank=tanks)
def test_full_tanks_and_a_smaller_last_one_make_up_the_volume(needed, tank):
    parts = even_volumes(needed, tank)

    assert sum(parts) == pytest.approx(needed)
    assert all(0 < part <= tank * (1 + 1e-6) for part in parts)
    assert len(parts) == math.ceil(needed / tank - 1e-6)


@given(
    needed=volumes,
    wanted=strengths,
    tank=tanks,
    grams=st.sampled_from([0.5, 1.0, 1.5, 2.5, 3.3]),
    allowance=allowances,
)
def test_tablets_are_never_below_what_is_wanted_nor_above_the_label(
    needed, wanted, tank, grams, allowance
):
    most = allowance and wanted * allowance
    try:
        fills = tank_fills(needed, wanted, tablets(grams, most), tank)
    except TreatmentError:
        assert most is not None
        assert grams * GRAM / tank > most * (1 - 1e-6)
        return

    assert all(fill.strength >= wanted * (1 - 1e-6) for fill in fills)
    assert all(most is None or fill.strength <= most * (1 + 1e-6) for fill in fills)
    assert all(0 < fill.volume <= tank * (1 + 1e-6) and fill.tablets > 0 for fill in fills)
    assert made(fills) >= needed * (1 - 1e-6)
    assert all(
        fill.strength * fill.volume == pytest.approx(fill.tablets * grams * GRAM) for fill in fills
    )


def best_by_trying_all(needed, wanted, per_tablet, most, tank, *, fills_at_most=4):
    """Fills, litres left over and tablets of the best plan, by trying every number in each tank."""
    limit = 1 + math.ceil(tank * wanted / per_tablet)
    for fills in range(1, fills_at_most + 1):
        found = []
        for counts in itertools.combinations_with_replacement(range(1, limit + 1), fills):
            least = [count * per_tablet / most for count in counts]
            greatest = [min(tank, count * per_tablet / wanted) for count in counts]
            if max(least) <= tank * (1 + 1e-9) and sum(greatest) >= needed * (1 - 1e-9):
                found.append((max(0.0, sum(least) - needed), sum(counts)))
        if found:
            return fills, *min(found)
    return None


@given(
    quarter_litres=st.integers(1, 60),
    wanted=st.sampled_from([0.25, 0.5, 1.0, 2.0]),
    tank=st.sampled_from([2.0, 4.0, 5.0, 8.0]),
    grams=st.sampled_from([0.5, 1.0, 1.5, 2.5]),
    allowance=st.sampled_from([None, 1.0, 1.1, 1.5, 2.0]),
)
def test_no_other_plan_has_fewer_fills_less_left_over_or_fewer_tablets(
    quarter_litres, wanted, tank, grams, allowance
):
    needed = quarter_litres * 0.25 * LITRE
    most = allowance and wanted * allowance
    best = best_by_trying_all(needed, wanted, grams * GRAM, most or math.inf, tank * LITRE)
    if best is None:
        return
    fills = tank_fills(needed, wanted, tablets(grams, most), tank * LITRE)

    assert len(fills) == best[0]
    assert sum(fill.tablets for fill in fills) == best[2]
    if best[2] * grams * GRAM / (needed + best[1]) <= TOLERATED * wanted:
        assert made(fills) - needed == pytest.approx(best[1], abs=1e-9)


@given(needed=volumes, wanted=strengths, tank=tanks)
def test_only_a_full_tank_is_much_stronger_than_wanted(needed, wanted, tank):
    for fill in tank_fills(needed, wanted, tablets(1.5), tank):
        too_strong = fill.strength > TOLERATED * wanted * (1 + 1e-6)
        assert not too_strong or fill.volume == pytest.approx(tank)


def test_a_few_decilitres_for_toys_are_thinned_to_a_whole_tank():
    # 1.5 g in 8 L is 188 ppm, where 50 ppm (common practice) in 0.2 L would have come out at 7500.
    (fill,) = tank_fills(0.2 * LITRE, 0.05, tablets(1.5), 8 * LITRE)

    assert fill.volume == 8 * LITRE
    assert fill.strength == pytest.approx(0.1875)


def test_a_product_may_be_strong_enough_to_be_refused_only_by_its_label():
    strong = evolve(tablets(), most=1.2)

    assert tank_fills(CASE_600, 1.0, strong, 8 * LITRE)[0].strength <= 1.2
