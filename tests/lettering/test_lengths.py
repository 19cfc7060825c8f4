"""Values follow from 1 ft = 0.3048 m and 1 in = 0.0254 m exactly (NIST SP 811, appendix B)."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.lettering.lengths import LEAST, MOST, Way, lettered_lengths


@pytest.mark.parametrize(
    ("text", "metres", "way"),
    [
        ("12'-6\"", 3.81, Way.FEET),
        ("12' 6\"", 3.81, Way.FEET),
        ("12'6", 3.81, Way.FEET),
        ("12 ft 6 in", 3.81, Way.FEET),
        ("12′ 6½″", 3.8227, Way.FEET),
        ("10'", 3.048, Way.FEET),
        ("3.45 m", 3.45, Way.METRES),
        ("3,45m", 3.45, Way.METRES),
        ("3.45", 3.45, Way.METRES),
        ("345 cm", 3.45, Way.CENTIMETRES),
        ("345", 3.45, Way.CENTIMETRES),
        ("3450 mm", 3.45, Way.MILLIMETRES),
        ("12460", 12.46, Way.MILLIMETRES),
    ],
)
def test_lengths_as_plans_letter_them(text, metres, way):
    found = lettered_lengths(text)[0]

    assert (round(found.value, 4), found.way) == (metres, way)


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("1011", 3.3274),  # 10'11"
        ("126", 3.81),  # 12'6"
        ("84", 2.54),  # 8'4"
        ("139'", 4.191),  # 13'9"
        ('194"', 5.8928),  # 19'4"
        ("389 m", 3.89),
        ("5 89", 5.89),
        (".4.60 m", 4.6),
        ("l2'6\"", 3.81),
        ('39"', 1.143),  # 3'9"
        ('19 7"', 5.969),  # 19'7"
        ("7ft 1Om", 2.3876),  # 7ft 10in
        ("1/69 m", 1.69),
    ],
)
def test_lost_points_and_primes_are_among_the_ways_to_read(text, metres):
    assert metres in [round(found.value, 4) for found in lettered_lengths(text)]


def test_fourteen_inches_are_no_inches():
    assert all(found.way is not Way.FEET for found in lettered_lengths("12'14"))


@pytest.mark.parametrize("text", ["Bedroom", "", "1:50", "2 of 7", "0.1 m", "900 m of road"])
def test_what_is_no_length_of_a_plan_is_not_read(text):
    assert not lettered_lengths(text)


@given(st.text(alphabet="0123456789.,'\" mxcftinO°-/", max_size=12))
def test_any_lettering_is_read_or_left_and_lengths_stay_sensible(text):
    for found in lettered_lengths(text):
        assert LEAST <= found.value <= MOST
        assert found.step > 0
        assert 0 < found.likelihood <= 1


@given(st.integers(1, 59), st.integers(0, 11))
def test_feet_and_inches_are_read_whatever_primes_they_have(feet, inches):
    metres = feet * 0.3048 + inches * 0.0254
    for text in (
        f"{feet}'{inches}\"",
        f"{feet}′-{inches}″",
        f"{feet}' {inches}",
        f"{feet}°{inches}",
    ):
        assert abs(lettered_lengths(text)[0].value - metres) < 1e-9
