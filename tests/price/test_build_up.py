from decimal import Decimal

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import PriceError
from estimator.price.build_up import LineKind, Work, price
from estimator.price.conditions import Conditions
from estimator.price.rates import Per, ProductPrice, Rates
from estimator.price.taxes import Tax, TaxPlace

# Our own invented figures, chosen so that every line can be worked by hand.
RATES = Rates(
    currency="USD",
    labour_per_hour=Decimal(20),
    burden=Decimal("0.25"),
    wear_per_person=Decimal(10),
    equipment_per_hour=Decimal(6),
    travel_per_km=Decimal("0.5"),
    overhead=Decimal("0.1"),
    markup=Decimal("0.25"),
    minimum_charge=Decimal(100),
    place="here",
    places=(
        TaxPlace(
            slug="here",
            label="Here",
            taxes=(Tax(label="Sales tax", share=Decimal("0.08")),),
            source="x",
            as_of="2026",
        ),
    ),
    products=(
        ProductPrice(
            product="tablets", per=Per.TABLET, amount=Decimal("0.4"), source="x", as_of="2026"
        ),
    ),
    source="invented",
    as_of="2026",
)
WORK = Work(
    crew=2,
    person_time=4 * 3600.0,
    on_site=2 * 3600.0,
    product="tablets",
    tablets=25,
    distance=20_000.0,
    road_time=1800.0,
)


def amounts(offer):
    return {line.kind: str(line.amount.amount) for line in offer.lines}


def test_every_line_of_a_visit_can_be_worked_by_hand():
    # Labour 4 h × 25; road 0.5 h × 2 × 25; vehicle 20 km × 0.5; 25 tablets × 0.4; 2 × 10; 2 h × 6.
    assert amounts(price(WORK, RATES)) == {
        LineKind.LABOUR: "100.00",
        LineKind.TRAVEL_TIME: "25.00",
        LineKind.VEHICLE: "10.00",
        LineKind.SOLUTION: "10.00",
        LineKind.WEAR: "20.00",
        LineKind.EQUIPMENT: "12.00",
        LineKind.OVERHEAD: "17.70",  # 10 % of 177
        LineKind.MARKUP: "48.68",  # 25 % of 194.70 = 48.675
        LineKind.TAX: "19.47",  # 8 % of 243.38 = 19.4704
    }
    assert str(price(WORK, RATES).total) == "USD 262.85"


def test_equipment_grows_with_the_sprayers():
    line = next(
        line
        for line in price(evolve(WORK, sprayers=3), RATES).costs
        if line.kind is LineKind.EQUIPMENT
    )
    assert (line.quantity, line.unit, line.amount.amount) == (6, "sprayer-hour", 36)  # 3 × 2 h × 6


def test_a_markup_of_a_quarter_is_a_margin_of_a_fifth():
    # Definition of margin and mark-up in any accounting textbook: 0.25 ÷ 1.25 = 0.20.
    offer = price(WORK, evolve(RATES, overhead=Decimal(0)))
    margin = (offer.charge.amount - offer.cost.amount) / offer.charge.amount
    assert round(margin, 4) == Decimal("0.2000")


def test_a_small_visit_is_lifted_to_the_minimum_charge():
    offer = price(evolve(WORK, person_time=600.0, on_site=300.0, tablets=1, distance=0.0), RATES)
    assert offer.at_minimum
    assert offer.charge.amount == 100
    assert offer.total.amount == 108


def test_a_discount_comes_off_before_tax_but_not_below_the_minimum():
    full, less = price(WORK, RATES), price(WORK, RATES, Conditions(discount=Decimal("0.1")))
    assert less.charge.amount == Decimal("219.04")  # 243.38 − 24.338 rounded half up
    assert price(WORK, RATES, Conditions(discount=Decimal(1))).charge.amount == 100
    assert full.charge.amount == Decimal("243.38")


def test_a_discount_above_all_is_refused():
    with pytest.raises(PriceError, match=r"discount: 1.5 is no share; give one from 0 to 1"):
        Conditions(discount=Decimal("1.5"))


def test_a_product_without_a_price_is_refused():
    with pytest.raises(PriceError, match="powder: the rates do not say what it costs"):
        price(evolve(WORK, product="powder"), RATES)


@pytest.mark.parametrize("wrong", ["-1", "NaN", "Infinity"])
def test_an_impossible_rate_is_refused_by_name(wrong):
    with pytest.raises(PriceError, match=r"Rates.labour_per_hour: must be at least 0"):
        evolve(RATES, labour_per_hour=Decimal(wrong))


@given(st.floats(0, 1e6), st.floats(0, 1e5), st.integers(0, 5000))
def test_the_rounded_lines_add_up_to_the_total(person_time, on_site, tablets):
    work = evolve(WORK, person_time=person_time, on_site=on_site, tablets=tablets)
    offer = price(work, RATES)
    assert sum(line.amount.amount for line in offer.lines) == offer.total.amount
    assert offer.charge.amount >= RATES.minimum_charge


def test_liquids_are_priced_by_the_litre_and_powder_by_the_kilogram():
    rows = (
        ProductPrice(product="l", per=Per.LITRE, amount=Decimal(3), source="x", as_of="2026"),
        ProductPrice(product="p", per=Per.KILOGRAM, amount=Decimal(9), source="x", as_of="2026"),
    )
    rates = evolve(RATES, products=rows)
    liquid = price(evolve(WORK, product="l", concentrate=0.002), rates)
    powder = price(evolve(WORK, product="p", powder=0.5), rates)
    assert amounts(liquid)[LineKind.SOLUTION] == "6.00"
    assert amounts(powder)[LineKind.SOLUTION] == "4.50"
