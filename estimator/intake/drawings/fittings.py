"""Doors and windows known as objects of a drawing, put into the walls they stand by."""

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

import shapely
from attrs import evolve, frozen
from shapely import STRtree
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from estimator.measures import Metres
from estimator.plan.opening import Opening, OpeningKind, Point
from estimator.plan.room import Room

# In metres.
_FARTHEST = 0.6  # from an object to the wall it belongs to
_LEAST_WIDTH = 0.3

_ALONG = math.cos(math.radians(8))
_LEAST_SHARE = 0.7  # of its width on the wall


@frozen(kw_only=True, eq=False)
class Fitting:
    """A door or window in metres.

    Parameters
    ----------
    at
        A point of the wall it stands in, such as that where it was inserted.
    extent
        All of it, a drawn swing included.
    """

    kind: OpeningKind
    at: Point
    extent: Polygon
    storey: int = 0
    height: Metres | None = None
    sill: Metres | None = None


def fitted(
    rooms: Sequence[Room], fittings: Sequence[Fitting]
) -> tuple[tuple[Room, ...], tuple[Fitting, ...]]:
    """Return rooms with openings where the fittings stand by their walls, and fittings left over.

    A fitting goes to the nearest wall, and to the wall of the room behind it.
    """
    found: dict[str, list[Opening]] = {room.id: list(room.openings) for room in rooms}
    walls = {
        storey: _Walls.of([room for room in rooms if room.storey == storey])
        for storey in {fitting.storey for fitting in fittings}
    }
    left = []
    for fitting in fittings:
        places = _places(walls[fitting.storey], fitting)
        if not places:
            left.append(fitting)
        for room_id, (start, end) in places.items():
            openings = found[room_id]
            others = [other for other in places if other != room_id]
            openings.append(
                Opening(
                    id=f"{room_id}-{fitting.kind.value}-{len(openings) + 1}",
                    kind=fitting.kind,
                    start=start,
                    end=end,
                    height=fitting.height,
                    sill=fitting.sill,
                    leads_to=others[0] if others else None,
                )
            )
    return tuple(evolve(room, openings=tuple(found[room.id])) for room in rooms), tuple(left)


@frozen(kw_only=True, eq=False)
class _Walls:
    """All edges of the rooms of a storey, and the room of each."""

    edges: tuple[LineString, ...]
    rooms: tuple[str, ...]
    tree: STRtree

    @classmethod
    def of(cls, rooms: Sequence[Room]) -> "_Walls":
        """Return the walls of some rooms."""
        found = [(edge, room.id) for room in rooms for edge in _edges(room)]
        edges = tuple(edge for edge, _ in found)
        return cls(edges=edges, rooms=tuple(room for _, room in found), tree=STRtree(edges))

    def near(self, place: Place, distance: Metres) -> list[tuple[float, str, LineString]]:
        """Return the walls within a distance of a place: how far, whose, and the wall."""
        found = self.tree.query(place, predicate="dwithin", distance=distance).tolist()
        return [(self.edges[at].distance(place), self.rooms[at], self.edges[at]) for at in found]


def _places(walls: _Walls, fitting: Fitting) -> dict[str, tuple[Point, Point]]:
    """Return where a fitting stands in the walls of at most two rooms."""
    near = walls.near(Place(fitting.at), _FARTHEST + _LEAST_WIDTH)
    if not near:
        return {}
    away, _, nearest = min(near, key=lambda one: (round(one[0], 4), -one[2].length))
    if away > _FARTHEST:
        return {}
    along = _direction(nearest)
    reach = [
        x * along[0] + y * along[1] for x, y in shapely.get_coordinates(fitting.extent).tolist()
    ]
    found: dict[str, tuple[Point, Point]] = {}
    for _, room_id, wall in sorted(near, key=lambda one: one[0]):
        direction = _direction(wall)
        if abs(direction[0] * along[0] + direction[1] * along[1]) < _ALONG or room_id in found:
            continue
        if (span := _span(wall, along, min(reach), max(reach))) and len(found) < 2:
            found[room_id] = span
    return found


def _edges(room: Room) -> Iterator[LineString]:
    assert room.outline is not None
    for ring in (room.outline.exterior, *room.outline.interiors):
        for pair in pairwise(ring.coords):
            yield LineString(pair)


def _direction(wall: LineString) -> Point:
    (x0, y0), (x1, y1) = wall.coords
    return (x1 - x0) / wall.length, (y1 - y0) / wall.length


def _span(wall: LineString, along: Point, low: float, high: float) -> tuple[Point, Point] | None:
    """Return the part of a wall between two places along a direction, when it holds most of it."""
    ends = sorted(((x * along[0] + y * along[1]), (x, y)) for x, y in wall.coords)
    (first, start), (last, end) = ends
    begin, stop = max(low, first), min(high, last)
    if stop - begin < max(_LEAST_SHARE * (high - low), _LEAST_WIDTH):
        return None

    def at(value: float) -> Point:
        share = (value - first) / (last - first)
        return start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1])

    return at(begin), at(stop)
