"""Rooms typed in everyday words become a plan."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import count

from attrs import evolve

from estimator.errors import QuantityError
from estimator.intake.laying import laid_out
from estimator.intake.room_names import called, free_name, numbered, singular, use_of
from estimator.intake.room_sizes import (
    UNIT_NAMES,
    Said,
    SizedRoom,
    ceiling_height,
    default_unit,
    gathered,
    sized,
)
from estimator.intake.room_words import EXAMPLE, Entry, entries
from estimator.intake.rows import DOOR_WIDTH, WINDOW_WIDTH, openings
from estimator.measures import Metres
from estimator.plan.beside import Link, joined, room_beside
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import with_height
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.quantities.lengths import quoted

LONGEST_TEXT = 100_000
"""Characters of text that are read at most."""

MOST_ROOMS = 2000
"""Rooms that one text may hold."""

MOST_JOINTS = 400
"""Joints between rooms that one text may tell."""

Size = tuple[Metres, Metres]
"""Width and depth."""

_LONGEST_NAME = 80
_UNKNOWN_USE = "room"
_SURE_OF_UNIT = 0.8
_SURE_OF_HEIGHT = 0.9
_SURE_OF_WIDTHS = 0.5
# Walls of a room of 4:3 measure 4.04 times the root of its area; of a square 4.00, of 2:1 4.24.
_SHAPE_ERROR = 0.05
# Floors of rooms of one use differ by about this, common practice.
_USUAL_SIZE_ERROR = 0.3


def typed_rooms(
    text: str, uses: Mapping[str, str], usual_sizes: Mapping[str, Size] | None = None
) -> Plan:
    """Read rooms from everyday words and lay them out, joined as it is said and else in rows.

    Parameters
    ----------
    uses
        Use by word, such as ``{"kitchen": "kitchen", "hallway": "corridor"}``.
    usual_sizes
        Width and depth by use, taken for a room that is given none.

    Raises
    ------
    QuantityError
        MissingUnit when a size has no unit and none can be taken from the rest; else when a piece
        of the text is no room, or no room could be so large or small. The piece is named.
    PlanError
        When it is said that two rooms are joined which cannot be.

    Examples
    --------
    >>> plan = typed_rooms("Kitchen 12' x 14', hall 6 x 2.4 m, ceilings 10 ft", {})
    >>> [(room.name, round(room.outline.area, 2)) for room in plan.rooms]
    [('Kitchen', 15.61), ('Hall', 14.4)]
    """
    spoken = _Spoken(text, uses, usual_sizes or {})
    if not spoken.rooms:
        raise QuantityError(quoted(text), "no room with a size was found", EXAMPLE)
    each = [room for room in spoken.rooms for _ in range(room.entry.count)]
    names = numbered(_name(room.entry) for room in each)
    rooms = [
        spoken.room(f"room-{at}", name, room)
        for at, (room, name) in enumerate(zip(each, names, strict=True), 1)
    ]
    links = spoken.links(rooms, [room.entry for room in each])
    laid, left_out = laid_out(rooms, links)
    doubts = [
        *_doubts_of_all(spoken.said),
        *(
            doubt
            for room, found in zip(laid, each, strict=True)
            for doubt in spoken.doubts(room, found)
        ),
        *left_out,
    ]
    return Plan(rooms=laid, doubts=tuple(doubts))


def typed_into(
    plan: Plan,
    text: str,
    uses: Mapping[str, str],
    usual_sizes: Mapping[str, Size],
    *,
    storey: int = 0,
    unit: str | None = None,
) -> Plan:
    """Return the plan with the rooms of a text added to a storey, and joined as it is said.

    A text that names no new room may join those that are there ("kitchen opens to dining") or say
    how high their ceilings are.

    Parameters
    ----------
    unit
        What sizes are in when no unit is written.

    Raises
    ------
    QuantityError
        When a piece of the text is no room. The piece is named.
    PlanError
        When rooms are said to be joined that share no wall.
    ScaleUnknown
        When the storey has a picture without a scale.
    """
    there = [room for room in plan.rooms if room.storey == storey]
    spoken = _Spoken(text, uses, usual_sizes, [room.name for room in there], unit)
    ids = _free_ids(plan)
    rooms: list[Room] = []
    entries: list[Entry] = []
    for found in spoken.rooms:
        for _ in range(found.entry.count):
            name = free_name(_name(found.entry), [room.name for room in (*there, *rooms)])
            rooms.append(evolve(spoken.room(next(ids), name, found), storey=storey))
            entries.append(found.entry)
            plan = evolve(plan, doubts=(*plan.doubts, *spoken.doubts(rooms[-1], found)))
    links = spoken.links([*there, *rooms], [*(None for _ in there), *entries])
    for room in rooms:
        known = {one.id for one in plan.rooms}
        plan = room_beside(plan, room, [one for one in links.get(room.id, ()) if one.room in known])
    for one, link in spoken.joints([*there, *rooms]):
        if {one, link.room} <= {room.id for room in there}:
            plan = joined(plan, one, link.room, link.joint)
    if not rooms:
        plan = _with_heights(plan, storey, spoken)
    return evolve(plan, doubts=(*plan.doubts, *_doubts_of_all(spoken.said))) if rooms else plan


class _Spoken:
    """A text as it was understood: its rooms in metres, and how they are joined."""

    def __init__(
        self,
        text: str,
        uses: Mapping[str, str],
        usual_sizes: Mapping[str, Size],
        there: Sequence[str] = (),
        house_unit: str | None = None,
    ) -> None:
        if len(text) > LONGEST_TEXT:
            raise QuantityError(
                "the text", f"it has {len(text):,} characters", f"send at most {LONGEST_TEXT:,}"
            )
        self.uses = uses

        def usual(name: str) -> Size | None:
            return usual_sizes.get(use_of(name, uses) or "")

        self.said = gathered(
            entries(text), there=there, has_usual_size=lambda name: usual(name) is not None
        )
        total = sum(entry.count for entry in self.said.rooms)
        if total > MOST_ROOMS:
            raise QuantityError(
                "the text", f"it names {total:,} rooms", f"send at most {MOST_ROOMS:,} at a time"
            )
        unit = default_unit(self.said)
        self.height_unit = unit or house_unit
        self.rooms = [
            sized(entry, unit, self.said.height, house_unit=house_unit, usual=usual(entry.name))
            for entry in self.said.rooms
        ]

    def room(self, room_id: str, name: str, found: SizedRoom) -> Room:
        """Return a room with its corner at the origin."""
        is_assumed = found.is_usual or found.entry.area is not None
        made = Room(
            id=room_id,
            name=name,
            use=use_of(found.entry.name, self.uses) or _UNKNOWN_USE,
            outline=rectangle(found.width, found.depth),
            ceiling_height=found.height,
            basis=Basis.ASSUMED if is_assumed else Basis.MEASURED,
        )
        return _with_openings(made, found.entry)

    def doubts(self, room: Room, found: SizedRoom) -> Iterator[Doubt]:
        """Yield what was assumed of one room."""
        return _doubts(room, found, is_use_known=use_of(found.entry.name, self.uses) is not None)

    def links(
        self, rooms: Sequence[Room], entries: Sequence[Entry | None]
    ) -> dict[str, list[Link]]:
        """Return the joints of each room, said of either of both; None stands for a room there."""
        found: dict[str, list[Link]] = {}
        said = [
            (room.id, link)
            for room, entry in zip(rooms, entries, strict=True)
            if entry
            for link in self._meant(room.id, entry, rooms)
        ]
        said += self.joints(rooms)
        if len(said) > MOST_JOINTS:
            raise QuantityError(
                "the text", f"it joins {len(said):,} rooms", f"join at most {MOST_JOINTS:,}"
            )
        for room_id, link in said:
            found.setdefault(room_id, []).append(link)
            found.setdefault(link.room, []).append(Link(room_id, link.joint))
        return found

    def joints(self, rooms: Sequence[Room]) -> list[tuple[str, Link]]:
        """Return the joints that stand in pieces of their own."""
        return [
            (room_id, link)
            for entry in self.said.joints
            for room_id in [self._called(entry.name, entry, rooms)]
            for link in self._meant(room_id, entry, rooms)
        ]

    def _meant(self, room_id: str, entry: Entry, rooms: Sequence[Room]) -> Iterator[Link]:
        others = [room for room in rooms if room.id != room_id]
        for link in entry.links:
            yield Link(self._called(link.name, entry, others), link.joint)

    def _called(self, name: str, entry: Entry, rooms: Sequence[Room]) -> str:
        at = called(name, [(room.name, room.use) for room in rooms], self.uses)
        if at is None:
            raise QuantityError(
                quoted(entry.text), f"no room is called {quoted(name)}", "name one of the rooms"
            )
        return rooms[at].id


def _free_ids(plan: Plan) -> Iterator[str]:
    taken = {room.id for room in plan.rooms}
    return (name for at in count(len(taken) + 1) if (name := f"room-{at}") not in taken)


def _with_heights(plan: Plan, storey: int, spoken: _Spoken) -> Plan:
    """Return the plan with what was said of all ceilings, where no room has its own height."""
    height = spoken.said.height
    if height is None:
        return plan
    metres = ceiling_height(height, spoken.said.height_text, spoken.height_unit)
    for room in plan.rooms:
        if room.storey == storey and room.ceiling_height is None:
            plan = with_height(plan, room.id, metres)
    return plan


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
    if found.is_usual:
        says = (
            f"No size was given for {room.name}; {found.width:g} by {found.depth:g} m, as usual "
            "for its use, are assumed."
        )
        yield Doubt(
            aspect=Aspect.OUTLINE,
            room=room.id,
            says=says,
            confidence=_SURE_OF_WIDTHS,
            relative_error=_USUAL_SIZE_ERROR,
        )
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
