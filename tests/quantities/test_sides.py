from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import QuantityError
from estimator.quantities.sides import sides


@pytest.mark.parametrize(
    ("text", "unit", "metres"),
    [
        ("4.2 x 3.1", "m", (4.2, 3.1)),
        ("4.2x3.1m", None, (4.2, 3.1)),
        ("4,2 × 3,1 m", None, (4.2, 3.1)),
        ("4.2 m by 310 cm", None, (4.2, 3.1)),
        ("12' x 10' 6\"", None, (3.6576, 3.2004)),
        ("12 X 10", "ft", (3.6576, 3.048)),
        ("12 ft x 10 ft", "m", (3.6576, 3.048)),
        ("3 * 4", "m", (3.0, 4.0)),
    ],
)
def test_two_sides_are_read_in_any_spelling(text, unit, metres):
    assert sides(text, unit) == pytest.approx(metres)


@pytest.mark.parametrize("text", ["", "4.2", "4 x", "x 4", "4 x 3 x 2", "0 x 3", "a x b", "-1 x 2"])
def test_what_is_not_two_sides_is_refused(text):
    with pytest.raises(QuantityError):
        sides(text, "m")


def test_a_pasted_book_is_refused_at_once():
    with pytest.raises(QuantityError, match="not two sides"):
        sides("4 x 3 " * 200_000, "m")


@given(st.text(max_size=40))
def test_any_text_is_two_sides_or_refused(text):
    with suppress(QuantityError):
        assert min(sides(text, "m")) > 0
