"""Labels given to the rooms they stand in, and the names and uses that rooms get from them."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

import shapely
from attrs import evolve, frozen
from shapely.geometry import Point

from estimator.intake.room_names import numbered
from estimator.lettering.labels import Label, RoomName
from estimator.lettering.tags import tags_of
from estimator.lettering.vocabulary import ANY, OUTDOORS, Vocabulary
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# A label that touches a wall belongs to the room so near, in heights of its letters.
_NEAR = 0.7
# Rooms that were not read lie at most so far outside those that were, in their widths.
_AMONG = 0.05
_BEDROOM = "bedroom"
_FEWEST_LETTERS = 3  # of a name no word of which is known


@frozen(kw_only=True)
class Placed:
    """The labels of a sheet by where they stand: in rooms, by their ids, and elsewhere."""

    in_rooms: Mapping[str, tuple[Label, ...]]
    elsewhere: tuple[Label, ...]


def placed(labels: Iterable[Label], plan: Plan, given: Mapping[Label, str] | None = None) -> Placed:
    """Return the labels with the room each stands in: the smallest around its middle.

    Parameters
    ----------
    given
        Ids of the rooms that labels mean in which they do not stand.
    """
    rooms = sorted(
        (room for room in plan.rooms if room.outline_px is not None),
        key=lambda room: room.outline_px.area if room.outline_px else 0.0,
    )
    inside: dict[str, list[Label]] = {}
    elsewhere = []
    for label in labels:
        room = _room_at(rooms, label)
        room_id = (given or {}).get(label, room.id if room else None)
        if room_id is None:
            elsewhere.append(label)
        else:
            inside.setdefault(room_id, []).append(label)
    return Placed(
        in_rooms={room_id: tuple(found) for room_id, found in inside.items()},
        elsewhere=tuple(elsewhere),
    )


def _room_at(rooms: Sequence[Room], label: Label) -> Room | None:
    middle = Point(label.line.centre_px)
    for reach in (0.0, _NEAR * label.line.letter_px):
        for room in rooms:
            if room.outline_px is not None and room.outline_px.distance(middle) <= reach:
                return room
    return None


def named(plan: Plan, found: Placed, words: Vocabulary) -> Plan:
    """Return the plan with its rooms called as they are lettered, each weak guess a doubt."""
    names = {room.id: names_in(found.in_rooms.get(room.id, ())) for room in plan.rooms}
    at_home = any(words.use_of(name) == _BEDROOM for all_ in names.values() for name in all_)
    called = numbered(" / ".join(names[room.id]) or room.name for room in plan.rooms)
    rooms, doubts = [], list(plan.doubts)
    for room, name in zip(plan.rooms, called, strict=True):
        use = _use(names[room.id], words, at_home)
        rooms.append(evolve(room, name=name, use=use or room.use))
        doubts = [_renamed(doubt, room, name) for doubt in doubts]
        doubts += _doubts(rooms[-1], names[room.id], is_use_known=use is not None)
    doubts += _unread(plan, found)
    return evolve(plan, rooms=tuple(rooms), doubts=tuple(doubts))


def names_in(labels: Iterable[Label]) -> list[str]:
    """Return the names lettered in one room, the name of the largest printed floor first.

    Words without a known meaning count only where no others stand.
    """
    tags = sorted(tags_of(labels), key=lambda tag: -tag.floor)
    known = [tag.name for tag in tags if tag.use]
    if known:
        return list(dict.fromkeys(known))
    names = (tag.name for tag in tags)
    return [name for name in names if sum(map(str.isalpha, name)) >= _FEWEST_LETTERS][:1]


def _use(names: list[str], words: Vocabulary, at_home: bool) -> str | None:
    """Return the use of the first name that has one; what is open to a room indoors is indoors."""
    uses = [use for name in names if (use := words.use_of(name, at_home=at_home))]
    return next((use for use in uses if use != OUTDOORS), uses[0] if uses else None)


def _doubts(room: Room, names: list[str], *, is_use_known: bool) -> Iterator[Doubt]:
    if len(names) > 1:
        listed = f"{', '.join(names[:-1])} and {names[-1]}"
        says = f"{listed} are printed in one room; it may be {len(names)}."
        yield Doubt(aspect=Aspect.OUTLINE, room=room.id, says=says, confidence=0.5)
    if names and not is_use_known:
        says = f"What {room.name} is used for is not known; an ordinary room is assumed."
        yield Doubt(aspect=Aspect.USE, room=room.id, says=says, confidence=0.5)


def _renamed(doubt: Doubt, room: Room, name: str) -> Doubt:
    """Return a doubt of the reader with the room in it called by its new name."""
    if doubt.room != room.id or not doubt.says.startswith(f"{room.name} "):
        return doubt
    return evolve(doubt, says=name + doubt.says[len(room.name) :])


def _unread(plan: Plan, found: Placed) -> Iterator[Doubt]:
    """Yield the names of rooms lettered among the rooms but in none of them."""
    outlines = [room.outline_px for room in plan.rooms if room.outline_px is not None]
    if not outlines:
        return
    hull = shapely.union_all(outlines).convex_hull
    among = hull.buffer(_AMONG * math.sqrt(hull.area))
    labels = [
        label
        for label in found.elsewhere
        if isinstance(label, RoomName) and among.contains(Point(label.line.centre_px))
    ]
    for tag in tags_of(labels):
        if tag.use not in (None, ANY):
            says = f"A room called {tag.name} was printed where none was read."
            yield Doubt(aspect=Aspect.OUTLINE, says=says, confidence=0.5)
