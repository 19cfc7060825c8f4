"""Measures as people read them, in metric or US customary units."""

from enum import StrEnum

from estimator.measures import (
    CubicMetres,
    CubicMetresPerSecond,
    CubicMetresPerSquareMetre,
    Kelvins,
    Kilograms,
    KilogramsPerCubicMetre,
    Metres,
    MetresPerSecond,
    Seconds,
    Share,
    SquareMetres,
    SquareMetresPerSecond,
)
from estimator.quantities.tokens import FOOT, INCH

_GALLON = 231 * INCH**3
_FLUID_OUNCE = _GALLON / 128
_OUNCE = 0.028349523125
"""US liquid and avoirdupois measures, exact [1]_.

References
----------
.. [1] NIST Handbook 44, appendix C.
"""

_HALVES = ("", "½")


class Units(StrEnum):
    """The system of units a person reads in."""

    METRIC = "metric"
    US = "us"


CREW_VOLUMES = {Units.METRIC: ("L", 1e-3), Units.US: ("US fl oz", _FLUID_OUNCE)}
"""The unit in which a crew writes down liquid, and its size in cubic metres."""

HOUSE_UNITS = {Units.METRIC: "m", Units.US: "ft"}
"""The unit of a bare size of a room by what a person reads in."""


def shown_length(value: Metres, units: Units) -> str:
    r"""Return a length to the centimetre, or to the half inch.

    >>> shown_length(3.8227, Units.METRIC), shown_length(3.8227, Units.US)
    ('3.82 m', '12\' 6½"')
    """
    if units is Units.METRIC:
        return f"{_trimmed(value, 2)} m"
    halves = round(value / INCH * 2)
    feet, rest = divmod(halves, 24)
    inches, half = divmod(rest, 2)
    shown_inches = f'{inches if inches or not half else ""}{_HALVES[half]}"'
    return f"{feet:,}' {shown_inches}" if feet else shown_inches


def shown_area(value: SquareMetres, units: Units) -> str:
    """Return an area.

    >>> shown_area(1317.92, Units.METRIC), shown_area(14.2, Units.US)
    ('1,318 m²', '153 ft²')
    """
    if units is Units.METRIC:
        return f"{figures(value)} m²"
    return f"{figures(value / FOOT**2)} ft²"


def shown_volume(value: CubicMetres, units: Units) -> str:
    """Return a volume of liquid.

    >>> shown_volume(0.006384, Units.METRIC), shown_volume(0.00025, Units.US)
    ('6.38 L', '8.45 US fl oz')
    """
    if units is Units.METRIC:
        return f"{figures(value * 1e3)} L" if value >= 1e-3 else f"{figures(value * 1e6)} mL"
    if value >= _GALLON / 4:
        return f"{figures(value / _GALLON)} US gal"
    return f"{figures(value / _FLUID_OUNCE)} US fl oz"


def shown_mass(value: Kilograms, units: Units) -> str:
    """Return a mass.

    >>> shown_mass(0.01064, Units.METRIC), shown_mass(0.5, Units.US)
    ('10.6 g', '1.1 lb')
    """
    if units is Units.METRIC:
        return f"{figures(value)} kg" if value >= 1 else f"{figures(value * 1e3)} g"
    if value >= 16 * _OUNCE:
        return f"{figures(value / (16 * _OUNCE))} lb"
    return f"{figures(value / _OUNCE)} oz"


def shown_film(value: CubicMetresPerSquareMetre, units: Units) -> str:
    """Return how much liquid an area takes.

    >>> shown_film(4e-5, Units.METRIC), shown_film(4e-5, Units.US)
    ('40 mL/m²', '126 US fl oz/1,000 ft²')
    """
    if units is Units.METRIC:
        return f"{figures(value * 1e6)} mL/m²"
    return f"{figures(value * 1000 * FOOT**2 / _FLUID_OUNCE)} US fl oz/1,000 ft²"


def shown_pace(value: SquareMetresPerSecond, units: Units) -> str:
    """Return how much area is done in an hour.

    >>> shown_pace(0.0125, Units.METRIC), shown_pace(0.0125, Units.US)
    ('45 m²/h', '484 ft²/h')
    """
    if units is Units.METRIC:
        return f"{figures(value * 3600)} m²/h"
    return f"{figures(value * 3600 / FOOT**2)} ft²/h"


def shown_flow(value: CubicMetresPerSecond, units: Units) -> str:
    """Return how much liquid flows in a minute.

    >>> shown_flow(0.00076 / 60, Units.METRIC), shown_flow(0.00076 / 60, Units.US)
    ('760 mL/min', '25.7 US fl oz/min')
    """
    if units is Units.METRIC:
        return f"{figures(value * 60e6)} mL/min"
    return f"{figures(value * 60 / _FLUID_OUNCE)} US fl oz/min"


def shown_temperature(value: Kelvins, units: Units) -> str:
    """Return a temperature.

    >>> shown_temperature(293.15, Units.METRIC), shown_temperature(293.15, Units.US)
    ('20 °C', '68 °F')
    """
    celsius = value - 273.15
    if units is Units.METRIC:
        return f"{_trimmed(celsius, 1)} °C"
    return f"{_trimmed(celsius * 1.8 + 32, 1)} °F"


def shown_speed(value: MetresPerSecond, units: Units) -> str:
    """Return a speed of air.

    >>> shown_speed(0.1, Units.METRIC), shown_speed(0.1, Units.US)
    ('0.1 m/s', '19.7 ft/min')
    """
    if units is Units.METRIC:
        return f"{figures(value)} m/s"
    return f"{figures(value * 60 / FOOT)} ft/min"


def shown_share(value: Share) -> str:
    """Return a share in per cent.

    >>> shown_share(0.5), shown_share(0.125)
    ('50 %', '12.5 %')
    """
    return f"{figures(100 * value)} %"


def shown_duration(value: Seconds) -> str:
    """Return a duration in hours and whole minutes, or in seconds below two minutes.

    >>> shown_duration(3900), shown_duration(600), shown_duration(45)
    ('1 h 5 min', '10 min', '45 s')
    """
    seconds = round(value)
    if seconds < 120 and seconds != 60:
        return f"{seconds} s"
    hours, minutes = divmod(round(seconds / 60), 60)
    if not hours:
        return f"{minutes} min"
    return f"{hours:,} h {minutes} min" if minutes else f"{hours:,} h"


def shown_concentration(value: KilogramsPerCubicMetre) -> str:
    """Return a strength of available chlorine; 1 ppm is 1 mg/L.

    >>> shown_concentration(0.5), shown_concentration(4.0)
    ('500 ppm', '4,000 ppm')
    """
    return f"{figures(value * 1000)} ppm"


def figures(value: float) -> str:
    """Return a number to three figures (two below 1), whole from 100 on, thousands parted.

    >>> figures(1234.5), figures(12.345), figures(0.1234)
    ('1,234', '12.3', '0.12')
    """
    for decimals, least in enumerate((99.95, 9.995, 0.0995, 0.00995)):
        if value >= least:
            return _trimmed(value, decimals)
    return _trimmed(value, 4)


def _trimmed(value: float, decimals: int) -> str:
    text = f"{value:,.{decimals}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
