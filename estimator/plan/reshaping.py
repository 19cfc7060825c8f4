"""Rooms given another outline on the ground: mended, kept apart, their openings kept in walls."""

from collections.abc import Iterable, Mapping

import numpy as np
import shapely
from attrs import evolve
from shapely.geometry import Polygon

from estimator.errors import PlanError, RoomsOverlap
from estimator.measures import Metres, SquareMetres
from estimator.plan.consistency import FARTHEST_OPENING, SHARED_FLOOR, mended_outline
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Opening, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.walls import Wall, walls_of

MOST_CORNERS = 200
"""An outline with more corners is smoothed until it has no more."""

SMALLEST_ROOM: SquareMetres = 0.05
DUST: Metres = 0.01
"""What lies nearer than this is the same place."""

_FARTHEST = 1e6
_NARROWEST: Metres = 0.1
_LEFT_LEAST = 0.1


def reshaped(
    plan: Plan,
    storey: int,
    outlines: Mapping[str, Polygon],
    openings: Mapping[str, tuple[Opening, ...]] | None = None,
) -> Plan:
    """Return the plan with rooms of a storey given other outlines by hand, on its ground.

    Doubts about these outlines are settled. An outline that crosses itself keeps its largest part,
    of two rooms that overlap the smaller keeps the floor, and openings are kept in walls; each
    mending is recorded as a doubt.

    Parameters
    ----------
    openings
        Openings of these rooms that were moved with their walls, by room.

    Raises
    ------
    PlanError
        When nothing usable is left of a room.
    """
    ground = ground_of(plan, storey)
    doubts: list[Doubt] = []
    rooms = {room.id: room for room in rooms_on(plan, storey)}
    drawn = {
        room_id: _sound(rooms[room_id], outline, ground, doubts)
        for room_id, outline in outlines.items()
    }
    lying = {room_id: shape for room_id, room in rooms.items() if (shape := ground.outline(room))}
    changed = drawn | _apart({**lying, **drawn}, drawn, rooms, doubts)
    moved = openings or {}
    made = {
        room_id: _made(
            evolve(rooms[room_id], openings=moved.get(room_id, rooms[room_id].openings)),
            outline,
            ground,
            doubts,
        )
        for room_id, outline in changed.items()
    }
    settled = [
        doubt
        for doubt in plan.doubts
        if not (doubt.aspect is Aspect.OUTLINE and doubt.room in outlines)
    ]
    return evolve(
        plan,
        rooms=tuple(made.get(room.id, room) for room in plan.rooms),
        doubts=(*settled, *doubts),
    )


def on_walls(
    openings: Iterable[Opening], walls: list[Wall], ground: Ground
) -> tuple[tuple[Opening, ...], tuple[Opening, ...]]:
    """Return openings brought onto the walls nearest to them, and those that lie on none."""
    kept: list[Opening] = []
    lost: list[Opening] = []
    for opening in openings:
        ends = ground.ends(opening)
        placed = ends and in_wall(ends, walls, ground)
        if placed:
            kept.append(opening if placed == ends else ground.with_ends(opening, *placed))
        elif ends:
            lost.append(opening)
        else:
            kept.append(opening)
    return tuple(kept), tuple(lost)


def in_wall(
    ends: tuple[Point, Point], walls: list[Wall], ground: Ground
) -> tuple[Point, Point] | None:
    """Return jambs moved onto the wall nearest to both, the gap no wider than the wall.

    None when every wall is too far away or too short.
    """
    start, end = ends
    long_enough = [wall for wall in walls if wall.length >= ground.units(_NARROWEST)]
    if not long_enough or start == end:
        return None
    wall = min(long_enough, key=lambda wall: wall.distance(start) + wall.distance(end))
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    if wall.distance(middle) > ground.units(FARTHEST_OPENING):
        return None
    first, last = wall.reached(start), wall.reached(end)
    if min(first, last) >= 0 and max(first, last) <= wall.length and first != last:
        return wall.place_at(first), wall.place_at(last)
    half = min(float(np.hypot(end[0] - start[0], end[1] - start[1])), wall.length) / 2
    at = min(max(wall.reached(middle), half), wall.length - half)
    away = half if last >= first else -half
    return wall.place_at(at - away), wall.place_at(at + away)


