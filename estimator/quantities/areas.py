"""Areas as people write them."""

import math
from collections.abc import Sequence

from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.measures import SquareMetres
from estimator.quantities.lengths import quoted, scan_amount
from estimator.quantities.tokens import LENGTH_UNITS, Kind, Token, plain, tokens

_REMEDY = "write it like 14.2 m² or 153 sq ft"


def area(text: str) -> SquareMetres:
    """Read one area.

    Raises
    ------
    QuantityError
        MissingUnit for a bare number; WrongDimension for a length; else when the text is no area.

    Examples
    --------
    >>> area("14,2 m2"), round(area("153 sq ft"), 3), area("20 square metres")
    (14.2, 14.214, 20.0)
    """
    where = quoted(text)
    found = list(tokens(plain(text[:200])))
    if found and found[0].kind is Kind.DASH:
        raise QuantityError(where, "an area cannot be negative", _REMEDY)
    if scanned := scan_area(found, 0):
        value, end = scanned
        if math.isnan(value):
            raise QuantityError(where, "its number cannot be read", _REMEDY)
        if end == len(found):
            return value
    if (amount := scan_amount(found, 0)) and amount[2] == len(found):
        raise MissingUnit(where, "it has no unit", _REMEDY)
    if any(token.kind is Kind.LENGTH for token in found) and not scanned:
        raise WrongDimension(where, "it is a length where an area was asked for", _REMEDY)
    raise QuantityError(where, "it is no area", _REMEDY)


def scan_area(found: Sequence[Token], start: int) -> tuple[SquareMetres, int] | None:
    """Return the area whose first token is at the start and the index behind it, if one is."""
    amount = scan_amount(found, start)
    if amount is None:
        return None
    value, _, end = amount
    if end >= len(found) or found[end].kind is not Kind.AREA:
        return None
    return value * LENGTH_UNITS[found[end].unit] ** 2, end + 1
