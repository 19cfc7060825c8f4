import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.quantities import Units, length, shown_length

INCH = 0.0254  # exact: NIST Special Publication 811 (2008), appendix B
FOOT = 0.3048  # exact: the same


def test_inch_foot_and_yard_are_the_exact_ones_of_nist_sp_811():
    assert length("1 in") == INCH
    assert length("1 ft") == FOOT
    assert length("1 yd") == 0.9144


@pytest.mark.parametrize(
    "text",
    [
        "12'-6\"",
        "12' 6\"",
        "12'6\"",
        "12'6",
        "12' 6",
        "12' - 6\"",
        "12ft 6in",
        "12ft6in",
        "12 ft 6 in",
        "12 ft. 6 in.",
        "12 FT 6 IN",
        "12 ft 6",
        "12 feet 6 inches",
        "12 feet, 6 inches",
        "12 feet and 6 inches",
        "12 foot 6",
        "twelve feet six inches",
        "12’ 6”",
        "12′ 6″",
        "12ʹ 6ʺ",
        "12' 6''",
        "12´6",
        "12\u00a0ft\u00a06\u00a0in",
        "12½ ft",
        "12 1/2 ft",
        "12.5'",
        "12,5 ft",
        '150"',
        "150 inches",
        "4 yd 6 in",
        "4 yards 0 ft 6 in",
    ],
)
def test_twelve_feet_six_is_read_in_every_usual_spelling(text):
    assert length(text) == pytest.approx(3.81, abs=1e-12)


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("12' 6 1/2\"", 150.5),
        ("12'-6½\"", 150.5),
        ("12'-6-1/2\"", 150.5),
        ("12' 6½", 150.5),
        ('5 1/4"', 5.25),
        ('5-1/4"', 5.25),
        ('5¼"', 5.25),
        ('6"', 6.0),
        ("6''", 6.0),
        ('½"', 0.5),
        ("3/16 in", 0.1875),
        ("0.5 in", 0.5),
        (".5 in", 0.5),
        ("10½ ft", 126.0),
        ("0'-6\"", 6.0),
        ("12-foot", 144.0),
    ],
)
def test_fractions_of_an_inch_are_read(text, inches):
    assert length(text) == pytest.approx(inches * INCH, abs=1e-12)


@pytest.mark.parametrize(
    "text",
    ["3.45m", "3.45 m", "3,45 m", "345 cm", "3450 mm", "3,450 mm", "3 m 45", "3m45", "3 m 450",
     "3 m 45 cm", "3.45 metres", "3.45 Meters", "three m 45 cm"],
)  # fmt: skip
def test_metric_lengths_are_read_with_point_and_comma(text):
    assert length(text) == 3.45


def test_twelve_dash_six_is_feet_and_inches_only_when_feet_are_meant():
    assert length("12-6", default_unit="ft") == pytest.approx(3.81)
    assert length("12-6 1/2", default_unit="ft") == pytest.approx(3.8227)
    with pytest.raises(MissingUnit):
        length("12-6")
    with pytest.raises(QuantityError, match="range"):
        length("12-6", default_unit="m")
    with pytest.raises(QuantityError, match="range"):
        length("8-10 ft")


def test_a_bare_number_takes_only_a_unit_that_was_named():
    assert length("8", default_unit="m") == 8.0
    assert length("8", default_unit="ft") == pytest.approx(8 * FOOT)
    with pytest.raises(MissingUnit, match="no unit"):
        length("8")


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("", "no length"),
        ("abc", "no length"),
        ("nan m", "no length"),
        ("inf", "no length"),
        ("-3 m", "negative"),
        ("-12' 6\"", "negative"),
        ("3 m 5", "centimetres or tenths"),
        ("3,450 m", "3450 m or 3.450 m"),
        ("12.5' 6\"", "no one length"),
        ("12' 14\"", "no one length"),
        ("3 m 6 in", "does not belong"),
        ("6 in 3 ft", "does not belong"),
        ("12 6", "does not belong"),
        ("twenty one feet", "does not belong"),
        ("12 m, honest", "does not belong"),
        ("1.2.3 m", "no number"),
        ("1/7 ft", "no number"),
        ("9" * 40 + " m", "no number"),
        ("9" * 5000 + " m", "no length"),
        ("12 parsec", "does not belong"),
    ],
)
def test_what_is_no_length_or_could_be_two_is_refused_in_a_sentence(text, problem):
    with pytest.raises(QuantityError, match=problem) as caught:
        length(text)
    assert str(caught.value).endswith(".")
    assert len(str(caught.value)) < 200


def test_an_area_is_no_length():
    with pytest.raises(WrongDimension, match="area where a length"):
        length("12 m2")


@given(st.integers(0, 999), st.integers(0, 11), st.integers(0, 15))
def test_feet_inches_and_sixteenths_add_up(feet, inches, sixteenths):
    text = f"{feet}'-{inches} {sixteenths}/16\"" if sixteenths else f"{feet}'-{inches}\""
    assert length(text) == pytest.approx((feet * 12 + inches + sixteenths / 16) * INCH, abs=1e-11)


@given(st.floats(0, 999), st.sampled_from(Units))
def test_a_shown_length_reads_back_within_its_rounding(value, units):
    rounding = 0.005 if units is Units.METRIC else INCH / 4
    assert abs(length(shown_length(value, units)) - value) <= rounding + 1e-9


@given(st.text(alphabet="0123456789 .,'\"-/½xmftin", max_size=30))
def test_any_text_is_a_finite_length_or_a_quantity_error(text):
    try:
        value = length(text)
    except QuantityError:
        return
    assert math.isfinite(value)
    assert value >= 0
