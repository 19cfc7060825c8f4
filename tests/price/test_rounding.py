from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.price.rounding import Halves, to_step


@pytest.mark.parametrize(
    ("given_number", "step", "up", "even"),
    [
        # ISO 80000-1:2009, annex B, B.2 and B.3 (from memory): the examples of both rules.
        ("12.223", "0.1", "12.2", "12.2"),
        ("12.251", "0.1", "12.3", "12.3"),
        ("12.275", "0.1", "12.3", "12.3"),
        ("1223.3", "10", "1220", "1220"),
        ("1225.1", "10", "1230", "1230"),
        ("1227.5", "10", "1230", "1230"),
        ("12.25", "0.1", "12.3", "12.2"),
        ("12.35", "0.1", "12.4", "12.4"),
        ("1225.0", "10", "1230", "1220"),
        ("1235.0", "10", "1240", "1240"),
        # IEEE 754-2019, 4.3.1: roundTiesToAway and roundTiesToEven.
        ("0.5", "1", "1", "0"),
        ("1.5", "1", "2", "2"),
        ("2.5", "1", "3", "2"),
        ("-2.5", "1", "-3", "-2"),
    ],
)
def test_a_number_is_rounded_as_the_standards_show(given_number, step, up, even):
    number = Decimal(given_number)
    assert to_step(number, Decimal(step), Halves.UP) == Decimal(up)
    assert to_step(number, Decimal(step), Halves.EVEN) == Decimal(even)


@pytest.mark.parametrize(("cents", "paid"), list(enumerate([0, 0, 0, 5, 5, 5, 5, 5, 10, 10])))
def test_cents_are_rounded_to_five_as_a_treasury_lists_them(cents, paid):
    # Government of Canada, Budget 2012, "Rounding": 1, 2, 6 and 7 down, 3, 4, 8 and 9 up.
    assert to_step(Decimal(cents), Decimal(5)) == paid


@given(
    st.decimals(-(10**9), 10**9, places=9),
    st.sampled_from(["0.01", "0.05", "0.25", "1", "5", "100"]),
    st.sampled_from(Halves),
)
def test_the_nearest_multiple_by_exact_fractions(amount, step, halves):
    # Against Python's own fractions: round() of a fraction is roundTiesToEven.
    found, size = to_step(amount, Decimal(step), halves), Fraction(step)
    if halves is Halves.EVEN:
        assert Fraction(found) == round(Fraction(amount) / size) * size
    else:
        assert abs(Fraction(found) - Fraction(amount)) <= size / 2
        assert (Fraction(found) / size).denominator == 1
