"""Scopes as people write them."""

import re
from typing import Any

from attrs import evolve

from estimator.catalogue.entries import Unreadable, value
from estimator.errors import QuantityError
from estimator.quantities.lengths import length
from estimator.surfaces.scope import NOTHING, PARTS, Scope

_FIELDS = {words: field for field, words in PARTS.items()}

_WALLS_TO = re.compile(r"walls\s+(?:up\s+)?to\s+(.+)")


def scope_of(words: str) -> Scope:
    """Return the scope that covers the surfaces listed, and nothing else.

    >>> scope_of("floors, walls to 2 m").walls_to
    2.0

    Raises
    ------
    QuantityError
        When a surface is unknown or a height cannot be read.
    """
    chosen: dict[str, bool] = {}
    walls_to = None
    for part in filter(None, (part.strip().lower() for part in words.split(","))):
        if found := _WALLS_TO.fullmatch(part):
            walls_to, part = length(found[1]), "walls"
        if part not in _FIELDS:
            raise QuantityError(
                f"“{part}”", "it is no surface", f"choose among {', '.join(_FIELDS)}, walls to 2 m"
            )
        chosen[_FIELDS[part]] = True
    if not chosen:
        raise QuantityError("the option", "it covers nothing", "list its surfaces, with commas")
    return evolve(NOTHING, **chosen, walls_to=walls_to)


def scope_row(words: str) -> dict[str, Any]:
    """Return the scope that covers the surfaces listed as the book spells it.

    >>> scope_row("floors, walls to 2 m, doors, reveals, furniture, touch points, ceilings")
    {'ceilings': True, 'walls_to': '2 m'}

    Raises
    ------
    QuantityError
        When a surface is unknown or a height cannot be read.
    """
    scope, usual = scope_of(words), Scope()
    row: dict[str, Any] = {
        part: getattr(scope, part) for part in PARTS if getattr(scope, part) != getattr(usual, part)
    }
    return row if scope.walls_to is None else {**row, "walls_to": f"{scope.walls_to:g} m"}


def scope_words(row: Any) -> str:
    """Return the surfaces that a scope of the book covers as a list with commas.

    >>> scope_words({"walls": False, "doors": False, "reveals": False})
    'floors, furniture, touch points'
    """
    try:
        scope = value(Scope, row)
    except Unreadable:
        return str(row)
    to = f" to {scope.walls_to:g} m" if scope.walls_to is not None else ""
    return ", ".join(
        words + (to if part == "walls" else "")
        for part, words in PARTS.items()
        if getattr(scope, part)
    )
