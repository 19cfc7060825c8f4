import typing

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator import measures
from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.quantities import (
    Units,
    quantity,
    shown_concentration,
    shown_duration,
    shown_film,
    shown_flow,
    shown_mass,
    shown_pace,
    shown_volume,
)

US_GALLON = 231 * 0.0254**3  # 231 cubic inches: NIST Handbook 44, appendix C
IMPERIAL_GALLON = 4.54609e-3  # UK Units of Measurement Regulations 1995 (from memory)


@pytest.mark.parametrize(
    ("text", "unit", "expected"),
    [
        ("45 m^2/h", "m^2/s", 45 / 3600),
        ("45 m²/h", "m^2/s", 45 / 3600),
        ("480 sq ft per hour", "m^2/s", 480 * 0.09290304 / 3600),
        ("40 mL/m^2", "m^3/m^2", 4e-5),
        ("8 L", "m^3", 0.008),
        ("8 litres", "m^3", 0.008),
        ("0,75 l", "m^3", 0.00075),
        ("1/2 L", "m^3", 0.0005),
        ("1½ L", "m^3", 0.0015),
        ("500 ppm", "kg/m^3", 0.5),
        ("5 g/L", "kg/m^3", 5.0),
        ("10 min", "s", 600.0),
        ("1 h 30 min", "s", 5400.0),
        ("1.5 g", "kg", 0.0015),
        ("760 mL/min", "m^3/s", 0.00076 / 60),
        ("5 1/h", "1/s", 5 / 3600),
        ("5 per hour", "1/s", 5 / 3600),
        ("3 min/m^2", "s/m^2", 180.0),
        ("0.12 mL/m^2/min", "m^3/m^2/s", 2e-9),
        ("4 /m^2", "1/m^2", 4.0),
        ("12.5 %", "dimensionless", 0.125),
        ("0.05", "dimensionless", 0.05),
        ("12'-6\"", "m", 3.81),
        ("153 sq ft", "m^2", 14.21416512),
        ("8 oz", "kg", 8 * 0.028349523125),  # NIST Handbook 44, appendix C
    ],
)
def test_a_measure_is_read_into_the_si_unit_asked_for(text, unit, expected):
    assert quantity(text, unit) == pytest.approx(expected, rel=1e-12)


def test_one_per_mille_of_chlorine_is_a_thousand_ppm():
    # WHO, Cleaning and disinfection of environmental surfaces in the context of COVID-19 (2020):
    # 0.1 % is 1000 ppm, 0.5 % is 5000 ppm.
    assert quantity("0.1 %", "kg/m^3") == quantity("1000 ppm", "kg/m^3") == 1.0
    assert quantity("0.5 %", "kg/m^3") == quantity("5000 ppm", "kg/m^3") == 5.0


def test_gallons_are_those_of_the_country_named():
    for text in ("1 US gal", "1 gal_us", "1 US gallon", "1 gallon US", "1 U.S. gallon"):
        assert quantity(text, "m^3") == pytest.approx(US_GALLON, rel=1e-12)
    for text in ("1 imp gal", "1 imperial gallon", "1 UK gallons", "1 imperial_gallon"):
        assert quantity(text, "m^3") == pytest.approx(IMPERIAL_GALLON, rel=1e-12)
    assert quantity("128 US fl oz", "m^3") == pytest.approx(US_GALLON, rel=1e-12)
    assert quantity("160 imp fl oz", "m^3") == pytest.approx(IMPERIAL_GALLON, rel=1e-9)


@pytest.mark.parametrize("text", ["2 gal", "2 gallons", "2 gal/h", "3 fl oz", "1 quart", "2 pints"])
def test_a_gallon_of_no_country_is_asked_about(text):
    with pytest.raises(QuantityError, match=r"US .* or imp"):
        quantity(text, "m^3")


def test_a_bare_number_is_refused_where_a_unit_matters():
    with pytest.raises(MissingUnit, match=r"no unit; give a volume, such as 5 L"):
        quantity("8", "m^3")


