"""How a row of a further file is laid over the one before it."""

from typing import Any

Row = dict[str, Any]

_INSTEAD = {
    "rates": {"markup": "margin", "margin": "markup"},
    "prices": {"amount": "currency"},
}
"""Keys that, where a row names them, take back another one that it does not name."""

_AMOUNTS = (
    "labour_per_hour",
    "wear_per_person",
    "equipment_per_hour",
    "travel_per_km",
    "minimum_charge",
)


def over(section: str, before: Row, row: Row) -> Row:
    """Return a row laid over the one before it, with both their sources."""
    sources = dict.fromkeys(filter(None, (row.get("source"), before.get("source"))))
    replaced = {other for key, other in _INSTEAD.get(section, {}).items() if key in row}
    kept = {key: value for key, value in before.items() if key not in replaced}
    return {**kept, **row, "source": "; otherwise ".join(sources)}


def left_in_another_currency(section: str, before: Row, row: Row) -> str:
    """Return a sentence on amounts that a change of currency leaves behind, or nothing."""
    old, new = before.get("currency"), row.get("currency")
    left = [key for key in _AMOUNTS if key not in row]
    if section != "rates" or new in (None, old) or not left:
        return ""
    return f"{new} takes the place of {old}, but {', '.join(left)} would still be in {old}"
