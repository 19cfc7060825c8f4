"""Where doors and stairs lead: to another room, out of the building, or nobody knows."""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

import shapely
from attrs import frozen
from shapely.geometry import LineString, Polygon

from estimator.measures import Metres
from estimator.plan.opening import Opening, OpeningKind, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.walls import THICKEST_WALL

_WALKED_THROUGH = {OpeningKind.DOOR, OpeningKind.PASSAGE}
_STAIRS = "stairs"

# Between a door and a room that faces it from this far away lies something the plan does not show.
_UNSEEN: Metres = 3.0


@frozen
class Ways:
    """Who can walk where.

    Parameters
    ----------
    to
        The rooms that each room's doors and stairs lead to.
    out
        Rooms with a door out of the building.
    on
        Rooms with a door of which nobody knows where it leads.
    """

    to: Mapping[str, tuple[str, ...]]
    out: frozenset[str]
    on: frozenset[str]


def ways(plan: Plan) -> Ways:
    """Return where the doors and stairs of a plan lead.

    A door that names no room leads to the one right behind its wall. Where none is, and none faces
    it from near, it leads out, on the lowest storey that has such a door; higher up it leads onto a
    balcony or roof, which is no way out.
    """
    to: dict[str, list[str]] = {room.id: [] for room in plan.rooms}
    outer: dict[str, int] = {}
    on: set[str] = set()
    for storey in plan.storeys:
        rooms = [room for room in plan.rooms if room.storey == storey.number]
        unnamed = [(room, opening) for room in rooms for opening in _unnamed(room)]
        for room in rooms:
            to[room.id] += [one.leads_to for one in room.openings if one.leads_to in to]
        for room, behind, sees in _probed(rooms, unnamed):
            if behind:
                to[room.id].append(behind)
            elif sees:
                on.add(room.id)
            else:
                outer[room.id] = storey.number
    for upper, lower in _stairs(plan):
        to[upper].append(lower)
    entrance = min(outer.values(), default=None)
    return Ways(
        to={room: tuple(dict.fromkeys(others)) for room, others in to.items()},
        out=frozenset(room for room, number in outer.items() if number == entrance),
        on=frozenset(on),
    )


def _unnamed(room: Room) -> Iterator[Opening]:
    return (one for one in room.openings if one.kind in _WALKED_THROUGH and one.leads_to is None)


def _probed(
    rooms: Sequence[Room], doors: Sequence[tuple[Room, Opening]]
) -> Iterator[tuple[Room, str | None, bool]]:
    """Yield for each door its room, the room right behind it, and whether anything is in sight."""
    outlines = {room.id: room.outline for room in rooms if room.outline is not None}
    ids = list(outlines)
    tree = shapely.STRtree(list(outlines.values()) if doors else [])
    for room, door in doors:
        if room.id not in outlines or not door.start or not door.end:
            yield room, None, True
            continue
        sight = _outward(outlines[room.id], door.start, door.end)
        start = shapely.Point(sight.coords[0])
        met = [
            (start.distance(outlines[ids[at]].intersection(sight)), ids[at])
            for at in tree.query(sight, predicate="intersects").tolist()
            if ids[at] != room.id
        ]
        away, nearest = min(met, default=(math.inf, None))
        yield room, nearest if away <= THICKEST_WALL else None, away < math.inf


def _outward(outline: Polygon, start: Point, end: Point) -> LineString:
    """Return the line of sight out of a door, square to its wall."""
    x, y = end[0] - start[0], end[1] - start[1]
    length = math.hypot(x, y) or 1.0
    across = (-y / length, x / length)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    inside = shapely.Point(middle[0] + 0.1 * across[0], middle[1] + 0.1 * across[1])
    sign = -1 if outline.covers(inside) else 1
    return LineString(
        [
            (middle[0] + sign * away * across[0], middle[1] + sign * away * across[1])
            for away in (0.02, _UNSEEN)
        ]
    )


def _stairs(plan: Plan) -> Iterator[tuple[str, str]]:
    """Yield each room with stairs and the one with stairs below it, the nearest of several."""
    climbed: dict[int, list[Room]] = {storey.number: [] for storey in plan.storeys}
    for room in plan.rooms:
        if room.use == _STAIRS or any(one.kind == _STAIRS for one in room.furnishings):
            climbed[room.storey].append(room)
    numbers = sorted(climbed)
    for lower, upper in pairwise(numbers):
        for room in climbed[upper]:
            if climbed[lower]:
                yield room.id, min(climbed[lower], key=lambda other: _apart(room, other)).id


def _apart(room: Room, other: Room) -> float:
    """Return how far apart two rooms lie, seen from above."""
    if room.outline is None or other.outline is None:
        return math.inf
    return float(room.outline.centroid.distance(other.outline.centroid))
