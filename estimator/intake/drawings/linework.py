"""Rooms out of exact lines: what the faces of walls enclose.

A *line* is a face of a wall, or a wall drawn as a single line; a *solid* is the body of a wall. A
*body* is a solid or the thin face between the two lines of a wall. A *gap* is where a wall stops
and goes on: a door, a window or a passage. Rooms are the faces that bodies, lines and closed gaps
leave.
"""

from collections.abc import Sequence

import shapely
from attrs import field, frozen
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.bridges import bridges
from estimator.intake.drawings.fittings import Fitting
from estimator.intake.drawings.gaps import Evidence, Gap
from estimator.intake.drawings.jambs import fills
from estimator.intake.drawings.swings import doors_by_swing, panes

# All in metres, common practice.
THICKEST_WALL = 0.5
_THICKEST_LONG_WALL = 0.75  # an old outer wall: many times longer than thick
_SLENDER = 40.0  # perimeter to thickness
_LEAST_ROOM = 0.3  # m²
_LEAST_BUILDING = 6.0  # m²; less, free within a room, is a table
_GRID = 1e-4  # nearer points are one
_IN_WALL = 0.06  # from a shut door to the wall it stands in
_STANDS_IN = 0.6  # of its width


@frozen(kw_only=True, eq=False)
class Linework:
    """What is drawn, in metres or nearly so, x to the right and y downwards.

    Parameters
    ----------
    metre
        How many units of the file were taken for a metre.
    lines
        Faces of walls or walls as single lines.
    solids
        Bodies of walls.
    evidence
        What else is drawn, by which doors and windows are told.
    """

    metre: float = 1.0
    lines: tuple[LineString, ...] = ()
    solids: tuple[Polygon, ...] = ()
    evidence: Evidence = field(factory=Evidence)


@frozen(kw_only=True, eq=False)
class Enclosed:
    """The rooms and what is in their walls.

    Parameters
    ----------
    gaps
        Gaps between the rooms, and between them and outdoors.
    fittings
        Doors and windows drawn in walls that have no gap there.
    masonry
        Bodies of walls, gaps filled; empty when all walls are single lines.
    """

    rooms: tuple[Polygon, ...]
    gaps: tuple[Gap, ...]
    fittings: tuple[Fitting, ...]
    masonry: BaseGeometry


def enclosed(drawing: Linework) -> Enclosed:
    """Return the rooms that a drawing encloses, in no order."""
    evidence = drawing.evidence
    solids = _united(drawing.solids)
    drawn = _edges(drawing.lines)
    closing, line_gaps = bridges(drawn, solids, evidence)
    edges = _edges([*drawn, *closing])
    faces = _faces([*edges, solids.boundary])
    thin = [face for face in faces if is_wall(face)]
    bodies = _united([*_polygons(solids), *thin])
    filling, body_gaps = fills(bodies, evidence)
    masonry = _united([*_polygons(bodies), *filling])
    gaps = [*line_gaps, *body_gaps]
    walls = shapely.union_all([masonry, *edges])
    fittings = panes(evidence.strokes, bodies)
    for door in doors_by_swing(evidence, walls, gaps):
        around = door.line.buffer(2 * _IN_WALL)
        beside = walls.intersection(around).buffer(_IN_WALL)
        if door.line.intersection(beside).length < _STANDS_IN * door.line.length:
            piece, gap = door.piece()
            filling.append(piece)
            gaps.append(gap)
        else:
            fittings.append(door.fitting)
    masonry = _united([*_polygons(bodies), *filling])
    rooms = [
        face
        for face in _faces([*edges, masonry.boundary])
        if face.area >= _LEAST_ROOM
        and not is_wall(face)
        and not shapely.contains(masonry, face.representative_point())
    ]
    rooms = _without_islands(_without_frames(rooms), gaps, masonry)
    return Enclosed(rooms=tuple(rooms), gaps=tuple(gaps), fittings=tuple(fittings), masonry=masonry)


def is_wall(face: Polygon) -> bool:
    """Tell whether a face is as thin as a wall."""
    thickness = 2 * face.area / face.length
    if thickness < _THICKEST_LONG_WALL and face.length > _SLENDER * thickness:
        inside = face.buffer(-_THICKEST_LONG_WALL / 2)
    elif thickness < THICKEST_WALL:
        inside = face.buffer(-THICKEST_WALL / 2)
    else:
        return False
    return bool(inside.is_empty)


def _without_frames(rooms: list[Polygon]) -> list[Polygon]:
    """Return the rooms without the sheet around a building, which has all the others within."""
    kept = []
    for room in rooms:
        if room.interiors:
            whole = Polygon(room.exterior)
            others = [other for other in rooms if other is not room]
            inner = sum(other.area for other in others)
            if inner >= _LEAST_BUILDING and all(
                whole.contains(other.representative_point()) for other in others
            ):
                continue
        kept.append(room)
    return kept


def _without_islands(
    rooms: list[Polygon], gaps: Sequence[Gap], masonry: BaseGeometry
) -> list[Polygon]:
    """Return rooms with what stands free in them made floor: a table, not a room with a door."""
    ways_in = shapely.union_all([LineString(side) for gap in gaps for side in gap.sides])
    islands = [
        island
        for room in rooms
        for island in map(Polygon, room.interiors)
        if island.area < _LEAST_BUILDING
        and not island.intersects(masonry)
        and not island.intersects(ways_in)
    ]
    whole = shapely.union_all(islands)
    kept = [room for room in rooms if not whole.contains(room.representative_point())]
    return [
        Polygon(
            room.exterior,
            [ring for ring in room.interiors if not whole.covers(Polygon(ring))],
        )
        for room in kept
    ]


def _united(shapes: Sequence[BaseGeometry]) -> BaseGeometry:
    return shapely.union_all(list(shapes), grid_size=_GRID)


def _edges(lines: Sequence[BaseGeometry]) -> list[LineString]:
    """Return lines cut wherever they meet."""
    parts = shapely.get_parts(shapely.union_all(list(lines), grid_size=_GRID)).tolist()
    return [part for part in parts if isinstance(part, LineString) and part.length]


def _faces(lines: Sequence[BaseGeometry]) -> list[Polygon]:
    return _polygons(shapely.polygonize(_edges(lines)))


def _polygons(shape: BaseGeometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(shape).tolist() if isinstance(part, Polygon)]
