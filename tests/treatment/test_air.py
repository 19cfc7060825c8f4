import psychrolib
import pytest
from attrs import evolve

from estimator.errors import QuantityError
from estimator.treatment.air import (
    FREEZING,
    SEA_LEVEL,
    Air,
    humidity_ratio,
    saturation_pressure,
    wet_bulb,
)

psychrolib.SetUnitSystem(psychrolib.SI)
ROOM = Air(temperature=293.15, humidity=0.5, speed=0.1, source="invented", as_of="2026-01-01")
CELSIUS = [0.5, 5, 10, 15, 20, 25, 30, 40, 50]
HUMIDITIES = [0.05, 0.2, 0.35, 0.5, 0.65, 0.8, 0.95]
GRID = [(celsius, humidity) for celsius in CELSIUS for humidity in HUMIDITIES]


# ASHRAE Handbook: Fundamentals, chapter 1, table 3, kPa over water; from memory.
@pytest.mark.parametrize(
    ("celsius", "kilopascals"), [(10, 1.2282), (20, 2.3393), (25, 3.1699), (30, 4.2470)]
)
def test_saturation_pressure_is_that_of_the_ashrae_table(celsius, kilopascals):
    assert saturation_pressure(celsius + FREEZING) == pytest.approx(1000 * kilopascals, rel=3e-4)


@pytest.mark.parametrize("celsius", CELSIUS)
def test_saturation_pressure_is_that_of_psychrolib(celsius):
    expected = psychrolib.GetSatVapPres(celsius)

    assert saturation_pressure(celsius + FREEZING) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(("celsius", "humidity"), GRID)
def test_humidity_ratio_is_that_of_psychrolib(celsius, humidity):
    expected = psychrolib.GetHumRatioFromRelHum(celsius, humidity, SEA_LEVEL)

    assert humidity_ratio(celsius + FREEZING, humidity) == pytest.approx(expected, rel=1e-6)


@pytest.mark.parametrize(
    ("celsius", "humidity"),
    # PsychroLib takes a bulb below freezing for ice; a film of solution is water
    [
        (celsius, humidity)
        for celsius, humidity in GRID
        if psychrolib.GetTWetBulbFromRelHum(celsius, humidity, SEA_LEVEL) > 0
    ],
)
def test_wet_bulb_is_that_of_psychrolib(celsius, humidity):
    expected = psychrolib.GetTWetBulbFromRelHum(celsius, humidity, SEA_LEVEL)

    assert wet_bulb(celsius + FREEZING, humidity) - FREEZING == pytest.approx(expected, abs=3e-3)


@pytest.mark.parametrize(
    ("changes", "says"),
    [
        ({"temperature": 272.0}, "temperature of the air: -1 °C is outside 0 to 50 °C"),
        ({"temperature": 330.0}, "57 °C is outside"),
        ({"humidity": 1.1}, "must be at least 0 and at most 1"),
        ({"humidity": 0.97}, "at 97% a film hardly dries"),
        ({"humidity": -0.1}, "must be at least 0"),
        ({"speed": 20.0}, "20 m/s is a gale"),
        ({"speed": float("nan")}, "must be at least 0 m/s"),
    ],
)
def test_air_that_cannot_be_is_refused_in_a_sentence(changes, says):
    with pytest.raises(QuantityError, match=says):
        evolve(ROOM, **changes)
