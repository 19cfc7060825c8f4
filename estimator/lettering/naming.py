"""Labels given to the rooms they stand in, and the names and uses that rooms get from them."""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence

import shapely
from attrs import evolve, frozen
from shapely.geometry import Point

from estimator.intake.room_names import numbered
from estimator.lettering.labels import Label, RoomName, RoomSize
from estimator.lettering.line import Line
from estimator.lettering.pairs import gap_px
from estimator.lettering.vocabulary import Vocabulary
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# Lines of one name stand so close, in heights of their letters.
_SAME_NAME = 1.0
# A label that touches a wall belongs to the room so near, in heights of its letters.
_NEAR = 0.7
# A size belongs to the name so near, in heights of letters.
_SAME_LABEL = 1.5
# Rooms that were not read lie at most so far outside those that were, in their widths.
_AMONG = 0.05
_BEDROOM = "bedroom"
_ANY = "room"  # the use of rooms nobody knows anything about
_FEWEST_LETTERS = 3  # of a name no word of which is known


@frozen(kw_only=True)
class Placed:
    """The labels of a sheet by where they stand: in rooms, by their ids, and elsewhere."""

    in_rooms: Mapping[str, tuple[Label, ...]]
    elsewhere: tuple[Label, ...]


def placed(labels: Iterable[Label], plan: Plan) -> Placed:
    """Return the labels with the room each stands in: the smallest around its middle."""
    rooms = sorted(
        (room for room in plan.rooms if room.outline_px is not None),
        key=lambda room: room.outline_px.area if room.outline_px else 0.0,
    )
    inside: dict[str, list[Label]] = {}
    elsewhere = []
    for label in labels:
        room = _room_at(rooms, label)
        if room is None:
            elsewhere.append(label)
        else:
            inside.setdefault(room.id, []).append(label)
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
    """Return the names lettered in one room, the name of the largest printed size first.

    Words without a known meaning count only where no others stand.
    """
    labels = tuple(labels)
    blocks = _blocks([label for label in labels if isinstance(label, RoomName)])
    sized = [label for label in labels if isinstance(label, RoomSize)]
    blocks.sort(key=lambda block: -_floor_beside(block, sized))
    known = [_joined(block) for block in blocks if any(label.use for label in block)]
    if known:
        return list(dict.fromkeys(known))
    joined = (_joined(block) for block in blocks)
    return [name for name in joined if sum(map(str.isalpha, name)) >= _FEWEST_LETTERS][:1]


def _floor_beside(block: list[RoomName], sized: list[RoomSize]) -> float:
    """Return the product of the largest size lettered beside a name; 0 when there is none."""
    last = block[-1].line
    near = (size for size in sized if gap_px(last, size.line) <= _SAME_LABEL * last.letter_px)
    return max(
        (size.sizes.likeliest.width * size.sizes.likeliest.depth for size in near), default=0
    )


def _blocks(labels: Iterable[RoomName]) -> list[list[RoomName]]:
    """Return the lines of each name together, from the top."""
    blocks: list[list[RoomName]] = []
    for label in sorted(labels, key=lambda label: label.line.centre_px[::-1]):
        block = next((block for block in blocks if _continues(block[-1].line, label.line)), None)
        if block is None:
            blocks.append([label])
        else:
            block.append(label)
    return blocks


def _continues(above: Line, line: Line) -> bool:
    """Tell whether a line goes on with the name in the line above it."""
    letter = min(above.letter_px, line.letter_px)
    beneath = abs(above.centre_px[0] - line.centre_px[0]) <= 3 * letter
    upright = not (above.is_vertical or line.is_vertical)
    return upright and beneath and gap_px(above, line) <= _SAME_NAME * letter


def _joined(block: list[RoomName]) -> str:
    text = ""
    for label in block:
        text += label.text if not text or text.endswith("/") else f" {label.text}"
    return text.rstrip("/ ")


def _use(names: list[str], words: Vocabulary, at_home: bool) -> str | None:
    return next((use for name in names if (use := words.use_of(name, at_home=at_home))), None)


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
    for block in _blocks(labels):
        if any(label.use not in (None, _ANY) for label in block):
            says = f"A room called {_joined(block)} was printed where none was read."
            yield Doubt(aspect=Aspect.OUTLINE, says=says, confidence=0.5)
