import pytest

from estimator.treatment.dilution import (
    available_chlorine,
    available_share_from_hypochlorite,
    concentrate_needed,
    from_ppm,
    powder_per_volume,
    rounded_up,
    strength_from_trade_share,
    strength_from_weight_share,
    strength_obtained,
    tablets_needed,
    to_ppm,
    water_parts,
)

LITRE = 0.001
GRAM = 0.001
US_GALLON = 231 * 0.0254**3
CUP, TABLESPOON, TEASPOON = US_GALLON / 16, US_GALLON / 256, US_GALLON / 768


def mixed_into(water: float, chlorine_percent: float, liquid: float) -> float:
    """Parts per million of a liquid, its percent taken as 10 g/L, made up with water."""
    return to_ppm(strength_obtained(liquid * chlorine_percent * 10, water + liquid))


def in_volume(volume: float, chlorine_percent: float, liquid: float) -> float:
    """Parts per million of a liquid in a volume that is not added to."""
    return to_ppm(strength_obtained(liquid * chlorine_percent * 10, volume))


# CDC, Best Practices for Environmental Cleaning in Global Healthcare Facilities, Appendix E.


@pytest.mark.parametrize(("liquid", "wanted", "parts"), [(3.5, 0.5, 6), (5, 0.1, 49)])
def test_parts_of_water_are_those_of_cdc_appendix_e(liquid, wanted, parts):
    assert water_parts(liquid, wanted) == pytest.approx(parts)


def test_grams_of_powder_are_those_of_cdc_appendix_e():
    assert round(powder_per_volume(5.0, 0.35), 1) == 14.3


# World Health Organization, Laboratory biosafety manual, Table 12; printed values are rounded.


@pytest.mark.parametrize(("wanted", "millilitres"), [(1.0, 20), (5.0, 100)])
def test_liquid_of_5_percent_is_that_of_who_table_12(wanted, millilitres):
    assert concentrate_needed(LITRE, wanted, 50.0) == pytest.approx(millilitres * 1e-6)


@pytest.mark.parametrize(
    ("available", "wanted", "printed", "exact"),
    [
        (0.70, 1.0, 1.4, 1.429),
        (0.70, 5.0, 7.0, 7.143),
        (0.60, 1.0, 1.7, 1.667),
        (0.60, 5.0, 8.5, 8.333),
    ],
)
def test_powder_is_that_of_who_table_12(available, wanted, printed, exact):
    grams_per_litre = powder_per_volume(wanted, available)

    assert grams_per_litre == pytest.approx(exact, abs=5e-4)
    assert grams_per_litre == pytest.approx(printed, rel=0.025)


@pytest.mark.parametrize(("wanted", "tablets", "obtained"), [(1.0, 1, 1500), (5.0, 4, 6000)])
def test_tablets_of_who_table_12_are_rounded_up(wanted, tablets, obtained):
    assert tablets_needed(LITRE, wanted, 1.5 * GRAM) == tablets
    assert to_ppm(strength_obtained(tablets * 1.5 * GRAM, LITRE)) == pytest.approx(obtained)


def test_powder_and_liquid_for_20_litres_at_1000_ppm_by_c1v1():  # arithmetic
    chlorine = 20 * LITRE * from_ppm(1000)

    assert chlorine == pytest.approx(20 * GRAM)
    assert chlorine / 0.60 == pytest.approx(33.3 * GRAM, abs=5e-5)
    assert 20 * LITRE * powder_per_volume(1.0, 0.55) == pytest.approx(36.4 * GRAM, abs=5e-5)
    assert concentrate_needed(20 * LITRE, 1.0, 50.0) == pytest.approx(0.4 * LITRE)


@pytest.mark.parametrize(  # Cholera field guide, Appendix 14: 1 % stock in a litre
    ("grams_available", "printed"),
    [(15 * 0.70, 1.0), (33 * 0.30, 1.0), (10 * 1.0, 1.0), (70 * 0.15, 1.0)],
)
def test_one_percent_stock_is_that_of_the_cholera_field_guide(grams_available, printed):
    percent = to_ppm(strength_obtained(grams_available * GRAM, LITRE)) / 10_000

    assert percent == pytest.approx(printed, rel=0.06)


def test_a_quarter_litre_added_to_a_litre_is_not_made_up_to_a_litre():  # trap of the same guide
    assert mixed_into(LITRE, 5, 0.25 * LITRE) == pytest.approx(10_000)
    assert in_volume(LITRE, 5, 0.25 * LITRE) == pytest.approx(12_500)


# Available chlorine by formula mass; conventional atomic masses of IUPAC, in g/mol.
C, H, N, OX, NA, CL, CA = 12.011, 1.008, 14.007, 15.999, 22.990, 35.453, 40.078
RING = 3 * (C + N + OX)


