"""Walls and corners of rooms pulled by hand, on the ground of their storey."""

import math
from collections.abc import Sequence

from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Opening, Point
from estimator.plan.plan import Plan
from estimator.plan.reshaping import DUST, named, outline_of, reshaped, rooms_on
from estimator.plan.room import Room
from estimator.plan.walls import THICKEST_WALL, Wall, rings_of, shifted, together, walls_of

# What was pointed at may have moved by this since it was seen.
_SEEN: Metres = 0.05


def wall_moved(
    plan: Plan, room_id: str, start: Point, end: Point, by: Point, *, alone: bool = False
) -> Plan:
    """Return the plan with a wall moved square to itself, and what faces it from other rooms.

    Parameters
    ----------
    start, end
        The wall, as it was seen.
    alone
        Whether the walls that face it stay where they are.

    Raises
    ------
    PlanError
        When the wall is not there, or would pass the one opposite.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    wall = _wall(room, ground, start, end)
    moved = [wall] if alone else _with_mates(plan, ground, room.storey, [wall])
    return _with_walls_moved(plan, ground, moved, by, room.storey)


def corner_pulled(plan: Plan, room_id: str, corner: Point, to: Point) -> Plan:
    """Return the plan with a corner moved and both its walls with it, so that none turns.

    What faces these walls from other rooms moves with them.

    Raises
    ------
    PlanError
        When the corner is not there, or walls would pass those opposite.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    at = _corner(room, ground, corner)
    meeting = [
        wall for wall in walls_of(room.id, outline_of(room, ground)) if at in (wall.start, wall.end)
    ]
    moved = _with_mates(plan, ground, room.storey, meeting)
    return _with_walls_moved(plan, ground, moved, (to[0] - at[0], to[1] - at[1]), room.storey)


def corner_moved(plan: Plan, room_id: str, corner: Point, to: Point) -> Plan:
    """Return the plan with a corner moved, and corners of other rooms in the same place.

    Raises
    ------
    PlanError
        When the corner is not there, or the walls would cross.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    at = _corner(room, ground, corner)
    outlines: dict[str, Polygon] = {}
    openings: dict[str, tuple[Opening, ...]] = {}
    for other in rooms_on(plan, room.storey):
        outline = ground.outline(other)
        if outline is None:
            continue
        before = rings_of(outline)
        near = 1e-9 if other is room else ground.units(DUST)
        after = [[to if math.dist(one, at) <= near else one for one in ring] for ring in before]
        if after == before:
            continue
        outlines[other.id] = _uncrossed(other, Polygon(after[0], after[1:]))
        new = [
            Wall(other.id, number, place, one, ring[(place + 1) % len(ring)])
            for number, ring in enumerate(after)
            for place, one in enumerate(ring)
        ]
        openings[other.id] = _carried(other, ground, walls_of(other.id, outline), new)
    return reshaped(plan, room.storey, outlines, openings)


def corner_added(plan: Plan, room_id: str, at: Point) -> Plan:
    """Return the plan with one more corner on the wall nearest to a place.

    Raises
    ------
    PlanError
        When the place lies on no wall, or on a corner.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    outline = outline_of(room, ground)
    wall = min(walls_of(room.id, outline), key=lambda wall: wall.distance(at))
    reached = wall.reached(at)
    if wall.distance(at) > ground.units(THICKEST_WALL):
        raise PlanError(named(room), "none of its walls is there", "point at one of its walls")
    if not ground.units(DUST) < reached < wall.length - ground.units(DUST):
        raise PlanError(named(room), "there is a corner already", "point between two corners")
    rings = rings_of(outline)
    rings[wall.ring].insert(wall.place + 1, wall.place_at(reached))
    return reshaped(plan, room.storey, {room.id: Polygon(rings[0], rings[1:])})