@pytest.mark.parametrize(
    ("text", "unit", "problem"),
    [
        ("45 m^2/h", "m^3", "an area in a time where a volume"),
        ("8 L", "m", "a volume where a length"),
        ("14 kg", "m^2", "a mass where an area"),
        ("14 m", "m^2", "a length where an area"),
        ("500 ppm", "m^3", "a plain number where a volume"),
        ("10 min", "kg", "a time where a mass"),
    ],
)
def test_a_measure_of_another_kind_is_refused_naming_both(text, unit, problem):
    with pytest.raises(WrongDimension, match=problem):
        quantity(text, unit)


@pytest.mark.parametrize(
    ("text", "unit"),
    [
        ("", "s"),
        ("-8 L", "m^3"),
        ("−8 L", "m^3"),
        ("nan L", "m^3"),
        ("inf L", "m^3"),
        ("1e400 L", "m^3"),
        ("15 USD/h", "1/s"),
        ("9**9**9", "m^3"),
        ("9 m**9**9", "m^3"),
        ("9 m^999999", "m^3"),
        ("5 __import__('os')", "m^3"),
        ("5 L/", "m^3"),
        ("5 L/0 m^2", "m^3/m^2"),
        ("1..5 L", "m^3"),
        ("8 L " * 1000, "m^3"),
        ("3,450 m", "m"),
    ],
)
def test_what_cannot_be_a_measure_is_refused_in_a_sentence(text, unit):
    with pytest.raises(QuantityError) as caught:
        quantity(text, unit)
    assert len(str(caught.value)) < 250


def test_every_unit_of_the_measures_can_be_asked_for():
    units = {
        mark.symbol
        for hint in vars(measures).values()
        if typing.get_origin(hint) is typing.Annotated
        for mark in typing.get_args(hint)[1:]
    }
    assert len(units) >= 15
    for unit in units:
        text = "3" if unit == "dimensionless" else f"3 {unit}"
        assert quantity(text, unit) == pytest.approx(3.0)


@pytest.mark.parametrize(
    ("shown", "unit"),
    [(shown_volume, "m^3"), (shown_mass, "kg"), (shown_film, "m^3/m^2"), (shown_pace, "m^2/s"),
     (shown_flow, "m^3/s")],
)  # fmt: skip
@given(st.floats(1e-4, 10), st.sampled_from(Units))
def test_a_shown_measure_reads_back_within_its_figures(shown, unit, value, units):
    assert quantity(shown(value, units), unit) == pytest.approx(value, rel=0.06)


@given(st.floats(0, 1e6))
def test_a_shown_duration_reads_back_within_half_a_minute(value):
    assert quantity(shown_duration(value), "s") == pytest.approx(value, abs=30.5)


@given(st.floats(0.0001, 100))
def test_a_shown_strength_reads_back(value):
    assert quantity(shown_concentration(value), "kg/m^3") == pytest.approx(value, rel=0.06)


@given(st.text(max_size=30), st.sampled_from(["m", "m^2", "m^3", "s", "kg/m^3", "1/s"]))
def test_any_text_is_a_measure_or_a_quantity_error(text, unit):
    try:
        value = quantity(text, unit)
    except QuantityError:
        return
    assert value >= 0


@pytest.mark.parametrize(
    ("written", "kelvins"),
    [
        ("20 °C", 293.15),
        ("20 C", 293.15),
        ("68 °F", 293.15),
        ("68 degrees Fahrenheit", 293.15),
        ("293.15 K", 293.15),
        ("0 °C", 273.15),
    ],
)
def test_temperatures_are_read_on_each_scale(written, kelvins):
    assert quantity(written, "K") == pytest.approx(kelvins)


@pytest.mark.parametrize(
    ("written", "says"), [("20", "it has no unit"), ("20 m", "is a length"), ("-4 °C", "negative")]
)
def test_a_temperature_is_not_guessed(written, says):
    with pytest.raises(QuantityError, match=says):
        quantity(written, "K")
