"""Lengths in every usual spelling, feet and inches above all."""

import math
from collections.abc import Sequence
from itertools import pairwise

from attrs import frozen

from estimator.errors import MissingUnit, QuantityError, WrongDimension
from estimator.measures import Metres
from estimator.quantities.tokens import LENGTH_UNITS, Kind, Token, plain, tokens

_REMEDY = "write it like 3.45 m, 345 cm or 12' 6\""
_SMALLER = {"yd": ("ft", "in"), "ft": ("in",), "m": ("cm", "mm"), "cm": ("mm",)}
_MOST_PARTS = 3  # yards, feet, inches
_LONGEST_QUOTE = 60
_DECIMALS = 12  # of a metre: drops the dust of binary fractions, keeps 1/64 inch whole


def quoted(text: str) -> str:
    """Return the text in quotation marks, shortened, to stand in front of a complaint."""
    line = " ".join(text[: 4 * _LONGEST_QUOTE].split())
    short = line if len(line) <= _LONGEST_QUOTE else line[: _LONGEST_QUOTE - 1] + "…"
    return f"“{short}”"


@frozen
class Part:
    """One number of a length, its unit, and the text of the number.

    Parameters
    ----------
    unit
        None when none was written.
    is_implied
        Whether the unit follows from the part before it, as the inches of ``12' 6``.
    """

    value: float
    unit: str | None
    text: str
    is_implied: bool = False


@frozen
class WrittenLength:
    """A length as it stands in a text; ``end`` is the index of the token behind it."""

    parts: tuple[Part, ...]
    end: int

    @property
    def unit(self) -> str | None:
        """The unit of its first number; None when no unit was written."""
        return self.parts[0].unit

    def metres(self, where: str, default_unit: str | None = None) -> Metres:
        """Return its value, taking the default unit when none is written.

        Raises
        ------
        QuantityError
            MissingUnit when there is neither; else when the number can be read in two ways.
        """
        parts = self.parts
        if all(part.unit is None for part in parts):
            if default_unit is None:
                raise MissingUnit(where, "it has no unit", _REMEDY)
            if len(parts) > (2 if default_unit == "ft" else 1):
                raise QuantityError(where, "it could be two numbers or a range", _REMEDY)
            units = (default_unit, "in")[: len(parts)]
            parts = tuple(
                Part(part.value, unit, part.text) for part, unit in zip(parts, units, strict=True)
            )
        elif self.unit is None:
            raise QuantityError(where, "it could be two numbers or a range", _REMEDY)
        for part, following in pairwise(parts):
            _check_compound(part, following, where)
        return round(sum(_metres(part, where) for part in parts), _DECIMALS)


def length(text: str, default_unit: str | None = None) -> Metres:
    r"""Read one length.

    Parameters
    ----------
    default_unit
        ``m``, ``cm``, ``mm``, ``ft``, ``in`` or ``yd``, for a number without a unit; in feet,
        ``12-6`` is then twelve feet six.

    Raises
    ------
    QuantityError
        MissingUnit for a bare number without a default; WrongDimension for an area; else when
        the text is no length or could be two.

    Examples
    --------
    >>> round(length("12'-6\""), 4), round(length("5 1/4 in"), 5), length("3 m 45")
    (3.81, 0.13335, 3.45)
    >>> length("12-6", default_unit="ft") == length("12ft 6in")
    True
    """
    where = quoted(text)
    found = list(tokens(plain(text[:200])))
    if len(text) > 200 or not found:
        raise QuantityError(where, "it is no length", _REMEDY)
    if found[0].kind is Kind.DASH:
        raise QuantityError(where, "a length cannot be negative", _REMEDY)
    written = scan_length(found, 0)
    if written is None:
        raise QuantityError(where, "it is no length", _REMEDY)
    if written.end < len(found):
        rest = found[written.end]
        if rest.kind is Kind.AREA:
            raise WrongDimension(where, "it is an area where a length was asked for", _REMEDY)
        raise QuantityError(where, f"{quoted(rest.text)} does not belong to a length", _REMEDY)
    return written.metres(where, default_unit)


