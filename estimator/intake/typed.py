"""Rooms typed in everyday words become a plan."""

from collections.abc import Iterator, Mapping

from attrs import evolve

from estimator.errors import QuantityError
from estimator.intake.room_names import numbered, singular, use_of
from estimator.intake.room_sizes import (
    UNIT_NAMES,
    Said,
    SizedRoom,
    default_unit,
    gathered,
    sized,
)
from estimator.intake.room_words import EXAMPLE, Entry, entries
from estimator.intake.rows import DOOR_WIDTH, WINDOW_WIDTH, in_rows, openings
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.quantities.lengths import quoted

LONGEST_TEXT = 100_000
"""Characters of text that are read at most."""

MOST_ROOMS = 2000
"""Rooms that one text may hold."""

_LONGEST_NAME = 80
_UNKNOWN_USE = "room"
_SURE_OF_UNIT = 0.8
_SURE_OF_HEIGHT = 0.9
_SURE_OF_WIDTHS = 0.5
# Walls of a room of 4:3 measure 4.04 times the root of its area; of a square 4.00, of 2:1 4.24.
_SHAPE_ERROR = 0.05


def typed_rooms(text: str, uses: Mapping[str, str]) -> Plan:
    """Read rooms from everyday words and lay them out in rows.

    Parameters
    ----------
    uses
        Use by word, such as ``{"kitchen": "kitchen", "hallway": "corridor"}``.

    Raises
    ------
    QuantityError
        MissingUnit when a size has no unit and none can be taken from the rest; else when a piece
        of the text is no room, or no room could be so large or small. The piece is named.

    Examples
    --------
    >>> plan = typed_rooms("Kitchen 12' x 14', hall 6 x 2.4 m, ceilings 10 ft", {})
    >>> [(room.name, round(room.outline.area, 2)) for room in plan.rooms]
    [('Kitchen', 15.61), ('Hall', 14.4)]
    """
    if len(text) > LONGEST_TEXT:
        raise QuantityError(
            "the text", f"it has {len(text):,} characters", f"send at most {LONGEST_TEXT:,}"
        )
    said = gathered(entries(text))
    if not said.rooms:
        raise QuantityError(quoted(text), "no room with a size was found", EXAMPLE)
    total = sum(entry.count for entry in said.rooms)
    if total > MOST_ROOMS:
        raise QuantityError(
            "the text", f"it names {total:,} rooms", f"send at most {MOST_ROOMS:,} at a time"
        )
    unit = default_unit(said)
    found = [sized(entry, unit, said.height) for entry in said.rooms]
    each = [room for room in found for _ in range(room.entry.count)]
    names = numbered(_name(room.entry) for room in each)
    outlines = in_rows([(room.width, room.depth) for room in each])
    rooms, doubts = [], _doubts_of_all(said)
    for number, (room, name, outline) in enumerate(zip(each, names, outlines, strict=True), 1):
        use = use_of(room.entry.name, uses)
        made = Room(
            id=f"room-{number}",
            name=name,
            use=use or _UNKNOWN_USE,
            outline=outline,
            ceiling_height=room.height,
            basis=Basis.ASSUMED if room.entry.area is not None else Basis.MEASURED,
        )
        rooms.append(_with_openings(made, room.entry))
        doubts += _doubts(made, room, is_use_known=use is not None)
    return Plan(rooms=tuple(rooms), doubts=tuple(doubts))


def _name(entry: Entry) -> str:
    """Return what one room of the entry is called."""
    name = entry.name or "Room"
    if len(name) > _LONGEST_NAME:
        raise QuantityError(quoted(name), "no room has so long a name", "put commas between rooms")
    if entry.count > 1:
        *first, last = name.split()
        name = " ".join([*first, singular(last)])
    return name[0].upper() + name[1:]


def _with_openings(room: Room, entry: Entry) -> Room:
    """Return the room with the doors and windows it was said to have."""
    assert room.outline is not None
    found = openings(room.outline, room.id, entry.doors, entry.windows)
    if found is None:
        raise QuantityError(
            quoted(entry.text),
            f"{entry.doors} doors and {entry.windows} windows do not fit on its walls",
            "give fewer",
        )
    return evolve(room, openings=found)


def _doubts_of_all(said: Said) -> list[Doubt]:
    if said.is_height_for_all or said.height is None:
        return []
    return [
        Doubt(
            aspect=Aspect.HEIGHT,
            says=f"{quoted(said.height_text)} is taken for every room without a height of its own.",
            confidence=_SURE_OF_HEIGHT,
        )
    ]


def _doubts(room: Room, found: SizedRoom, *, is_use_known: bool) -> Iterator[Doubt]:
    """Yield what was assumed of one room."""
    entry = found.entry
    if found.unit_taken:
        unit = UNIT_NAMES[found.unit_taken]
        says = f"{room.name} was given without a unit; {unit} are taken, as elsewhere in the text."
        yield Doubt(aspect=Aspect.OUTLINE, room=room.id, says=says, confidence=_SURE_OF_UNIT)
    if entry.area is not None:
        says = f"Only the area of {room.name} is known; a shape of 4 to 3 is assumed."
        yield Doubt(
            aspect=Aspect.OUTLINE,
            room=room.id,
            says=says,
            confidence=_SURE_OF_WIDTHS,
            relative_error=_SHAPE_ERROR,
        )
    if not is_use_known:
        says = f"What {room.name} is used for is not known; an ordinary room is assumed."
        yield Doubt(aspect=Aspect.USE, room=room.id, says=says, confidence=0.5)
    if entry.doors or entry.windows:
        widths = [f"doors {DOOR_WIDTH} m"] if entry.doors else []
        widths += [f"windows {WINDOW_WIDTH} m"] if entry.windows else []
        says = f"{room.name}: {' and '.join(widths)} wide are assumed, in places made up."
        yield Doubt(aspect=Aspect.OPENINGS, room=room.id, says=says, confidence=_SURE_OF_WIDTHS)
    if entry.unread:
        says = f"{quoted(entry.unread)} behind {room.name} was not understood and is left out."
        yield Doubt(aspect=Aspect.OTHER, room=room.id, says=says, confidence=_SURE_OF_WIDTHS)
