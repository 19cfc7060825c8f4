"""Evaporation from a wet surface against published examples and other published formulas."""

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.treatment.air import FREEZING, Air, saturation_pressure
from estimator.treatment.evaporation import evaporation, evaporation_at, mass_evaporated

ROOM = Air(temperature=293.15, humidity=0.5, speed=0.1, source="invented", as_of="2026-01-01")


def by_ashrae(celsius: float, humidity: float, speed: float) -> float:
    """ASHRAE Handbook: HVAC Applications, pools: (0.089 + 0.0782 v)(p_w − p_a) ÷ Y kg/m²s.

    In kPa, m/s and kJ/kg, from memory, with the latent heat of vaporisation Y by 2501 − 2.38 t; a
    film at the temperature of the air.
    """
    kilopascals = saturation_pressure(celsius + FREEZING) * (1 - humidity) / 1000
    return (0.089 + 0.0782 * speed) * kilopascals / (2501 - 2.38 * celsius)


def test_the_published_pool_evaporates_0_04_kilograms_in_a_second():
    # The Engineering ToolBox, Evaporation from a water surface: 25 × 20 m, 0.5 m/s, saturated
    # 0.019826 kg/kg, air 0.0115 kg/kg: 0.04 kg/s.
    assert 25 * 20 * mass_evaporated(0.5, 0.019826 - 0.0115) == pytest.approx(0.04, abs=5e-4)


def test_the_formula_beside_it_gives_its_own_published_example():
    # A stored pool calculation by the ASHRAE formula: 1100 m², 0.2 m/s, water 3.5673 kPa, air
    # 1.68155 kPa, 2436.92 kJ/kg: 0.088806 kg/s, with the constants 0.0887 and 0.07815.
    rate = (0.0887 + 0.07815 * 0.2) * (3.5673 - 1.68155) / 2436.92

    assert 1100 * rate == pytest.approx(0.088806, rel=1e-4)


@pytest.mark.parametrize("celsius", [10, 20, 30])
@pytest.mark.parametrize("humidity", [0.3, 0.5, 0.7])
@pytest.mark.parametrize("speed", [0.05, 0.1, 0.15])
def test_films_dry_a_little_sooner_than_by_the_ashrae_formula(celsius, humidity, speed):
    air = evolve(ROOM, temperature=celsius + FREEZING, humidity=humidity, speed=speed)

    ratio = 1000 * evaporation_at(air.temperature, air) / by_ashrae(celsius, humidity, speed)

    assert 1.05 < ratio < 1.30


def test_still_air_takes_50_to_250_grams_in_an_hour():  # order of magnitude, from memory
    drying = evaporation(ROOM)

    assert 50 < drying.slowest * 3600e6 < drying.fastest * 3600e6 < 250


@given(
    celsius=st.floats(0, 50),
    humidity=st.floats(0, 0.95),
    speed=st.floats(0, 5),
    more=st.floats(0.01, 1),
)
def test_films_dry_and_sooner_in_drier_and_faster_air(celsius, humidity, speed, more):
    air = evolve(ROOM, temperature=celsius + FREEZING, humidity=humidity, speed=speed)
    drying = evaporation(air)

    assert 0 < drying.slowest < drying.fastest
    assert evaporation(evolve(air, humidity=humidity * (1 - more))).fastest >= drying.fastest
    assert evaporation(evolve(air, speed=min(5, speed + more))).fastest >= drying.fastest
