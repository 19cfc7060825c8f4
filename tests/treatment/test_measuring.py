import pytest
from attrs import evolve

from estimator.errors import QuantityError
from estimator.treatment.measuring import Measuring

GALLON = 231 * 0.0254**3
JUG = Measuring(
    jug=GALLON, mark=GALLON / 16, scales=1e-4, cylinder=1e-6, source="invented", as_of="2026-01-01"
)


def test_water_is_told_in_whole_jugs_and_a_rest():
    whole, rest = JUG.jugs(2.5 * GALLON)

    assert (whole, rest) == (2, pytest.approx(GALLON / 2))
    assert JUG.jugs(3 * (0.1 + 0.2) * GALLON / 0.3) == (3, 0.0)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"mark": 0.0}, "is 0"),
        ({"scales": 0.0}, "is 0"),
        ({"mark": 2 * GALLON}, "further apart than the jug holds"),
        ({"cylinder": -1.0}, "at least 0"),
    ],
)
def test_measures_that_cannot_be_are_refused(changes, says):
    with pytest.raises(QuantityError, match=says):
        evolve(JUG, **changes)
