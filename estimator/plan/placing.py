"""Doors, windows and passages put into walls by hand, on the ground of their storey."""

import math
from collections.abc import Iterator
from itertools import count

from attrs import evolve

from estimator.errors import OpeningOffWall, PlanError
from estimator.measures import Metres
from estimator.plan.edits import changed
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Opening, OpeningKind, Point
from estimator.plan.plan import Plan
from estimator.plan.pulling import walls_on
from estimator.plan.reshaping import named
from estimator.plan.room import Room
from estimator.plan.walls import THICKEST_WALL, Wall, facing

USUAL_WIDTHS: dict[OpeningKind, Metres] = {
    OpeningKind.DOOR: 0.9,
    OpeningKind.WINDOW: 1.2,
    OpeningKind.PASSAGE: 1.2,
}
"""How wide an opening is until somebody says (common practice)."""

_NARROWEST: Metres = 0.3
_PAIRED: Metres = 0.15


def opening_placed(
    plan: Plan, storey: int, kind: OpeningKind, at: Point, *, width: Metres | None = None
) -> Plan:
    """Return the plan with an opening in the wall nearest to a place, and in the wall facing it.

    Raises
    ------
    OpeningOffWall
        When no wall is near, or the nearest is too short.
    """
    ground = ground_of(plan, storey)
    wall, mates = _wall_at(plan, ground, storey, at, str(kind))
    wide = ground.units(width if width is not None else USUAL_WIDTHS[kind])
    start, end = _gap(wall, at, wide, ground, str(kind))
    other = _through(mates, start, end, ground)
    taken = {opening.id for room in plan.rooms for opening in room.openings}
    ids = (name for at in count(1) if (name := f"{kind}-{at}") not in taken)
    one = ground.with_ends(Opening(id=next(ids), kind=kind), start, end)
    one = evolve(one, leads_to=other[0].room if other else None)
    plan = changed(plan, wall.room, lambda room: _with(room, one))
    if other is None:
        return plan
    twin = ground.with_ends(Opening(id=next(ids), kind=kind, leads_to=wall.room), *other[1])
    return changed(plan, other[0].room, lambda room: _with(room, twin))


def opening_moved(plan: Plan, room_id: str, opening_id: str, to: Point) -> Plan:
    """Return the plan with an opening moved to the wall nearest to a place.

    Raises
    ------
    OpeningOffWall
        When no wall is near, or the nearest is too short.
    """
    room, opening = _opening(plan, room_id, opening_id)
    ground = ground_of(plan, room.storey)
    ends = ground.ends(opening)
    width = math.dist(*ends) * (ground.metres_per_unit or ground.guessed) if ends else None
    without = opening_removed(plan, room_id, opening_id)
    placed = opening_placed(without, room.storey, opening.kind, to, width=width)
    return _like(placed, without, opening)


def opening_resized(plan: Plan, room_id: str, opening_id: str, width: Metres) -> Plan:
    """Return the plan with an opening made wider or narrower about its middle.

    Raises
    ------
    PlanError
        When it has no place, is too narrow, or does not fit in its wall.
    """
    room, opening = _opening(plan, room_id, opening_id)
    ground = ground_of(plan, room.storey)
    ends = ground.ends(opening)
    if ends is None or width < _NARROWEST:
        raise PlanError(f"a {opening.kind} of {named(room)}", "it cannot be so wide", "give 0.9 m")
    middle = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
    without = opening_removed(plan, room_id, opening_id)
    placed = opening_placed(without, room.storey, opening.kind, middle, width=width)
    return _like(placed, without, opening)


def opening_removed(plan: Plan, room_id: str, opening_id: str) -> Plan:
    """Return the plan without an opening, on either side of its wall."""
    room, opening = _opening(plan, room_id, opening_id)
    ground = ground_of(plan, room.storey)
    gone = {opening.id: room_id} | dict(_twins(plan, ground, room, opening))
    for one, owner in gone.items():
        plan = changed(plan, owner, lambda room, one=one: _without(room, one))  # type: ignore[misc]
    return plan


def _like(plan: Plan, before: Plan, opening: Opening) -> Plan:
    """Return the plan with openings that are new since then as high as an opening was."""
    known = {one.id for room in before.rooms for one in room.openings}

    def kept(one: Opening) -> Opening:
        if one.id in known:
            return one
        return evolve(
            one,
            height=opening.height,
            sill=opening.sill,
            hinge=opening.hinge,
            opens_in=opening.opens_in,
        )

    rooms = (evolve(room, openings=tuple(map(kept, room.openings))) for room in plan.rooms)
    return evolve(plan, rooms=tuple(rooms))


def _wall_at(
    plan: Plan, ground: Ground, storey: int, at: Point, what: str
) -> tuple[Wall, list[Wall]]:
    """Return the wall nearest to a place, and the walls that face it."""
    walls = walls_on(plan, ground, storey)
    near = min(range(len(walls)), key=lambda wall: walls[wall].distance(at), default=None)
    if near is None or walls[near].distance(at) > ground.units(THICKEST_WALL):
        raise OpeningOffWall(f"The {what}", "no wall is there", "put it on a wall of a room")
    return walls[near], [walls[mate] for mate in facing(walls, ground.units(THICKEST_WALL))[near]]


def _gap(wall: Wall, at: Point, wide: float, ground: Ground, what: str) -> tuple[Point, Point]:
    if wall.length < ground.units(_NARROWEST):
        raise OpeningOffWall(f"The {what}", "this wall is too short", "put it on a longer wall")
    half = min(wide, wall.length) / 2
    middle = min(max(wall.reached(at), half), wall.length - half)
    return wall.place_at(middle - half), wall.place_at(middle + half)


def _through(
    mates: list[Wall], start: Point, end: Point, ground: Ground
) -> tuple[Wall, tuple[Point, Point]] | None:
    """Return the facing wall that an opening leads through to, and its jambs there."""
    for mate in mates:
        first, last = mate.reached(end), mate.reached(start)
        if first >= -ground.units(_PAIRED) and last <= mate.length + ground.units(_PAIRED):
            first, last = max(first, 0.0), min(last, mate.length)
            return mate, (mate.place_at(first), mate.place_at(last))
    return None


def _twins(plan: Plan, ground: Ground, room: Room, opening: Opening) -> Iterator[tuple[str, str]]:
    """Yield the same gap seen from other rooms: its id and its room."""
    ends = ground.ends(opening)
    if ends is None:
        return
    middle = (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2
    for other in plan.rooms:
        if other is room or other.storey != room.storey:
            continue
        for one in other.openings:
            jambs = ground.ends(one)
            if one.kind is not opening.kind or jambs is None:
                continue
            there = (jambs[0][0] + jambs[1][0]) / 2, (jambs[0][1] + jambs[1][1]) / 2
            if math.dist(middle, there) <= ground.units(THICKEST_WALL):
                yield one.id, other.id


def _opening(plan: Plan, room_id: str, opening_id: str) -> tuple[Room, Opening]:
    room = plan.room(room_id)
    for opening in room.openings:
        if opening.id == opening_id:
            return room, opening
    raise PlanError(named(room), "this opening is no longer there", "point at it again")


def _with(room: Room, opening: Opening) -> Room:
    return evolve(room, openings=(*room.openings, opening))


def _without(room: Room, opening_id: str) -> Room:
    return evolve(room, openings=tuple(one for one in room.openings if one.id != opening_id))
