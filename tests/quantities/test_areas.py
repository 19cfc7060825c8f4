import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.quantities import Units, area, shown_area

SQUARE_FOOT = 0.09290304  # exact: 0.3048 squared, NIST Special Publication 811 (2008), appendix B


@pytest.mark.parametrize(
    "text",
    ["14.2 m²", "14,2 m2", "14.2m2", "14.2 m^2", "14.2 sq m", "14.2 sqm", "14.2 sq. m",
     "14.2 square metres", "14.2 Square Meters"],
)  # fmt: skip
def test_square_metres_are_read_in_every_usual_spelling(text):
    assert area(text) == 14.2


@pytest.mark.parametrize(
    "text",
    ["153 sq ft", "153 ft²", "153 ft2", "153 sqft", "153 sq. ft.", "153 square feet", "153 SQ FT",
     "153 square foot", "17 sq yd"],
)  # fmt: skip
def test_square_feet_are_the_exact_ones_of_nist_sp_811(text):
    assert area(text) == pytest.approx(153 * SQUARE_FOOT, rel=1e-12)


def test_a_number_without_a_unit_or_with_one_of_length_is_refused():
    with pytest.raises(MissingUnit):
        area("20")
    with pytest.raises(WrongDimension, match="length where an area"):
        area("20 m")


@pytest.mark.parametrize("text", ["", "abc", "-3 m2", "nan m2", "20 m2 or so", "1.2.3 m2", "²"])
def test_what_is_no_area_is_refused(text):
    with pytest.raises(QuantityError):
        area(text)


@given(st.floats(0, 1e6), st.sampled_from(Units))
def test_a_shown_area_reads_back_within_its_rounding(value, units):
    rounding = max(0.005 * value, 0.006)
    assert area(shown_area(value, units)) == pytest.approx(value, abs=rounding)
