"""The unit of a DXF: as its header says, or else by the usual sizes of rooms and doors."""

import math
from collections.abc import Mapping, Sequence

from attrs import frozen
from ezdxf.document import Drawing
from ezdxf.enums import InsertUnits
from ezdxf.units import conversion_factor

from estimator.measures import Metres, Share
from estimator.plan.opening import OpeningKind
from estimator.plan.room import Room

# Metres to a unit, and what it is called.
USUAL_UNITS: Mapping[str, Metres] = {
    "millimetres": 0.001,
    "centimetres": 0.01,
    "metres": 1.0,
    "inches": 0.0254,
    "feet": 0.3048,
}
_METRIC = ("millimetres", "centimetres", "metres")

# Usual sizes in metres and their spread in logarithms, common practice.
_ROOM_SIDE, _ROOM_SPREAD = 3.4, 0.45
_DOOR_WIDTH, _DOOR_SPREAD = 0.85, 0.2
_HEADER_ODDS = math.log(2)  # the header's "metric or not" is often left as it was
POSSIBLE_SIDE = (0.8, 60.0)
"""Metres between which the middling room of any plan is wide."""


@frozen(kw_only=True)
class Unit:
    """A unit of length; ``confidence`` that it is the one meant."""

    name: str
    metres: Metres
    confidence: Share = 1.0


def declared_unit(document: Drawing) -> Unit | None:
    """Return the unit of the header ($INSUNITS); None when it says none."""
    code = document.units
    try:
        factor = conversion_factor(InsertUnits(code), InsertUnits.Meters)
    except (KeyError, IndexError, TypeError, ValueError):
        return None
    if not factor > 0:
        return None
    named = {round(size, 9): name for name, size in USUAL_UNITS.items()}
    name = named.get(round(factor, 9), f"units of {factor:g} m")
    return Unit(name=name, metres=factor)


def likeliest_unit(document: Drawing, rooms: Mapping[str, Sequence[Room]]) -> Unit | None:
    """Return the usual unit whose rooms look most like rooms; None when no unit gives any.

    Parameters
    ----------
    rooms
        What the drawing's rooms are when its unit is this.
    """
    is_metric = bool(document.header.get("$MEASUREMENT", 1))
    chance = {
        name: math.exp(_likelihood(found) + (_HEADER_ODDS if (name in _METRIC) is is_metric else 0))
        for name, found in rooms.items()
        if found
    }
    if not chance:
        return None
    best = max(chance, key=lambda name: chance[name])
    total = sum(chance.values())
    sure = chance[best] / total if total else 0.5
    return Unit(name=best, metres=USUAL_UNITS[best], confidence=sure)


def middling_side(rooms: Sequence[Room]) -> Metres:
    """Return the side of a square like the room of median size."""
    areas = sorted(room.outline.area for room in rooms if room.outline)
    return math.sqrt(areas[len(areas) // 2])


def _likelihood(rooms: Sequence[Room]) -> float:
    chance = _normal(middling_side(rooms), _ROOM_SIDE, _ROOM_SPREAD)
    doors = sorted(
        opening.width
        for room in rooms
        for opening in room.openings
        if opening.kind is OpeningKind.DOOR and opening.width
    )
    # Without a door the drawing fits no worse than with doors of rather odd widths.
    chance += _normal(doors[len(doors) // 2], _DOOR_WIDTH, _DOOR_SPREAD) if doors else -4.0
    return chance


def _normal(value: float, usual: float, spread: float) -> float:
    return -0.5 * (math.log(value / usual) / spread) ** 2
