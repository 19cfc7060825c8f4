import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.treatment.measuring import Measuring
from estimator.treatment.mixing import tank_fills
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import Mix, Stock
from estimator.treatment.stock import STRONGEST, stock_for

LITRE = 0.001
TANK = 8 * LITRE
MEASURING = Measuring(
    jug=LITRE, mark=0.05 * LITRE, scales=1e-4, cylinder=1e-6, source="invented", as_of="2026-01-01"
)
TABLETS = Product(
    slug="invented",
    label="Invented",
    active="dichlor",
    form=Form.TABLET,
    available_per_tablet=0.0015,
    basis="mass of available chlorine in one tablet",
    source="invented",
    as_of="2026-01-01",
)


def stock(litres: float, ppm: float, product: Product = TABLETS) -> Stock | None:
    needed, wanted = litres * LITRE, ppm / 1000
    mix = Mix(
        zones=("toys",),
        wanted=wanted,
        contact_time=60,
        needed=needed,
        fills=tank_fills(needed, wanted, product, TANK, MEASURING),
    )
    return stock_for(mix, product, TANK, MEASURING)


def test_ten_millilitres_of_a_litre_of_stock_make_300_millilitres_for_toys():
    # by C₁V₁ = C₂V₂: 1.5 g in 1 L is 1500 ppm, and 10 mL of it in 300 mL is 50 ppm
    made = stock(0.3, 50)

    assert (made.tablets, made.water, made.strength) == (1, LITRE, 1.5)
    (fill,) = made.fills
    assert (fill.volume, fill.concentrate) == (
        pytest.approx(0.3 * LITRE),
        pytest.approx(0.01 * LITRE),
    )
    assert made.left_over == pytest.approx(0.99 * LITRE)


def test_no_stock_is_offered_where_whole_tablets_come_close():
    assert stock(6.4, 1000) is None


def test_powder_needs_no_stock():
    powder = evolve(TABLETS, form=Form.POWDER, available_per_tablet=None, available_share=0.6)

    assert stock(0.3, 50, powder) is None


def test_no_stock_is_offered_where_it_is_not_exact():
    assert stock(0.3, 51.7) is None


@given(
    decilitres=st.integers(1, 300),
    ppm=st.sampled_from([20, 50, 75, 100, 200, 300, 600]),
)
def test_a_stock_is_exact_and_suffices(decilitres, ppm):
    made = stock(decilitres / 10, ppm)
    if made is None:
        return
    taken = sum(fill.concentrate for fill in made.fills)

    assert made.strength <= STRONGEST
    assert taken + made.left_over == pytest.approx(made.water)
    assert made.strength * made.water == pytest.approx(made.tablets * 0.0015)
    for fill in made.fills:
        assert fill.concentrate * made.strength == pytest.approx(fill.volume * ppm / 1000)
        assert fill.concentrate * 1e6 == pytest.approx(round(fill.concentrate * 1e6), abs=1e-6)
        assert fill.volume <= TANK * (1 + 1e-9)
