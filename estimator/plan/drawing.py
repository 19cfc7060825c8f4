"""Rooms drawn, moved and cut by hand, on the ground of their storey."""

import math
from collections.abc import Sequence
from itertools import chain, count

import shapely
from attrs import evolve
from shapely.geometry import LineString, Polygon
from shapely.ops import split as split_by_line

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.edits import added
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.reshaping import DUST, named, outline_of, reshaped, rooms_on
from estimator.plan.room import Room

# A line drawn to cut a room may stop short of its walls by this.
_SHORT: Metres = 0.2


def drawn(
    plan: Plan, storey: int, corners: Sequence[Point], *, name: str = "", use: str = "room"
) -> Plan:
    """Return the plan with one more room, last of its rooms, drawn by its corners.

    Raises
    ------
    PlanError
        When the corners enclose no room.
    """
    name = name or free_name(plan)
    if len(set(corners)) < 3 or not all(map(math.isfinite, chain(*corners))):
        raise PlanError(name, "it has fewer than three corners", "draw at least three")
    outline = Polygon(corners)
    placeholder = shapely.box(0, 0, 1, 1)
    room = Room(id=_free_id(plan), name=name, use=use, storey=storey, outline=placeholder)
    return reshaped(added(plan, room), storey, {room.id: outline})


def room_moved(plan: Plan, room_id: str, by: Point) -> Plan:
    """Return the plan with a room moved, and all that stands in it."""
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)

    def there(place: Point) -> Point:
        return place[0] + by[0], place[1] + by[1]

    outline = shapely.transform(outline_of(room, ground), lambda places: places + by)
    openings = tuple(
        ground.with_ends(one, there(ends[0]), there(ends[1])) if (ends := ground.ends(one)) else one
        for one in room.openings
    )
    furnishings = tuple(
        ground.with_footprint(one, shapely.transform(shape, lambda places: places + by))
        if (shape := ground.footprint(one))
        else one
        for one in room.furnishings
    )
    moved = evolve(room, furnishings=furnishings)
    rooms = tuple(moved if one is room else one for one in plan.rooms)
    return reshaped(evolve(plan, rooms=rooms), room.storey, {room.id: outline}, {room.id: openings})


def split(plan: Plan, room_id: str, start: Point, end: Point, *, new_id: str = "") -> Plan:
    """Return the plan with a room cut in two along a line on its ground.

    The larger part keeps the room's id and name. Openings go to the part they lie on, furnishings
    with a footprint to the part they stand in, others to the larger.

    Raises
    ------
    PlanError
        When the line does not cross the room from wall to wall.
    """
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    line = _lengthened(start, end, ground.units(_SHORT))
    parts = [
        part
        for part in split_by_line(outline_of(room, ground), line).geoms
        if isinstance(part, Polygon)
    ]
    if len(parts) != 2:
        raise PlanError(
            named(room), "the line does not cut it in two", "draw it from one wall to another"
        )
    large, small = sorted(parts, key=lambda part: -part.area)
    half = evolve(_part(room, small, ground), id=new_id or _free_id(plan))
    half = evolve(half, name=f"{room.name} (part)" if room.name else "")
    left = _part(room, large, ground)
    loose = tuple(piece for piece in room.furnishings if ground.footprint(piece) is None)
    left = evolve(left, furnishings=(*left.furnishings, *loose))
    rooms = (one for other in plan.rooms for one in ((left, half) if other is room else (other,)))
    return reshaped(evolve(plan, rooms=tuple(rooms)), room.storey, {left.id: large, half.id: small})


def room_at(plan: Plan, storey: int, place: Point) -> Room | None:
    """Return the smallest room of a storey that a place of its ground lies in."""
    ground = ground_of(plan, storey)
    around = [
        (shape.area, room)
        for room in rooms_on(plan, storey)
        if (shape := ground.outline(room)) and shape.contains(shapely.Point(place))
    ]
    return min(around, key=lambda found: found[0])[1] if around else None


def free_name(plan: Plan) -> str:
    """Return a name that no room of the plan has: “Room” and a number.

    >>> free_name(Plan())
    'Room 1'
    """
    taken = {room.name for room in plan.rooms}
    return next(name for at in count(1) if (name := f"Room {at}") not in taken)


def _free_id(plan: Plan) -> str:
    taken = {room.id for room in plan.rooms}
    return next(name for at in count(1) if (name := f"drawn-{at}") not in taken)


def _lengthened(start: Point, end: Point, more: float) -> LineString:
    length = math.dist(start, end)
    if not length:
        return LineString([start, (end[0] + 1e-9, end[1])])
    x, y = (end[0] - start[0]) / length * more, (end[1] - start[1]) / length * more
    return LineString([(start[0] - x, start[1] - y), (end[0] + x, end[1] + y)])


def _part(room: Room, outline: Polygon, ground: Ground) -> Room:
    near = outline.buffer(ground.units(DUST))
    return evolve(
        room,
        openings=tuple(
            one
            for one in room.openings
            if (ends := ground.ends(one)) and near.intersects(LineString(ends).centroid)
        ),
        furnishings=tuple(
            piece
            for piece in room.furnishings
            if (shape := ground.footprint(piece)) and near.contains(shape.centroid)
        ),
    )
