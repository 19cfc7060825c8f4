"""Lengths as plans letter them: often without units, often with a point or a prime lost.

A lettered length may be read in several ways; each is kept with how likely it is, and the sheet as
a whole decides.
"""

import re
from collections.abc import Callable, Iterator
from enum import StrEnum

from attrs import frozen

from estimator.errors import QuantityError
from estimator.lettering.spelling import flat, with_digits
from estimator.measures import Metres, Share, checked
from estimator.quantities.lengths import length
from estimator.quantities.tokens import FOOT, INCH, LENGTH_UNITS

LEAST: Metres = 0.3
MOST: Metres = 200.0
"""No length lettered on a plan is shorter or longer."""

_INCHES_IN_FOOT = 12


class Way(StrEnum):
    """The unit in which a sheet letters its lengths."""

    METRES = "m"
    CENTIMETRES = "cm"
    MILLIMETRES = "mm"
    FEET = "ft"

    @property
    def unit(self) -> Metres:
        """One of its units in metres."""
        return LENGTH_UNITS[self.value]


@frozen(kw_only=True, field_transformer=checked)
class Lettered:
    """One way to read a length.

    Parameters
    ----------
    step
        What its last digit stands for.
    likelihood
        How likely it was meant, seen by itself.
    """

    value: Metres
    way: Way
    step: Metres
    likelihood: Share


_WAY_OF = (
    (re.compile(r"'|\"|ft|feet|foot|in\b", re.I), Way.FEET),
    (re.compile(r"[0-9 ]mm\b", re.I), Way.MILLIMETRES),
    (re.compile(r"[0-9 ]cm\b", re.I), Way.CENTIMETRES),
    (re.compile(r"[0-9 ]m", re.I), Way.METRES),
)

# A point or a prime was lost in 389 m, 139', 194" and 39".
_LOST = re.compile(r"[1-9][0-9]{2} ?[m'\"]|[6-9][0-9] ?'|[2-9][0-9] ?\"", re.I)


def lettered_lengths(text: str) -> tuple[Lettered, ...]:
    r"""Return every way to read a text as one length, the likeliest first.

    Examples
    --------
    >>> [round(found.value, 3) for found in lettered_lengths("12'-6\"")]
    [3.81]
    >>> [(round(found.value, 2), found.way.value) for found in lettered_lengths("1011")]
    [(1.01, 'mm'), (3.33, 'ft')]
    """
    line = with_digits(flat(text)).strip(" ()[]=:;-_.,·")
    written = _written(line)
    found = [written] if written else [*_repaired(line)]
    found = [each for each in found if LEAST <= each.value <= MOST]
    return tuple(sorted(found, key=lambda each: -each.likelihood))


def _written(line: str) -> Lettered | None:
    """Read a length with its unit, as anyone would write it."""
    way = next((way for pattern, way in _WAY_OF if pattern.search(line)), None)
    if way is None or _LOST.fullmatch(line):
        return None
    try:
        return Lettered(value=length(line), way=way, step=_step(line, way), likelihood=1.0)
    except QuantityError:
        return None


def _step(line: str, way: Way) -> Metres:
    if way is Way.FEET:
        is_whole = re.fullmatch(r"[0-9]+ ?(?:'|ft|feet|foot)\.?", line, re.I)
        return FOOT if is_whole else INCH
    decimals = re.search(r"[0-9][.,]([0-9]+)", line)
    return way.unit * 0.1 ** len(decimals[1]) if decimals else way.unit


def _point_lost(found: "re.Match[str]", likelihood: Share) -> Lettered:
    """Read whole metres and decimals, whatever stands between them."""
    return Lettered(
        value=float(f"{found[1]}.{found[2]}"),
        way=Way.METRES,
        step=0.1 ** len(found[2]),
        likelihood=likelihood,
    )


def _in(way: Way) -> "_Reader":
    """Return a reader of a bare number in a unit."""

    def read(found: "re.Match[str]", likelihood: Share) -> Lettered:
        value = float(found[1].replace(",", ".")) * way.unit
        return Lettered(value=value, way=way, step=way.unit, likelihood=likelihood)

    return read


def _primes_lost(found: "re.Match[str]", likelihood: Share) -> Lettered | None:
    """Read feet and inches, whatever is left of their primes."""
    feet, inches = int(found[1]), int(found[2])
    if feet == 0 or inches >= _INCHES_IN_FOOT or len(found[2]) > len(str(inches)):
        return None
    return Lettered(
        value=feet * FOOT + inches * INCH, way=Way.FEET, step=INCH, likelihood=likelihood
    )


_Reader = Callable[["re.Match[str]", Share], Lettered | None]

_FORMS: tuple[tuple[re.Pattern[str], _Reader, Share], ...] = tuple(
    (re.compile(pattern, re.IGNORECASE), reader, likelihood)
    for pattern, reader, likelihood in (
        (r"([0-9]{1,2})\s?[.,]\s?([0-9]{1,3})(?: ?m)?", _point_lost, 0.9),  # 3.45
        (r"([0-9]{1,2}) ([0-9]{2})(?: ?m)?", _point_lost, 0.5),  # 3 45
        (r"([0-9])([0-9]{2}) ?m", _point_lost, 0.5),  # 345 m
        (r"([0-9]{1,2})'([0-9]{2}) ?m?", _point_lost, 0.3),  # 3'45
        (r"([0-9]{3})", _in(Way.CENTIMETRES), 0.6),
        (r"([0-9]{4,5})", _in(Way.MILLIMETRES), 0.6),
        (r"([0-9]{1,3}) ?'+ ?-? ?([0-9]{1,2})[\"'.,`]*", _primes_lost, 0.95),  # 12'6
        (r"([0-9]{1,2})-([0-9]{1,2})[\"']*", _primes_lost, 0.5),  # 12-6
        (r"([0-9]{1,2}) ([0-9]{1,2})[\"']+", _primes_lost, 0.6),  # 19 7"
        (r"([0-9]{1,2})([0-9])[\"'. ]*", _primes_lost, 0.4),  # 126 for 12'6"
        (r"([0-9]{1,2})(1[01])[\"']*", _primes_lost, 0.35),  # 1011 for 10'11"
        (r"([0-9]{1,2}(?:[.,]5)?)[\"'.,]*", _in(Way.FEET), 0.3),  # 12
    )
)


def _repaired(line: str) -> Iterator[Lettered]:
    """Read it as a length that lost its unit, its point or its primes."""
    for pattern, reader, likelihood in _FORMS:
        match = pattern.fullmatch(line)
        if match and (read := reader(match, likelihood)):
            yield read