def corner_removed(plan: Plan, room_id: str, corner: Point) -> Plan:
    """Return the plan with one corner fewer.

    Raises
    ------
    PlanError
        When the corner is not there, or only three are.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    at = _corner(room, ground, corner)
    rings = [[one for one in ring if one != at] for ring in rings_of(outline_of(room, ground))]
    if min(len(ring) for ring in rings) < 3:
        raise PlanError(named(room), "a room needs three corners", "remove the room instead")
    outline = _uncrossed(room, Polygon(rings[0], rings[1:]))
    return reshaped(plan, room.storey, {room.id: outline})


def walls_on(plan: Plan, ground: Ground, storey: int) -> list[Wall]:
    """Return every wall of every room of a storey, on its ground."""
    return [
        wall
        for room in rooms_on(plan, storey)
        if (outline := ground.outline(room))
        for wall in walls_of(room.id, outline)
        if wall.length > 0
    ]


def _with_mates(plan: Plan, ground: Ground, storey: int, chosen: Sequence[Wall]) -> list[Wall]:
    """Return walls with all that face them, in turn, from other rooms."""
    walls = walls_on(plan, ground, storey)
    groups = together(walls, ground.units(THICKEST_WALL))
    keys = {wall.key for wall in chosen}
    moving = {number for wall, number in zip(walls, groups, strict=True) if wall.key in keys}
    return [wall for wall, number in zip(walls, groups, strict=True) if number in moving]


def _wall(room: Room, ground: Ground, start: Point, end: Point) -> Wall:
    """Return the wall of a room that was seen between two places."""

    def away(wall: Wall) -> float:
        along = max(math.dist(wall.start, start), math.dist(wall.end, end))
        return min(along, max(math.dist(wall.start, end), math.dist(wall.end, start)))

    wall = min(walls_of(room.id, outline_of(room, ground)), key=away)
    if away(wall) > ground.units(_SEEN):
        raise PlanError(named(room), "this wall is no longer there", "point at it again")
    return wall


def _corner(room: Room, ground: Ground, near: Point) -> Point:
    corners = [one for ring in rings_of(outline_of(room, ground)) for one in ring]
    corner = min(corners, key=lambda one: math.dist(one, near))
    if math.dist(corner, near) > ground.units(_SEEN):
        raise PlanError(named(room), "this corner is no longer there", "point at it again")
    return corner


def _uncrossed(room: Room, outline: Polygon) -> Polygon:
    if not outline.is_valid or not outline.exterior.is_ccw:
        raise PlanError(named(room), "its walls would cross", "drag it less far")
    return outline


def _with_walls_moved(
    plan: Plan, ground: Ground, walls: Sequence[Wall], by: Point, storey: int
) -> Plan:
    outlines: dict[str, Polygon] = {}
    openings: dict[str, tuple[Opening, ...]] = {}
    for room_id in dict.fromkeys(wall.room for wall in walls):
        room = plan.room(room_id)
        outline = outline_of(room, ground)
        moves = {(wall.ring, wall.place): by for wall in walls if wall.room == room_id}
        shape, new = shifted(outline, moves)
        outlines[room_id] = _uncrossed(room, shape)
        openings[room_id] = _carried(room, ground, walls_of(room_id, outline), new)
    return reshaped(plan, storey, outlines, openings)


def _carried(
    room: Room, ground: Ground, before: Sequence[Wall], after: Sequence[Wall]
) -> tuple[Opening, ...]:
    """Return a room's openings carried along with the walls they lie in."""

    def carried(opening: Opening) -> Opening:
        ends = ground.ends(opening)
        if ends is None or not before:
            return opening
        at = min(
            range(len(before)), key=lambda at: sum(before[at].distance(place) for place in ends)
        )
        old, new = before[at], after[at]
        if old.distance(ends[0]) > ground.units(THICKEST_WALL) or not old.length or not new.length:
            return opening
        # Where the wall only moved, or its far end went further, the gap keeps its place in space.
        slide = (new.start[0] - old.start[0]) * new.along[0] + (
            new.start[1] - old.start[1]
        ) * new.along[1]
        first, last = (new.place_at(old.reached(place) - slide) for place in ends)
        return ground.with_ends(opening, first, last)

    return tuple(carried(one) for one in room.openings)
