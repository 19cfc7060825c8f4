"""The air of the rooms, and what it takes up: standard psychrometrics.

Formulas are those of the *ASHRAE Handbook: Fundamentals* (2017), chapter 1, for moist air at the
pressure of sea level.
"""

import math

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import Kelvins, MetresPerSecond, Pascals, Ratio, Share, checked

SEA_LEVEL: Pascals = 101_325.0
"""Standard atmospheric pressure."""

FREEZING: Kelvins = 273.15
COLDEST: Kelvins = FREEZING
WARMEST: Kelvins = FREEZING + 50
"""Films of water neither freeze nor are rooms warmer where anybody works."""

DAMPEST: Share = 0.95
"""Measured evaporation that formulas rest on reaches to this humidity (Shah 2002, *HVAC&R
Research* 8:125)."""

FASTEST: MetresPerSecond = 5.0
"""More is a gale, not the air of a room (our own choice)."""

_OVER_WATER = (-5.8002206e3, 1.3914993, -4.8640239e-2, 4.1764768e-5, -1.4452093e-8, 6.5459673)
_VAPOUR_TO_AIR: Ratio = 0.621945
_CLOSE_ENOUGH: Kelvins = 1e-4


@frozen(kw_only=True, field_transformer=checked)
class Air:
    """The air of the rooms under treatment.

    Parameters
    ----------
    humidity
        Relative humidity.
    speed
        Of the air along the wet surfaces; about 0.1 m/s where no fan or window stirs it.
    """

    temperature: Kelvins
    humidity: Share
    speed: MetresPerSecond
    source: str
    as_of: str

    def __attrs_post_init__(self) -> None:
        if not COLDEST <= self.temperature <= WARMEST:
            raise QuantityError(
                "temperature of the air",
                f"{self.temperature - FREEZING:.0f} °C is outside 0 to 50 °C",
                "give that of the rooms while they are treated",
            )
        if self.humidity > DAMPEST:
            raise QuantityError(
                "humidity of the air",
                f"at {self.humidity:.0%} a film hardly dries and no formula was tested",
                f"give at most {DAMPEST:.0%}, or dry the rooms first",
            )
        if self.speed > FASTEST:
            raise QuantityError(
                "speed of the air",
                f"{self.speed:g} m/s is a gale",
                f"give at most {FASTEST:g} m/s; about 0.1 m/s is still air",
            )


def saturation_pressure(temperature: Kelvins) -> Pascals:
    """Return the vapour pressure of air saturated over water, 0 to 200 °C (equation 6).

    >>> round(saturation_pressure(293.15))  # 20 °C
    2339
    """
    over, constant, first, second, third, log = _OVER_WATER
    return math.exp(
        over / temperature
        + constant
        + first * temperature
        + second * temperature**2
        + third * temperature**3
        + log * math.log(temperature)
    )


def humidity_ratio(temperature: Kelvins, humidity: Share) -> Ratio:
    """Return the mass of vapour for each of dry air (equations 12 and 20)."""
    vapour = humidity * saturation_pressure(temperature)
    return _VAPOUR_TO_AIR * vapour / (SEA_LEVEL - vapour)


def wet_bulb(temperature: Kelvins, humidity: Share) -> Kelvins:
    """Return the temperature that a film takes on that no surface warms (equation 33, bisected)."""
    ratio = humidity_ratio(temperature, humidity)
    low, high = FREEZING - 40, temperature
    while high - low > _CLOSE_ENOUGH:
        middle = (low + high) / 2
        if _ratio_by_wet_bulb(temperature, middle) > ratio:
            high = middle
        else:
            low = middle
    return (low + high) / 2


def _ratio_by_wet_bulb(temperature: Kelvins, bulb: Kelvins) -> Ratio:
    """Return the humidity ratio of air by its two thermometers, in °C by the source."""
    dry, wet = temperature - FREEZING, bulb - FREEZING
    saturated = humidity_ratio(bulb, 1.0)
    return ((2501 - 2.326 * wet) * saturated - 1.006 * (dry - wet)) / (
        2501 + 1.86 * dry - 4.186 * wet
    )
