"""Two sides of a rectangle in every usual spelling."""

import re

from estimator.errors import QuantityError
from estimator.measures import Metres
from estimator.quantities.lengths import length, quoted
from estimator.quantities.tokens import plain

_BETWEEN = re.compile(r"\s*(?:\*|\bx\b|(?<=[\d'\"a-z.])x(?=\s*[\d.])|\bby\b)\s*", re.IGNORECASE)
_HAS_UNIT = re.compile(r"[a-z'\"]", re.IGNORECASE)
_LONGEST = 200
_REMEDY = "write them like 4.2 x 3.1 m or 12' by 10' 6\""


def sides(text: str, default_unit: str | None = None) -> tuple[Metres, Metres]:
    r"""Read two lengths; a unit behind the second holds for the first, too.

    Raises
    ------
    QuantityError
        When the text is not two lengths above 0.

    Examples
    --------
    >>> sides("4.2 x 3.1 m"), sides("420cm × 3.1m"), sides("12 by 10", default_unit="ft")
    ((4.2, 3.1), (4.2, 3.1), (3.6576, 3.048))
    """
    where = quoted(text)
    parts = _BETWEEN.split(plain(text[:_LONGEST])) if len(text) <= _LONGEST else []
    if len(parts) != 2 or not all(part.strip() for part in parts):
        raise QuantityError(where, "these are not two sides", _REMEDY)
    first, second = parts
    if not _HAS_UNIT.search(first) and (unit := re.search(r"[a-z]+\.?$", second.strip(), re.I)):
        first = f"{first} {unit.group()}"
    found = length(first, default_unit), length(second, default_unit)
    if not min(found) > 0:
        raise QuantityError(where, "a side is 0", _REMEDY)
    return found
