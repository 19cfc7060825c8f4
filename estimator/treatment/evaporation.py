"""How fast a thin film of water dries in the air of the rooms."""

from attrs import frozen

from estimator.measures import (
    CubicMetresPerSquareMetreSecond,
    Kelvins,
    MetresPerSecond,
    Ratio,
    checked,
)
from estimator.treatment.air import Air, humidity_ratio, wet_bulb
from estimator.treatment.dilution import WATER_DENSITY

_HOUR = 3600.0


@frozen(kw_only=True, field_transformer=checked)
class Evaporation:
    """Water a wet surface loses per area and time, between two bounds.

    A film that the wall keeps as warm as the room dries fastest; one that nothing warms cools to
    the wet-bulb temperature and dries slowest. What lies between is not known, so the contact time
    is held against the fastest and going back in against the slowest.
    """

    fastest: CubicMetresPerSquareMetreSecond
    slowest: CubicMetresPerSquareMetreSecond


def evaporation(air: Air) -> Evaporation:
    """Return how fast films dry in this air."""
    return Evaporation(
        fastest=evaporation_at(air.temperature, air),
        slowest=evaporation_at(wet_bulb(air.temperature, air.humidity), air),
    )


def evaporation_at(film: Kelvins, air: Air) -> CubicMetresPerSquareMetreSecond:
    """Return what a film of a temperature loses: (25 + 19 v)(x_s − x) kg/m² in an hour [1]_.

    Parameters
    ----------
    film
        Temperature of the film.

    Notes
    -----
    The source gives no range of validity. In quiet air it lies 10 to 20 % above the formula of the
    *ASHRAE Handbook: HVAC Applications* for pools, which is stated for 0.05 to 0.15 m/s (from
    memory), and further above what was measured over pools (Shah 2002: water at 7 to 94 °C, air at
    6 to 35 °C and 28 to 95 %). It therefore errs towards films that dry too soon.

    References
    ----------
    .. [1] The Engineering ToolBox, *Evaporation from a water surface*, evaporation coefficient
       25 + 19 v for air at v m/s along the water.

    Examples
    --------
    >>> air = Air(temperature=293.15, humidity=0.5, speed=0.1, source="", as_of="")
    >>> round(evaporation_at(293.15, air) * 3600e6)  # mL/m² in an hour
    200
    """
    taken_up = humidity_ratio(film, 1.0) - humidity_ratio(air.temperature, air.humidity)
    return mass_evaporated(air.speed, taken_up) / WATER_DENSITY


def mass_evaporated(speed: MetresPerSecond, taken_up: Ratio) -> float:
    """Return the mass in kg/m² in a second, by the speed of the air and what it can take up."""
    return (25 + 19 * speed) * taken_up / _HOUR
