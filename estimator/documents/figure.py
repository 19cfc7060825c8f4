"""The rooms of one storey brought to the size of a drawing."""

import math
from collections.abc import Iterable

import shapely
from attrs import evolve, frozen
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.measures import Metres
from estimator.plan.opening import Hinge, Opening, OpeningKind, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room

USUAL_WALL: Metres = 0.15
THICKEST_WALL: Metres = 0.45
"""Rooms no further apart than this are parted by a wall."""


@frozen(kw_only=True)
class Gap:
    """An opening at its place in the drawing.

    Parameters
    ----------
    start
        The jamb where a door has its hinges; the one nearer to a corner of the room where nobody
        knows.
    outward
        Direction out of the room, of length 1.
    depth
        Thickness of the wall it goes through.
    twin
        Whether the room on the other side draws this opening already.
    hinge
        Start for one leaf, both for two; None when nobody knows.
    opens_out
        Whether its leaves are known to swing out of the room.
    """

    kind: OpeningKind
    start: Point
    end: Point
    outward: Point
    depth: float
    twin: bool = False
    hinge: Hinge | None = None
    opens_out: bool = False

    @property
    def line(self) -> LineString:
        """The opening along the face of the wall."""
        return LineString([self.start, self.end])

    @property
    def through(self) -> Polygon:
        """The piece of wall it takes away."""
        dx, dy = self.outward[0] * self.depth, self.outward[1] * self.depth
        (x0, y0), (x1, y1) = self.start, self.end
        return Polygon([(x0, y0), (x1, y1), (x1 + dx, y1 + dy), (x0 + dx, y0 + dy)])


@frozen(kw_only=True)
class Shape:
    """A room at its place in the drawing."""

    room: Room
    outline: Polygon
    gaps: tuple[Gap, ...]


@frozen(kw_only=True)
class Figure:
    """All rooms of a storey in the unit of the drawing.

    Parameters
    ----------
    per_metre
        Units of the drawing to a metre; None while the plan has no scale.
    wall
        Usual thickness of a wall.
    """

    shapes: tuple[Shape, ...]
    per_metre: float | None
    wall: float
    width: float
    height: float

    @property
    def walls(self) -> BaseGeometry:
        """All walls as one shape: what closes the gaps between rooms and surrounds them."""
        rooms = shapely.union_all([shape.outline for shape in self.shapes])
        reach = self.wall / USUAL_WALL * THICKEST_WALL / 2
        closed = shapely.buffer(
            shapely.buffer(rooms, reach, join_style="mitre"), self.wall - reach, join_style="mitre"
        )
        return closed.union(shapely.buffer(rooms, self.wall, join_style="mitre"))


def fitted(plan: Plan, storey: int, width: float, height: float) -> Figure:
    """Return a storey as large as it fits into a box, walls included, with nothing around it."""
    rooms = [room for room in plan.rooms if room.storey == storey]
    sized = all(room.outline is not None for room in rooms)
    raw = _raw(rooms, sized)
    if not raw.shapes:
        return raw
    outlines = [shape.outline for shape in raw.shapes]
    left, top, right, bottom = shapely.total_bounds(outlines).tolist()
    around = 2 * raw.wall
    factor = min(width / (right - left + around), height / (bottom - top + around))
    move = raw.wall - left, raw.wall - top

    def place(point: Point) -> Point:
        return (point[0] + move[0]) * factor, (point[1] + move[1]) * factor

    matrix = [factor, 0, 0, factor, move[0] * factor, move[1] * factor]
    shapes = tuple(
        Shape(
            room=shape.room,
            outline=affinity.affine_transform(shape.outline, matrix),
            gaps=tuple(
                evolve(gap, start=place(gap.start), end=place(gap.end), depth=gap.depth * factor)
                for gap in shape.gaps
            ),
        )
        for shape in raw.shapes
    )
    return Figure(
        shapes=shapes,
        per_metre=factor if sized else None,
        wall=raw.wall * factor,
        width=(right - left + around) * factor,
        height=(bottom - top + around) * factor,
    )


