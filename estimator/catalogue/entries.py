"""Values of the book from what a data file says, driven by the type hints of the values.

One mechanism serves every section: a measure is a string with its unit, an amount of money or a
share is a number, a choice is one of its words, a row within a row is a table. Each mistake is
noted and reading goes on, so that all of them are reported at once.
"""

import datetime
import math
import types
from collections.abc import Mapping
from decimal import Decimal, InvalidOperation
from enum import StrEnum
from typing import Any, Union, get_args, get_origin, get_type_hints

import attrs
from attrs import frozen

from estimator.errors import BadRates, EstimatorError
from estimator.measures import unit_of
from estimator.quantities import quantity


@frozen
class Mistake:
    """One thing wrong in a data file: in which row and key, and what."""

    file: str
    row: str
    key: str
    says: str

    def __str__(self) -> str:
        place = " ".join(filter(None, (self.row, self.key)))
        return f"{self.file}, {place}: {self.says}"


class Unreadable(Exception):
    """A value is not of the form its key asks for, or contradicts itself; ``args`` say how."""

    def __str__(self) -> str:
        return "; ".join(self.args)


def value(hint: Any, given: Any) -> Any:
    """Return the value a hint asks for from what a data file gives.

    Raises
    ------
    Unreadable
        With a sentence saying what was asked for.
    """
    if unit := unit_of(hint):
        return _measure(given, unit.symbol)
    origin = get_origin(hint)
    if origin in (Union, types.UnionType):
        return _chosen([choice for choice in get_args(hint) if choice is not type(None)], given)
    if origin is tuple:
        if not isinstance(given, list):
            raise Unreadable("a list in square brackets was asked for")
        return tuple(value(get_args(hint)[0], each) for each in given)
    if attrs.has(hint):
        return entry(hint, given)
    return _plain(hint, given)


def entry(kind: type, given: Any) -> Any:
    """Return a value class from a table.

    Raises
    ------
    Unreadable
        When a key is unknown, lacking or wrong, or the keys contradict each other.
    """
    if not isinstance(given, Mapping):
        raise Unreadable("a table in curly brackets was asked for")
    found: dict[str, Any] = {}
    wrong = []
    hints = fields(kind)
    for key, raw in given.items():
        try:
            found[key] = keyed(hints, key, raw)
        except Unreadable as mistake:
            wrong.append(f"{key}: {mistake}")
    if wrong:
        raise Unreadable("; ".join(wrong))
    return made(kind, found)


def keyed(hints: Mapping[str, Any], key: str, raw: Any) -> Any:
    """Return the value of one key of a row from the hints of all its keys.

    Raises
    ------
    Unreadable
        When the row has no such key, or its value is of the wrong form.
    """
    if key not in hints:
        known = ", ".join(hints)
        raise Unreadable(f"there is no such key; the keys are {known}")
    return value(hints[key], raw)


def made(kind: type, found: Mapping[str, Any]) -> Any:
    """Return the value class made of keys already read.

    Raises
    ------
    Unreadable
        When a key lacks or the keys contradict each other.
    """
    if absent := lacking(kind, found):
        raise Unreadable(f"it lacks {', '.join(absent)}")
    try:
        return kind(**found)
    except BadRates as error:
        raise Unreadable(*error.each) from None
    except EstimatorError as error:
        raise Unreadable(f"{error.where}: {error.problem}") from None


def lacking(kind: type, found: Mapping[str, Any]) -> list[str]:
    """Return the keys that a row of a kind must have and has not."""
    return [
        attribute.name
        for attribute in attrs.fields(kind)
        if attribute.init and attribute.default is attrs.NOTHING and attribute.name not in found
    ]


def fields(kind: type) -> dict[str, Any]:
    """Return the hint of every key a row of a kind may have."""
    hints = get_type_hints(kind, include_extras=True)
    return {field.name: hints[field.name] for field in attrs.fields(kind) if field.init}


def _measure(given: Any, symbol: str) -> float:
    plain = symbol == "dimensionless"
    if isinstance(given, bool) or not isinstance(given, str | (int | float if plain else str)):
        raise Unreadable(
            f"{given!r} is no number" if plain else f"write {given!r} in quotes with its unit"
        )
    if not isinstance(given, str):
        if not 0 <= given < math.inf:
            raise Unreadable(f"it must be at least 0 (got {given})")
        return float(given)
    try:
        return quantity(given, symbol)
    except EstimatorError as error:
        raise Unreadable(f"{error.where} {error.problem}, {error.remedy}") from None


def _chosen(choices: list[Any], given: Any) -> Any:
    """Return a value of the one choice, or of the solid the table names."""
    if len(choices) == 1:
        return value(choices[0], given)
    by_name = {choice.__name__.lower(): choice for choice in choices}
    name = given.get("solid") if isinstance(given, Mapping) else None
    if name not in by_name:
        raise Unreadable(f"a table with solid = one of {', '.join(by_name)} was asked for")
    rest = {key: raw for key, raw in given.items() if key != "solid"}
    try:
        return entry(by_name[name], rest)
    except Unreadable as mistake:
        raise Unreadable(f"{name}: {mistake}") from None


def _plain(hint: Any, given: Any) -> Any:
    if hint is Decimal:
        return _decimal(given)
    if issubclass(hint, StrEnum):
        if given not in list(hint):
            raise Unreadable(f"{given!r} is none of {', '.join(hint)}")
        return hint(given)
    if hint is str and isinstance(given, datetime.date):
        return given.isoformat()
    if type(given) is not hint:
        names = {str: "words in quotes", int: "a whole number", bool: "true or false"}
        raise Unreadable(f"{given!r} is not {names[hint]}")
    if given == "":
        raise Unreadable("it is empty")
    if hint is int and given < 0:
        raise Unreadable(f"it must be at least 0 (got {given})")
    return given


def _decimal(given: Any) -> Decimal:
    """Return an amount exactly as written; TOML numbers arrive through their shortest spelling."""
    if isinstance(given, bool) or not isinstance(given, int | float | str):
        raise Unreadable(f"{given!r} is no amount")
    try:
        amount = Decimal(str(given))
    except InvalidOperation:
        raise Unreadable(f"{given!r} is no amount") from None
    if not amount.is_finite() or amount < 0:
        raise Unreadable(f"it must be at least 0 (got {given})")
    return amount
