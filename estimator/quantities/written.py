"""Measures written with their units, as the book holds them and people type them."""

import math
import re
from contextlib import suppress

from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.quantities.areas import area
from estimator.quantities.lengths import length, quoted
from estimator.quantities.registry import in_base_units
from estimator.quantities.tokens import number, plain

_MEASURE = {
    "m": ("a length", "m"),
    "m^2": ("an area", "m^2"),
    "m^3": ("a volume", "L"),
    "kg": ("a mass", "g"),
    "s": ("a time", "min"),
    "m^2/s": ("an area in a time", "m^2/h"),
    "m^3/s": ("a flow", "mL/min"),
    "m^3/m^2": ("a film", "mL/m^2"),
    "m^2/m^3": ("a coverage", "m²/L"),
    "m^3/m^2/s": ("a speed of drying", "mL/m^2/h"),
    "kg/m^3": ("a strength", "ppm"),
    "1/s": ("a number in a time", "1/h"),
    "m/s": ("a speed", "m/s"),
    "K": ("a temperature", "°C"),
    "1/m^2": ("a number on an area", "1/m^2"),
    "s/m^2": ("a time for an area", "min/m^2"),
    "m/pixel": ("a size of a pixel", "m/pixel"),
    "dimensionless": ("a plain number", ""),
}
"""Each unit asked for: what it measures and the unit people write it in."""

_SPELLED = {"m": length, "m^2": area}
_NUMBER = re.compile(r"[0-9][0-9.,]*(?:[eE][+-]?[0-9]{1,3}(?![A-Za-z]))?")
_FRACTION = re.compile(r"(?:([0-9]{1,6}) )?([0-9]{1,3})/([1-9][0-9]{0,2}) ")
_COMPOUND_TIME = re.compile(
    r"^([0-9.,]+) ?(?:h|hr|hrs|hours?) ?([0-9.,]+) ?(?:m|min|mins|minutes?|)$", re.IGNORECASE
)
_LONGEST = 100
_FIGURES = 13  # drops the dust of binary fractions
_DEGREES = re.compile(r"^(?:°|º|deg(?:rees)? ?)?(c|f|celsius|fahrenheit)$", re.IGNORECASE)
_FREEZING = 273.15
_STRENGTHS = {"ppm": "mg/L", "%": "10 g/L", "percent": "10 g/L", "% w/v": "10 g/L"}


def quantity(text: str, unit: str) -> float:
    """Read a measure written with its unit into the SI unit asked for.

    A strength may be given in ppm or percent of available chlorine by weight in volume: 1 ppm is
    1 mg/L and 1 % is 10 g/L, as dilution tables of public health bodies have it [1]_.

    Parameters
    ----------
    unit
        The symbol of a unit of `estimator.measures`, such as ``m^2/s``.

    Raises
    ------
    QuantityError
        MissingUnit for a bare number; WrongDimension for a measure of another kind; else when it
        is negative, unreadable, or a gallon that may be US or imperial.

    References
    ----------
    .. [1] World Health Organization, Cleaning and disinfection of environmental surfaces in the
       context of COVID-19 (2020): 0.1 % is 1000 ppm.

    Examples
    --------
    >>> quantity("45 m^2/h", "m^2/s"), quantity("500 ppm", "kg/m^3")
    (0.0125, 0.5)
    """
    where = quoted(text)
    what, example = _MEASURE.get(unit, ("a measure", unit))
    remedy = f"give {what}, such as {_example(example)}"
    if reader := _SPELLED.get(unit):
        try:
            return reader(text)
        except (MissingUnit, WrongDimension):
            raise
        except QuantityError:
            if _dimension(text) in (None, in_base_units(unit, where)[1]):
                raise
    line = " ".join(plain(text[:_LONGEST]).split())
    if match := _COMPOUND_TIME.match(line) if unit == "s" else None:
        return 3600 * _value(match[1], where, remedy) + 60 * _value(match[2], where, remedy)
    if line.startswith("-"):
        raise QuantityError(where, "it is negative", remedy)
    found = _NUMBER.match(line)
    if len(text) > _LONGEST:
        raise QuantityError(where, "it is too long for a measure", remedy)
    if found is None:
        raise QuantityError(where, "it does not begin with a number", remedy)
    if fraction := _FRACTION.match(line):
        whole, over, under = (int(part or 0) for part in fraction.groups())
        value, written = whole + over / under, line[fraction.end() :]
    else:
        value, written = _value(found.group(), where, remedy), line[found.end() :].strip()
    if unit == "kg/m^3":
        written = _STRENGTHS.get(written, written)
    if written == "" and unit != "dimensionless":
        raise MissingUnit(where, "it has no unit", remedy)
    if degrees := _DEGREES.match(written) if unit == "K" else None:
        celsius = value if degrees[1][0] in "cC" else (value - 32) / 1.8
        return float(f"{celsius + _FREEZING:.{_FIGURES}g}")
    factor, dimension = in_base_units(written, where)
    asked_factor, asked = in_base_units("" if unit == "dimensionless" else unit, where)
    if dimension != asked:
        raise WrongDimension(where, f"it is {_named(dimension)} where {what} was asked for", remedy)
    result = value * (factor / asked_factor)
    if not math.isfinite(result):
        raise QuantityError(where, "it is too large", remedy)
    return float(f"{result:.{_FIGURES}g}")


def _dimension(text: str) -> str | None:
    """Return the dimension of a number with a plain unit behind it; None when it is no such."""
    line = plain(text[:_LONGEST]).strip()
    found = _NUMBER.match(line)
    if found is None or line[found.end() :].strip() == "":
        return None
    with suppress(QuantityError):
        return in_base_units(line[found.end() :].strip(), "")[1]
    return None


def _example(unit: str) -> str:
    return f"5 {unit}" if unit else "0.5 or 50 %"


def _value(text: str, where: str, remedy: str) -> float:
    try:
        value = float(text) if "e" in text.lower() else number(text.rstrip(".,"))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise QuantityError(where, f"{quoted(text)} is no number", remedy)
    return value


def _named(dimension: str) -> str:
    """Return what a dimension measures, in plain words."""
    for unit, (what, _) in _MEASURE.items():
        if unit not in ("dimensionless", "m^3/m^2") and in_base_units(unit, "")[1] == dimension:
            return what
    return "a plain number" if dimension == "dimensionless" else "another measure"
