"""The one registry of units; nothing else imports pint."""

import re
from contextlib import suppress
from functools import cache, lru_cache

import pint
from pint.facets.plain import PlainUnit

from estimator.errors import QuantityError

_SPELLINGS = {
    "%": "percent",
    "pct": "percent",
    "sqft": "ft^2",
    "sqm": "m^2",
    "sqyd": "yd^2",
    "px": "pixel",
    "mins": "minute",
    "hrs": "hour",
    "secs": "second",
    "ach": "1/hour",
}
_COUNTRIES = {
    "us": "",
    "u.s.": "",
    "american": "",
    "imp": "imperial_",
    "imp.": "imperial_",
    "imperial": "imperial_",
    "uk": "imperial_",
}
"""What pint puts before a measure that has another size in each country."""

_TWO_SIZES = {
    "gallon": ("gal", "gals", "gallon", "gallons"),
    "quart": ("qt", "qts", "quart", "quarts"),
    "pint": ("pt", "pints", "pint"),
    "fluid_ounce": ("fl oz", "fl. oz", "fl. oz.", "floz", "fluid ounce", "fluid ounces"),
}
_TWO_SIZED = {spelling: kind for kind, all_ in _TWO_SIZES.items() for spelling in all_}

_SQUARE = re.compile(r"^(?:square|sq\.?) ?([a-z]+)$", re.I)
_POWER = re.compile(r"^(.*?)\s*\^\s*(-?[1-3])$")
_FACTOR = re.compile(r"^([0-9][0-9,]{0,8}(?:\.[0-9]{1,6})?)(?:\s+(.*))?$")
_NAME = re.compile(r"^[A-Za-zµμ°_]{1,30}$")


@cache
def _registry() -> pint.UnitRegistry[float]:
    return pint.UnitRegistry()


@lru_cache(maxsize=512)
def in_base_units(expression: str, where: str) -> tuple[float, str]:
    """Return how many SI base units one of a written unit is, and its dimension in pint's words.

    Only products and quotients of unit names are read; nothing is evaluated.

    Raises
    ------
    QuantityError
        When a name in it is no unit, or a gallon is neither said to be US nor imperial.

    Examples
    --------
    >>> in_base_units("mL/m^2", "film")[1]
    '[length]'
    """
    factor, dimension = 1.0, _registry().dimensionless
    parts = re.split(r"\s*/\s*|(?:^|\s+)per\s+", expression.replace("²", "^2").replace("³", "^3"))
    for place, part in enumerate(parts):
        if place == 0 and part == "":
            continue
        for name in re.split(r"\s*[*·]\s*", part.strip()):
            value, unit = _one(name, where)
            power = -1 if place else 1
            factor *= value**power
            dimension = dimension * unit**power
    in_base = _registry().Quantity(factor, dimension).to_base_units()
    return float(in_base.magnitude), str(dimension.dimensionality)


def _one(name: str, where: str) -> tuple[float, PlainUnit]:
    """Return the number and unit of one factor, such as ``m^2`` or ``1000 ft^2``."""
    if match := _FACTOR.match(name):
        value = float(match[1].replace(",", ""))
        if value == 0:
            raise QuantityError(where, "it is divided by 0", "give a number above 0")
        if not match[2]:
            return value, _registry().dimensionless
        factor, unit = _one(match[2], where)
        return value * factor, unit
    if match := _POWER.match(name):
        value, unit = _one(match[1], where)
        return value ** int(match[2]), unit ** int(match[2])
    if match := _SQUARE.match(name):
        value, unit = _one(match[1], where)
        return value**2, unit**2
    if match := re.match(r"^([a-z]+)([23])$", name, re.I):
        return _one(f"{match[1]}^{match[2]}", where)
    return 1.0, _named(_one_country(" ".join(name.split()), where), where)


def _one_country(name: str, where: str) -> str:
    """Return the name as pint has it, refusing a gallon whose country is not said."""
    words = name.replace("_", " ").lower().split()
    kind = _TWO_SIZED.get(" ".join(word for word in words if word not in _COUNTRIES))
    if kind is None:
        return name
    prefixes = [_COUNTRIES[word] for word in words if word in _COUNTRIES]
    if len(prefixes) != 1:
        short = _TWO_SIZES[kind][0]
        raise QuantityError(
            where,
            f"a US and an imperial {kind.replace('_', ' ')} differ",
            f"say which: US {short} or imp {short}",
        )
    return prefixes[0] + kind


def _named(name: str, where: str) -> PlainUnit:
    for spelling in (name, name.lower()):
        pint_name = _SPELLINGS.get(spelling, spelling)
        if pint_name != spelling or _NAME.match(spelling):
            with suppress(pint.UndefinedUnitError, pint.DefinitionSyntaxError):
                return _registry().parse_units(pint_name)
    raise QuantityError(
        where, f"“{name[:30]}” is no unit known here", "write it like 45 m^2/h or 500 ppm"
    )
