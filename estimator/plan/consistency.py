"""Contradictions in a plan: mended with a doubt that says so, or refused.

A wall is one edge of a room's outline. An opening must lie on a wall, fit in it, and end below the
ceiling; two rooms of a storey must not claim the same floor.
"""

import math
from itertools import pairwise

import shapely
from attrs import evolve
from shapely.geometry import LineString, Point, Polygon

from estimator.errors import PlanError, RoomsOverlap
from estimator.measures import Metres
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import Opening
from estimator.plan.opening import Point as Corner
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# An opening this far from every wall belongs to none of them.
FARTHEST_OPENING: Metres = 0.5
# Moving an opening by less than this needs no mention.
UNNOTICED_MOVE: Metres = 0.05
# A wall read off a picture may have steps this deep in it behind an opening.
STEP_IN_WALL: Metres = 0.12
# Two outlines may share this part of the smaller room: walls drawn by hand.
SHARED_FLOOR = 0.01


def mended_outline(where: str, outline: Polygon) -> tuple[Polygon, str | None]:
    """Return a simple outline and, when it had to be mended, one sentence saying so.

    Raises
    ------
    PlanError
        When nothing with an area is left of it.
    """
    if outline.is_valid and outline.area > 0:
        return outline, None
    parts = [
        part
        for part in shapely.get_parts(shapely.make_valid(outline)).tolist()
        if isinstance(part, Polygon) and part.area > 0
    ]
    if not parts:
        raise PlanError(where, "its outline encloses no area", "give at least three corners")
    largest = max(parts, key=lambda part: part.area)
    return largest, f"The outline of {where} crossed itself; its largest part was kept."


def consistent(plan: Plan) -> Plan:
    """Return the plan with contradictions mended, each mending recorded as a doubt.

    Raises
    ------
    RoomsOverlap
        When two rooms claim the same floor and taking it from one leaves nothing usable.
    """
    doubts: list[Doubt] = []
    rooms = [_with_openings_in_walls(room, doubts) for room in plan.rooms]
    for storey in plan.storeys:
        level = [room for room in rooms if room.storey == storey.number and room.outline]
        apart = {room.id: room for room in _apart(level, doubts)}
        rooms = [apart.get(room.id, room) for room in rooms]
    return evolve(plan, rooms=tuple(rooms), doubts=plan.doubts + tuple(doubts))


def _with_openings_in_walls(room: Room, doubts: list[Doubt]) -> Room:
    if room.outline is None:
        return room
    name = room.name or room.id

    def doubt(says: str) -> None:
        doubts.append(Doubt(aspect=Aspect.OPENINGS, room=room.id, says=says, confidence=0.5))

    kept = []
    for opening in room.openings:
        kind = opening.kind.value
        if (
            opening.start
            and opening.end
            and not _lies_along(room.outline, opening.start, opening.end)
        ):
            start, end, moved = _on_wall(room.outline, opening.start, opening.end)
            if moved > FARTHEST_OPENING or math.dist(start, end) == 0:
                doubt(f"A {kind} of {name} lay on none of its walls and was left out.")
                continue
            if math.dist(start, end) < 0.9 * math.dist(opening.start, opening.end):
                doubt(f"A {kind} of {name} was wider than its wall and was cut to fit.")
                opening = evolve(opening, start=start, end=end)
            elif moved > 1e-9:
                if moved > UNNOTICED_MOVE:
                    doubt(f"A {kind} of {name} lay off its wall by {moved:.2f} m and was moved.")
                opening = evolve(opening, start=start, end=end)
        low_enough = _below_ceiling(opening, room)
        if low_enough is not opening:
            doubt(f"A {kind} of {name} reached above the ceiling and was cut off there.")
        kept.append(low_enough)
    return evolve(room, openings=tuple(kept)) if tuple(kept) != room.openings else room


def _lies_along(outline: Polygon, start: Corner, end: Corner) -> bool:
    """Tell whether both ends are on the outline, which keeps near the line between them."""
    line = LineString([start, end])
    at = [line.interpolate(share, normalized=True) for share in (0, 0.25, 0.5, 0.75, 1)]
    away = shapely.distance(outline.boundary, at)
    return bool(line.length > 0 and max(away[0], away[4]) < 1e-9 and away.max() <= STEP_IN_WALL)


def _below_ceiling(opening: Opening, room: Room) -> Opening:
    top = room.ceiling.top if room.ceiling else room.ceiling_height
    if top is None or opening.height is None:
        return opening
    sill = min(opening.sill or 0.0, 0.9 * top)
    if sill + opening.height <= top + 1e-9:
        return opening
    return evolve(opening, sill=sill if opening.sill is not None else None, height=top - sill)


def _on_wall(outline: Polygon, start: Corner, end: Corner) -> tuple[Corner, Corner, float]:
    """Return both ends brought onto the nearest wall, and how far the farther one moved."""
    points = Point(start), Point(end)
    best: tuple[float, LineString] | None = None
    for ring in (outline.exterior, *outline.interiors):
        corners = list(ring.coords)
        for wall in map(LineString, pairwise(corners)):
            away = sum(wall.distance(point) for point in points)
            # Between two walls that meet at an end, the one the opening runs along.
            if best is None or away < best[0] - 1e-12:
                best = away, wall
    assert best is not None
    wall = best[1]
    placed = [wall.interpolate(wall.project(point)) for point in points]
    off_line = max(_line_distance(wall, point) for point in points)
    return (placed[0].x, placed[0].y), (placed[1].x, placed[1].y), off_line


def _line_distance(wall: LineString, point: Point) -> float:
    """Distance of the point from the endless line through the wall."""
    (x0, y0), (x1, y1) = wall.coords
    return abs((x1 - x0) * (point.y - y0) - (y1 - y0) * (point.x - x0)) / wall.length


def _apart(rooms: list[Room], doubts: list[Doubt]) -> list[Room]:
    """Return rooms of one storey with shared floor left to the smaller room of each pair."""
    if not rooms:
        return []
    shapes = {room.id: room.outline for room in rooms if room.outline}
    names = {room.id: room.name or room.id for room in rooms}
    ids = list(shapes)
    tree = shapely.STRtree(list(shapes.values()))
    first, second = tree.query(list(shapes.values()), predicate="intersects")
    for one, other in zip(first.tolist(), second.tolist(), strict=True):
        if one >= other:
            continue
        small, large = sorted((ids[one], ids[other]), key=lambda at: shapes[at].area)
        shared = shapes[small].intersection(shapes[large]).area
        if shared <= SHARED_FLOOR * shapes[small].area:
            continue
        rest = shapes[large].difference(shapes[small])
        if not isinstance(rest, Polygon) or rest.area < 0.1 * shapes[large].area:
            raise RoomsOverlap(
                f"{names[small]} and {names[large]}",
                "they claim the same floor",
                "delete one of them or draw them apart",
            )
        shapes[large] = rest
        doubts.append(
            Doubt(
                aspect=Aspect.OUTLINE,
                room=large,
                says=(
                    f"{names[large]} and {names[small]} overlapped by {shared:.1f} m²; "
                    f"the shared floor was given to {names[small]}."
                ),
                confidence=0.5,
                relative_error=min(1.0, shared / rest.area),
            )
        )
    return [
        room if shapes[room.id] is room.outline else evolve(room, outline=shapes[room.id])
        for room in rooms
    ]