def named(room: Room) -> str:
    """Return what to call a room in a sentence."""
    return room.name or room.id


def rooms_on(plan: Plan, storey: int) -> list[Room]:
    """Return the rooms of a storey."""
    return [room for room in plan.rooms if room.storey == storey]


def outline_of(room: Room, ground: Ground) -> Polygon:
    """Return where a room lies on the ground.

    Raises
    ------
    PlanError
        When it is not on the picture.
    """
    outline = ground.outline(room)
    if outline is None:
        raise PlanError(named(room), "it is not on the picture", "set the scale of the plan first")
    return outline


def _sound(room: Room, outline: Polygon, ground: Ground, doubts: list[Doubt]) -> Polygon:
    """Return an outline that is a simple shape of a sensible size."""
    name = named(room)
    corners = shapely.get_coordinates(outline)
    if not np.isfinite(corners).all() or np.abs(corners).max(initial=0.0) > _FARTHEST:
        raise PlanError(name, "a corner lies nowhere on the plan", "draw it within the plan")
    outline, says = mended_outline(name, outline)
    if says:
        doubts.append(Doubt(aspect=Aspect.OUTLINE, room=room.id, says=says, confidence=0.5))
    count = len(outline.exterior.coords) - 1
    if count > MOST_CORNERS:
        outline = _smoothed(outline, ground)
        left = len(outline.exterior.coords) - 1
        says = f"The outline of {name} had {count:,} corners; it was smoothed to {left}."
        doubts.append(Doubt(aspect=Aspect.OUTLINE, room=room.id, says=says, confidence=0.5))
    if outline.area < ground.units(1.0) ** 2 * SMALLEST_ROOM:
        raise PlanError(name, "it would be too small for a room", "draw it larger")
    return outline


def _smoothed(outline: Polygon, ground: Ground) -> Polygon:
    near = ground.units(DUST)
    while len(outline.exterior.coords) - 1 > MOST_CORNERS:
        outline = shapely.simplify(outline, near)
        near *= 1.5
    return outline


def _apart(
    shapes: dict[str, Polygon],
    drawn: Mapping[str, Polygon],
    rooms: Mapping[str, Room],
    doubts: list[Doubt],
) -> dict[str, Polygon]:
    """Return the outlines of rooms that had to give up floor to a smaller one."""
    cut: dict[str, Polygon] = {}
    for one in drawn:
        for other in shapes:
            if one == other or (other in drawn and other < one):
                continue
            small, large = sorted((one, other), key=lambda room: (shapes[room].area, room))
            shared = shapes[small].intersection(shapes[large]).area
            if shared <= SHARED_FLOOR * shapes[small].area:
                continue
            rest = shapes[large].difference(shapes[small])
            names = named(rooms[large]), named(rooms[small])
            if not isinstance(rest, Polygon) or rest.area < _LEFT_LEAST * shapes[large].area:
                raise RoomsOverlap(
                    f"{names[0]} and {names[1]}",
                    "they would claim the same floor",
                    "draw them beside each other, or one inside the other",
                )
            shapes[large] = cut[large] = rest
            says = f"{names[0]} and {names[1]} overlapped; the shared floor went to {names[1]}."
            doubts.append(Doubt(aspect=Aspect.OUTLINE, room=large, says=says, confidence=0.5))
    return cut


def _made(room: Room, outline: Polygon, ground: Ground, doubts: list[Doubt]) -> Room:
    openings, lost = on_walls(room.openings, walls_of(room.id, outline), ground)
    for opening in lost:
        says = f"A {opening.kind.value} of {named(room)} lay on none of its walls any more."
        doubts.append(Doubt(aspect=Aspect.OPENINGS, room=room.id, says=says, confidence=0.5))
    placed = ground.with_outline(room, outline)
    basis = Basis.READ if ground.on_picture else Basis.MEASURED
    return evolve(placed, openings=openings, confidence=1.0, basis=basis)