def scan_length(found: Sequence[Token], start: int) -> WrittenLength | None:
    """Return the length whose first token is at the start; None when no number stands there."""
    first = scan_amount(found, start)
    if first is None:
        return None
    value, text, end = first
    unit, end = _unit_at(found, end)
    parts = [Part(value, unit, text)]
    while len(parts) < _MOST_PARTS and (following := _following(found, end, parts[-1])):
        part, end = following
        parts.append(part)
    return WrittenLength(tuple(parts), end)


def scan_amount(found: Sequence[Token], start: int) -> tuple[float, str, int] | None:
    """Return a number, whole and fraction together, with its text and the index behind it."""
    if start >= len(found):
        return None
    token = found[start]
    if token.kind is Kind.FRACTION:
        return token.value, token.text, start + 1
    if token.kind is not Kind.NUMBER:
        return None
    behind = start + 1
    if behind + 1 < len(found) and found[behind].kind is Kind.DASH:
        behind += 1
    if behind < len(found) and found[behind].kind is Kind.FRACTION and token.value.is_integer():
        fraction = found[behind]
        return token.value + fraction.value, f"{token.text} {fraction.text}", behind + 1
    return token.value, token.text, start + 1


def _unit_at(found: Sequence[Token], at: int) -> tuple[str | None, int]:
    """Return the unit of length standing there and the index behind it and its full stop."""
    behind = at + 1 if at < len(found) and found[at].kind is Kind.DASH else at
    if behind >= len(found) or found[behind].kind is not Kind.LENGTH:
        return None, at
    unit = found[behind]
    behind += 1
    if behind < len(found) and found[behind].text == "." and found[behind].start == unit.end:
        behind += 1
    return unit.unit, behind


def _following(found: Sequence[Token], at: int, last: Part) -> tuple[Part, int] | None:
    """Return the next, smaller part of the same length, such as the inches behind the feet."""
    if at >= len(found):
        return None
    joint = found[at]
    is_joined = joint.kind is Kind.DASH or joint.text.lower() in (",", "and")
    amount = scan_amount(found, at + 1 if is_joined else at)
    if amount is None:
        return None
    value, text, end = amount
    unit, behind = _unit_at(found, end)
    number = found[at + 1 if is_joined else at]
    if last.unit is None:
        is_tight = found[at - 1].end == joint.start and joint.end == number.start
        is_pair = joint.kind is Kind.DASH and is_tight
        return (Part(value, unit, text), behind) if is_pair else None
    if unit in _SMALLER.get(last.unit, ()):
        return Part(value, unit, text), behind
    if unit or (is_joined and joint.kind is not Kind.DASH):
        return None
    if end < len(found) and found[end].kind in (Kind.WORD, Kind.NUMBER, Kind.AREA):
        return None  # "12 ft 2 doors"
    if last.unit == "ft":
        return Part(value, "in", text, is_implied=True), end
    if last.unit == "m" and not is_joined:
        unit = {2: "cm", 3: "mm"}.get(len(text), "?")
        return Part(value, unit, text, is_implied=True), end
    return None


def _check_compound(part: Part, following: Part, where: str) -> None:
    """Refuse feet with a fraction before inches, or 14 inches behind feet."""
    if part.unit is None or following.unit is None:
        raise QuantityError(where, "one of its numbers has no unit", _REMEDY)
    if following.unit == "?":
        raise QuantityError(
            where, f"the {following.text} could be centimetres or tenths of a metre", _REMEDY
        )
    in_one = LENGTH_UNITS[part.unit] / LENGTH_UNITS[following.unit]
    if not part.value.is_integer() or following.value >= round(in_one):
        raise QuantityError(
            where,
            f"{part.text} {part.unit} and {following.text} {following.unit} make no one length",
            _REMEDY,
        )


def _metres(part: Part, where: str) -> Metres:
    if math.isnan(part.value):
        raise QuantityError(where, f"{quoted(part.text)} is no number", _REMEDY)
    unit = part.unit or ""
    if unit not in LENGTH_UNITS:
        raise QuantityError(where, f"{quoted(unit)} is no unit of length", _REMEDY)
    whole, comma, decimals = part.text.partition(",")
    is_grouped = bool(comma) and len(decimals) == 3 and whole not in ("", "0")
    if is_grouped and unit == "m":
        raise QuantityError(
            where,
            f"{part.text} m could be {whole}{decimals} m or {whole}.{decimals} m",
            "write it without the comma",
        )
    return part.value * LENGTH_UNITS[unit]
