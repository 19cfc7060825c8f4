import pytest

from estimator.quantities import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_film,
    shown_length,
    shown_mass,
    shown_volume,
)


@pytest.mark.parametrize(
    ("value", "metric", "us"),
    [
        (3.81, "3.81 m", "12' 6\""),
        (3.6576, "3.66 m", "12' 0\""),
        (0.1524, "0.15 m", '6"'),
        (0.0127, "0.01 m", '½"'),
        (3.8227, "3.82 m", "12' 6½\""),
        (0.3047, "0.3 m", "1' 0\""),  # never 12 inches
        (0.0, "0 m", '0"'),
        (2.7, "2.7 m", "8' 10½\""),
    ],
)
def test_lengths_are_shown_to_the_centimetre_and_half_inch(value, metric, us):
    assert shown_length(value, Units.METRIC) == metric
    assert shown_length(value, Units.US) == us


def test_one_square_metre_is_10_76_square_feet():
    assert shown_area(1.0, Units.US) == "10.8 ft²"
    assert shown_area(1000.0, Units.US) == "10,764 ft²"  # 1 / 0.09290304, NIST SP 811


def test_areas_keep_three_figures_and_part_thousands():
    shown = [shown_area(value, Units.METRIC) for value in (0.0, 1.89, 47.62, 99.96, 1317.92, 1e6)]
    assert shown == ["0 m²", "1.89 m²", "47.6 m²", "100 m²", "1,318 m²", "1,000,000 m²"]


def test_small_volumes_are_in_millilitres_or_fluid_ounces():
    assert shown_volume(0.00064, Units.METRIC) == "640 mL"
    assert shown_volume(0.006384, Units.METRIC) == "6.38 L"
    assert shown_volume(0.0037854118, Units.US) == "1 US gal"
    assert shown_volume(0.0000295735, Units.US) == "1 US fl oz"


def test_masses_change_to_kilograms_and_pounds_when_large():
    assert shown_mass(0.0106, Units.METRIC) == "10.6 g"
    assert shown_mass(1.25, Units.METRIC) == "1.25 kg"
    assert shown_mass(0.45359237, Units.US) == "1 lb"  # exact: NIST Handbook 44, appendix C
    assert shown_mass(0.028349523125, Units.US) == "1 oz"


def test_a_square_metre_per_litre_is_40_7_square_feet_per_us_gallon():
    # 1 L/m² is 3.785411784 / 0.09290304 = 40.7458 to the inverse US gallon per ft²
    assert shown_film(1e-3, Units.US) == "3,141 US fl oz/1,000 ft²"
    assert pytest.approx(128 * 1000 / 40.7458, abs=1) == 3141


@pytest.mark.parametrize(
    ("seconds", "shown"),
    [(0, "0 s"), (45, "45 s"), (60, "1 min"), (90, "90 s"), (600, "10 min"), (3570, "1 h"),
     (3900, "1 h 5 min"), (3599, "1 h"), (100 * 3600, "100 h")],
)  # fmt: skip
def test_durations_are_in_hours_and_minutes(seconds, shown):
    assert shown_duration(seconds) == shown


def test_strengths_are_in_ppm():
    assert shown_concentration(0.05) == "50 ppm"
    assert shown_concentration(4.0) == "4,000 ppm"
