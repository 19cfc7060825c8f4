"""Ways to a site, longer than any length of a building."""

import math
import re

from estimator.errors import MissingUnit, QuantityError
from estimator.measures import Metres
from estimator.quantities.lengths import quoted
from estimator.quantities.tokens import FOOT, number

_UNITS = {
    "m": 1.0,
    "km": 1000.0,
    "kilometre": 1000.0,
    "kilometer": 1000.0,
    "mi": 5280 * FOOT,
    "mile": 5280 * FOOT,
}
"""The international mile is 5,280 international feet (NIST SP 811, appendix B)."""

_WRITTEN = re.compile(r"([0-9][0-9.,]*)\s*([a-z]*)", re.IGNORECASE)


def journey(text: str) -> Metres:
    """Read a distance on the road.

    >>> journey("12.5 km"), round(journey("7 miles"))
    (12500.0, 11265)

    Raises
    ------
    QuantityError
        MissingUnit for a bare number; else when it cannot be read.
    """
    found = _WRITTEN.fullmatch(text.strip())
    if not found:
        raise QuantityError(quoted(text), "it is no distance", "write it like 12 km or 7 miles")
    written, unit = found[1], found[2].lower()
    if not unit:
        raise MissingUnit(quoted(text), "it has no unit", "write it like 12 km or 7 miles")
    size = _UNITS.get(unit) or _UNITS.get(unit.removesuffix("s"))
    if size is None:
        raise QuantityError(quoted(text), f"{unit} is no unit of it", "give km or miles")
    distance = number(written) * size
    if not math.isfinite(distance):
        raise QuantityError(quoted(text), "it could be two numbers", "write it like 12.5 km")
    return distance