@pytest.mark.parametrize(
    ("active", "grams_per_mole", "percent"),
    [
        (2, RING + NA + 2 * CL, 64.48),
        (2, RING + NA + 2 * CL + 2 * (2 * H + OX), 55.40),
        (3, RING + 3 * CL, 91.53),
        (1, NA + OX + CL, 95.25),
        (2, CA + 2 * (OX + CL), 99.18),
    ],
    ids=["dichlor", "dichlor dihydrate", "trichlor", "sodium", "calcium hypochlorite"],
)
def test_available_chlorine_follows_from_formula_mass(active, grams_per_mole, percent):
    assert round(100 * available_chlorine(active, grams_per_mole / 1000), 2) == percent


# Handbook of Chlorination: percent of what?


@pytest.mark.parametrize(
    ("hypochlorite", "gravity", "available_percent", "grams_per_litre"),
    [(5.25, 1.08, 5.00, 54.0), (6, 1.08, 5.72, 61.7), (8.25, 1.10, 7.86, 86.4)],
)
def test_weight_percent_of_hypochlorite_gives_grams_per_litre(
    hypochlorite, gravity, available_percent, grams_per_litre
):
    available = available_share_from_hypochlorite(hypochlorite / 100)

    assert 100 * available == pytest.approx(available_percent, abs=0.01)
    assert strength_from_weight_share(available, gravity) == pytest.approx(
        grams_per_litre, abs=0.05
    )


def test_weight_and_trade_percent_of_the_same_figure_differ():
    by_weight = strength_from_weight_share(available_share_from_hypochlorite(0.125), 1.16)

    assert by_weight == pytest.approx(138, abs=0.5)
    assert strength_from_trade_share(0.125) == pytest.approx(125)


def test_the_handbooks_factor_is_that_of_the_molar_masses():
    assert 1 / available_share_from_hypochlorite(1.0) == pytest.approx(1.05, abs=5e-3)


# Kitchen measures; the recipe's own publication is named, the ppm is arithmetic.


@pytest.mark.parametrize(
    ("percent", "water", "liquid", "ppm"),
    [
        (5.25, US_GALLON, CUP / 3, 1071),  # CDC 2020: at least 1000
        (5.25, US_GALLON / 4, 4 * TEASPOON, 1071),  # CDC 2020
        (8.25, US_GALLON, CUP / 3, 1684),  # the same recipe with a stronger bottle
        (5.25, US_GALLON, 5 * TABLESPOON, 1006),  # "5 tablespoons" is not a third of a cup
        (5, LITRE, 20e-6, 980),  # Health Canada: 0.1 %
        (5, 49, 1, 1000),  # WHO Q&A 2020: 1 part and 49 parts water
        (5.25, US_GALLON, TABLESPOON, 204),  # state extension, toys: about 200
        (2.75, US_GALLON, CUP / 3 + TABLESPOON, 664),  # Washington State DOH 970-216: 600-800
        (5.25, US_GALLON, 3 * TABLESPOON, 608),
        (6.25, US_GALLON, 3 * TABLESPOON, 724),
        (7.5, US_GALLON, 2 * TABLESPOON, 581),
        (8.25, US_GALLON, 2 * TABLESPOON, 640),
        (2.75, US_GALLON, TABLESPOON, 107),  # the same: about 100
        (5.25, US_GALLON, 2 * TEASPOON, 136),
        (6.25, US_GALLON, 2 * TEASPOON, 162),
        (7.5, US_GALLON, TEASPOON, 98),
        (8.25, US_GALLON, TEASPOON, 107),
        (5.25, US_GALLON, CUP / 4, 808),  # trap: one bulletin prints "about 600"
        (6.15, US_GALLON, CUP / 4, 946),
        (5.25, US_GALLON, 1.5 * CUP, 4500),  # trap: "about 6000"
        (6.15, US_GALLON, 1.5 * CUP, 5271),
        (6, 995, 5, 300),  # trap: one page prints "200"
    ],
)
def test_kitchen_measures_added_to_water(percent, water, liquid, ppm):
    assert mixed_into(water, percent, liquid) == pytest.approx(ppm, abs=0.51)


def test_one_to_ten_is_read_two_ways():  # CDC 2008 means 1 in 10
    assert round(52_500 / 10) == 5250
    assert mixed_into(10, 5.25, 1) == pytest.approx(4773, abs=0.5)
    assert mixed_into(9, 5.25, 1) == pytest.approx(5250)


# World Health Organization, Vector Control, 1997, chapter 9: 40 mL/m², insecticide arithmetic.


def test_wettable_powder_for_2_grams_per_square_metre_is_that_of_who_1997():
    per_litre = powder_per_volume(2 * GRAM / 40e-6, 0.75)

    assert per_litre == pytest.approx(66.6, abs=0.1)
    assert 8 * LITRE * per_litre == pytest.approx(533.3 * GRAM, abs=5e-5)


def test_concentrate_of_25_percent_for_1_gram_per_square_metre_is_that_of_who_1997():
    assert concentrate_needed(LITRE, GRAM / 40e-6, 250.0) == pytest.approx(100e-6)


def test_what_rounding_in_floats_adds_makes_no_tablet():
    assert rounded_up(0.1 * 3 / 0.1) == 3
    assert tablets_needed(0.003, 1.0, 0.0015) == 2
