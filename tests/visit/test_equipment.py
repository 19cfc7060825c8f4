import pytest
from attrs import evolve

from estimator.errors import QuantityError


@pytest.mark.parametrize("part", ["tank", "flow", "battery"])
def test_a_sprayer_of_nothing_is_refused(sprayer, part):
    with pytest.raises(QuantityError, match="Sprayer: its tank, flow or battery is 0"):
        evolve(sprayer, **{part: 0.0})


@pytest.mark.parametrize("part", ["spray", "wipe", "air_changes"])
def test_a_pace_of_nothing_is_refused(pace, part):
    with pytest.raises(QuantityError, match=r"pace for \*: its spraying, wiping or air changes"):
        evolve(pace, **{part: 0.0})


@pytest.mark.parametrize("flow", [-1.0, float("nan"), float("inf")])
def test_a_flow_that_is_no_measure_is_refused(sprayer, flow):
    with pytest.raises(QuantityError, match=r"Sprayer.flow: must be at least 0 m\^3/s"):
        evolve(sprayer, flow=flow)
