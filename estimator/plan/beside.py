"""Rooms of known size put beside others: where there is room for them, with doors between.

All places are on the ground of the storey. What lies around is taken by its bounds, so a rectangle
put beside it never overlaps it.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import StrEnum
from itertools import count, product

import numpy as np
from attrs import evolve, frozen
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon

from estimator.errors import PlanError, ScaleUnknown
from estimator.measures import Metres
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Opening, OpeningKind, Point
from estimator.plan.placing import USUAL_WIDTHS
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.walls import THICKEST_WALL, Wall, facing, walls_of

Box = tuple[float, float, float, float]
"""Left, top, right and bottom of a rectangle."""

Boxes = NDArray[np.float64]
"""Several of them, shape (boxes, 4)."""

_NEXT_TO: Metres = 0.5
_DUST: Metres = 1e-6
_NARROWEST: Metres = 0.5
_JAMBS = 0.9


class Joint(StrEnum):
    """How two rooms beside each other are joined."""

    PASSAGE = "opens to"
    DOOR = "off"
    WALL = "next to"

    @property
    def opening(self) -> OpeningKind | None:
        """What lies in the wall between them; None for nothing."""
        kinds = {Joint.PASSAGE: OpeningKind.PASSAGE, Joint.DOOR: OpeningKind.DOOR}
        return kinds.get(self)


@frozen
class Link:
    """A joint of a room with another, which is named by its id."""

    room: str
    joint: Joint


def room_beside(plan: Plan, room: Room, links: Sequence[Link] = ()) -> Plan:
    """Return the plan with one more room, moved to where it touches those it is joined with.

    Without links it comes to lie beside the last room of its storey. A joint that there is no place
    for is left out with a doubt that says so.
    """
    rooms = {one.id: one for one in plan.rooms if one.storey == room.storey}
    made, doubts = beside(rooms, room, links, ground_of(plan, room.storey))
    changed = {one.id: one for one in made}
    return evolve(
        plan,
        rooms=(*(changed.get(one.id, one) for one in plan.rooms), changed[room.id]),
        doubts=(*plan.doubts, *doubts),
    )


def joined(plan: Plan, one_id: str, other_id: str, joint: Joint) -> Plan:
    """Return the plan with two rooms that share a wall joined through it.

    Raises
    ------
    PlanError
        When they share no wall with room for it.
    """
    one, other = plan.room(one_id), plan.room(other_id)
    made = _joined(one, other, joint, ground_of(plan, one.storey)) if one is not other else None
    if made is None:
        raise PlanError(
            f"{one.name or one_id} and {other.name or other_id}",
            "they share no wall with room for it",
            "move one beside the other first",
        )
    changed = {room.id: room for room in made}
    return evolve(plan, rooms=tuple(changed.get(room.id, room) for room in plan.rooms))


def beside(
    rooms: Mapping[str, Room], room: Room, links: Sequence[Link], ground: Ground
) -> tuple[tuple[Room, ...], tuple[Doubt, ...]]:
    """Return a room moved beside those it is joined with, they too where a door was made in them.

    Parameters
    ----------
    rooms
        The rooms of the storey by id, the last one last.

    Raises
    ------
    ScaleUnknown
        When the picture of the storey has no scale yet.
    """
    assert room.outline is not None
    if ground.turn is None:
        raise ScaleUnknown(room.name, "the picture it would lie on has no scale", "set that first")
    left, top, right, bottom = room.outline.bounds
    size = ground.units(right - left), ground.units(bottom - top)
    taken = {
        one.id: shape.bounds for one in rooms.values() if (shape := ground.outline(one)) is not None
    }
    wanted = {link.room: ground.units(_need(link.joint)) for link in links if link.room in taken}
    if not wanted and taken:
        wanted = {list(taken)[-1]: ground.units(_NEXT_TO)}
    place = free_place(taken, size, wanted) or _aside(taken.values())
    moved = _moved(room, rectangle(*size, left=place[0], top=place[1]), ground)
    made, doubts = {room.id: moved}, []
    for link in links:
        other = made.get(link.room) or rooms[link.room]
        pair = _joined(made[room.id], other, link.joint, ground)
        if pair is None:
            says = (
                f"{room.name} could not be drawn beside {other.name}, so nothing was put in the "
                "wall between them."
            )
            doubts.append(Doubt(aspect=Aspect.OPENINGS, room=room.id, says=says, confidence=0.5))
        else:
            made |= {one.id: one for one in pair}
    return tuple(made.values()), tuple(doubts)


def free_place(
    taken: Mapping[str, Box], size: tuple[float, float], wanted: Mapping[str, float]
) -> Point | None:
    """Return where a rectangle overlaps nothing and touches what is wanted, all most compact.

    Parameters
    ----------
    wanted
        By how much it is to touch each of these, of which it must touch the first; less where one
        of both is shorter.

    Examples
    --------
    >>> free_place({"hall": (0.0, 0.0, 6.0, 2.0)}, (3.0, 3.0), {"hall": 1.0})
    (0.0, 2.0)
    """
    if not wanted:
        return None if taken else (0.0, 0.0)
    first = next(iter(wanted))
    around = _near(taken, first, size)
    places = np.array(list(_places(taken[first], size, wanted[first], around)))
    boxes = np.hstack([places, places + size])
    free = boxes[~_overlap(boxes, np.array(around)).any(axis=1)]
    if not len(free):
        return None
    touched = np.sum(
        [
            _touching(free, taken[name]) >= min(need, *_sides(taken[name]), *size) - _DUST
            for name, need in wanted.items()
        ],
        axis=0,
    )
    everything = np.array(list(taken.values()))
    first_corner, last_corner = everything[:, :2].min(axis=0), everything[:, 2:].max(axis=0)
    spread = np.maximum(free[:, 2:], last_corner) - np.minimum(free[:, :2], first_corner)
    before = (free[:, :2] < first_corner - _DUST).sum(axis=1)
    best = np.lexsort((free[:, 0], free[:, 1], before, (spread**2).sum(axis=1).round(6), -touched))
    x, y = free[best[0], :2].tolist()
    return x, y


def _sides(box: Box) -> tuple[float, float]:
    return box[2] - box[0], box[3] - box[1]


def _need(joint: Joint) -> Metres:
    if joint.opening is None:
        return _NEXT_TO
    return USUAL_WIDTHS[joint.opening] / _JAMBS


def _aside(taken: Iterable[Box]) -> Point:
    """Return a place to the right of everything."""
    boxes = list(taken)
    return max((box[2] for box in boxes), default=0.0), min((box[1] for box in boxes), default=0.0)


def _near(taken: Mapping[str, Box], name: str, size: tuple[float, float]) -> list[Box]:
    """Return what lies so near that a rectangle touching one of them may touch it, too."""
    left, top, right, bottom = taken[name]
    wide, deep = size
    return [
        box
        for box in taken.values()
        if box[0] <= right + wide
        and box[2] >= left - wide
        and box[1] <= bottom + deep
        and box[3] >= top - deep
    ]


def _places(
    side: Box, size: tuple[float, float], need: float, around: Sequence[Box]
) -> Iterator[Point]:
    """Yield places along the four sides of a rectangle, flush with it or with what lies around."""
    left, top, right, bottom = side
    wide, deep = size
    need_x, need_y = min(need, wide, right - left), min(need, deep, bottom - top)
    across = {x for box in around for x in (box[0], box[2], box[0] - wide, box[2] - wide)}
    down = {y for box in around for y in (box[1], box[3], box[1] - deep, box[3] - deep)}
    across |= {left + need_x - wide, right - need_x}
    down |= {top + need_y - deep, bottom - need_y}
    across = {x for x in across if left + need_x - wide - _DUST <= x <= right - need_x + _DUST}
    down = {y for y in down if top + need_y - deep - _DUST <= y <= bottom - need_y + _DUST}
    yield from product(sorted(across), (bottom, top - deep))
    yield from product((right, left - wide), sorted(down))


def _overlap(boxes: Boxes, others: Boxes) -> NDArray[np.bool_]:
    """Return which boxes overlap which others, shape (boxes, others)."""
    one, other = boxes[:, None], others[None]
    shared = np.minimum(one[..., 2:], other[..., 2:]) - np.maximum(one[..., :2], other[..., :2])
    return np.asarray((shared > _DUST).all(axis=2))


def _touching(boxes: Boxes, side: Box) -> NDArray[np.float64]:
    """Return along what length each box touches a rectangle, shape (boxes,)."""
    shared = np.minimum(boxes[:, 2:], side[2:]) - np.maximum(boxes[:, :2], side[:2])
    x, y = shared.T
    return np.where(np.abs(x) <= _DUST, y, np.where(np.abs(y) <= _DUST, x, 0.0))


def _moved(room: Room, outline: Polygon, ground: Ground) -> Room:
    """Return the room lying there, with its openings."""
    assert room.outline is not None
    from_x, from_y = room.outline.bounds[:2]
    to_x, to_y = outline.bounds[:2]

    def there(place: Point) -> Point:
        x, y = place
        return float(to_x + ground.units(x - from_x)), float(to_y + ground.units(y - from_y))

    openings = (
        ground.with_ends(one, there(one.start), there(one.end)) if one.start and one.end else one
        for one in room.openings
    )
    return evolve(ground.with_outline(room, outline), openings=tuple(openings))


def _joined(one: Room, other: Room, joint: Joint, ground: Ground) -> tuple[Room, Room] | None:
    """Return two rooms with an opening in the wall between them; None where it has no place."""
    outlines = ground.outline(one), ground.outline(other)
    if outlines[0] is None or outlines[1] is None or one.storey != other.storey:
        return None
    walls = [*walls_of(one.id, outlines[0]), *walls_of(other.id, outlines[1])]
    mates = facing(walls, ground.units(THICKEST_WALL))
    kind = joint.opening
    if kind is None:
        return (one, other) if any(mates) else None
    gaps = [gap for room in (one, other) for gap in room.openings]
    doors = [gap for gap in gaps if gap.kind is not OpeningKind.WINDOW]
    for taken in (gaps, doors):
        stretches = [
            (last - first, first, wall, walls[mate])
            for wall, found in zip(walls, mates, strict=True)
            if wall.room == one.id
            for mate in found
            for first, last in _free(wall, walls[mate], taken, ground)
        ]
        longest = max(stretches, key=lambda stretch: round(stretch[0], 6), default=None)
        if longest and longest[0] * _JAMBS >= ground.units(_NARROWEST):
            break
    else:
        return None
    length, first, wall, mate = longest
    half = min(ground.units(USUAL_WIDTHS[kind]), _JAMBS * length) / 2
    start, end = (wall.place_at(first + length / 2 + away) for away in (-half, half))
    across = mate.place_at(mate.reached(end)), mate.place_at(mate.reached(start))
    return (
        _with_opening(one, kind, (start, end), other.id, ground),
        _with_opening(other, kind, across, one.id, ground),
    )


def _free(
    wall: Wall, mate: Wall, taken: Sequence[Opening], ground: Ground
) -> Iterator[tuple[float, float]]:
    """Yield the stretches of a wall that lie on its mate, free of other openings, end to end."""
    at = max(0.0, wall.reached(mate.end))
    until = min(wall.length, wall.reached(mate.start))
    near = ground.units(THICKEST_WALL)
    gaps = sorted(
        tuple(sorted((wall.reached(start), wall.reached(end))))
        for start, end in filter(None, map(ground.ends, taken))
        if max(wall.distance(start), wall.distance(end)) <= near
    )
    for first, last in gaps:
        if first > at:
            yield at, min(first, until)
        at = max(at, last)
    if until > at:
        yield at, until


def _with_opening(
    room: Room, kind: OpeningKind, ends: tuple[Point, Point], leads_to: str, ground: Ground
) -> Room:
    """Return the room with an opening; a window that was there goes to the opposite wall."""
    taken = {opening.id for opening in room.openings}
    ids = (name for at in count(1) if (name := f"{room.id}-{kind}-{at}") not in taken)
    opening = ground.with_ends(Opening(id=next(ids), kind=kind, leads_to=leads_to), *ends)
    outline = ground.outline(room)
    assert outline is not None
    left, top, right, bottom = outline.bounds
    door = LineString(ends)

    def clear(gap: Opening) -> Opening:
        jambs = ground.ends(gap)
        if gap.kind is not OpeningKind.WINDOW or jambs is None:
            return gap
        if LineString(jambs).distance(door) > ground.units(_DUST):
            return gap
        opposite = ((left + right - x, top + bottom - y) for x, y in jambs)
        return ground.with_ends(gap, *opposite)

    return evolve(room, openings=(*map(clear, room.openings), opening))