def in_pixels(plan: Plan, storey: int) -> Figure:
    """Return a storey in the pixels of the picture it was read from."""
    return _raw([room for room in plan.rooms if room.storey == storey], sized=False)


def _raw(rooms: Iterable[Room], sized: bool) -> Figure:
    """Return rooms in their own unit: metres, or pixels where they have no size."""
    outlines = {
        room.id: outline
        for room in rooms
        if (outline := room.outline if sized else room.outline_px) is not None
    }
    wall = USUAL_WALL if sized else _guessed_wall(outlines.values())
    drawn: list[tuple[OpeningKind, Point]] = []
    shapes = []
    # Doors open into the room with fewer ways in, the smaller one of two alike.
    inner_first = sorted(
        (room for room in rooms if room.id in outlines),
        key=lambda room: (_doors(room), outlines[room.id].area),
    )
    for room in inner_first:
        gaps = []
        for opening in room.openings:
            ends = (opening.start, opening.end) if sized else (opening.start_px, opening.end_px)
            if ends[0] is None or ends[1] is None or ends[0] == ends[1]:
                continue
            gap = _gap(opening, ends[0], ends[1], outlines, room.id, wall)
            middle = gap.line.interpolate(0.5, normalized=True)
            near = wall / USUAL_WALL * THICKEST_WALL
            twin = any(
                kind is gap.kind and math.dist(place, (middle.x, middle.y)) < near
                for kind, place in drawn
            )
            if opening.opens_in is not None:  # the room it swings into draws it
                twin = not opening.opens_in and opening.leads_to in outlines
            drawn.append((gap.kind, (middle.x, middle.y)))
            gaps.append(evolve(gap, twin=twin))
        shapes.append(Shape(room=room, outline=outlines[room.id], gaps=tuple(gaps)))
    return Figure(
        shapes=tuple(shapes), per_metre=1.0 if sized else None, wall=wall, width=0, height=0
    )


def _doors(room: Room) -> int:
    return sum(opening.kind is not OpeningKind.WINDOW for opening in room.openings)


def _gap(
    opening: Opening,
    start: Point,
    end: Point,
    outlines: dict[str, Polygon],
    room_id: str,
    wall: float,
) -> Gap:
    corners = shapely.MultiPoint(shapely.get_coordinates(outlines[room_id]))
    is_end_nearer = corners.distance(shapely.Point(end)) < corners.distance(shapely.Point(start))
    if opening.hinge is Hinge.END or (opening.hinge is None and is_end_nearer):
        start, end = end, start
    length = math.dist(start, end)
    across = (start[1] - end[1]) / length, (end[0] - start[0]) / length
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    probe = shapely.Point(middle[0] + across[0] * wall / 4, middle[1] + across[1] * wall / 4)
    outward = (-across[0], -across[1]) if outlines[room_id].contains(probe) else across
    reach = wall / USUAL_WALL * THICKEST_WALL
    ray = LineString([middle, (middle[0] + outward[0] * reach, middle[1] + outward[1] * reach)])
    beyond = [
        shapely.Point(middle).distance(met)
        for other, outline in outlines.items()
        if other != room_id and not (met := outline.intersection(ray)).is_empty
    ]
    return Gap(
        kind=opening.kind,
        start=start,
        end=end,
        outward=outward,
        depth=min(beyond, default=wall),
        hinge=Hinge.START if opening.hinge is Hinge.END else opening.hinge,
        opens_out=opening.opens_in is False,
    )


def _guessed_wall(outlines: Iterable[Polygon]) -> float:
    """Guess a wall's thickness without a scale: a twentieth of a middling room's side."""
    sides = sorted(outline.area**0.5 for outline in outlines)
    return sides[len(sides) // 2] / 20 if sides else 1.0
