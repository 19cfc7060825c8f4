"""Entities of a DXF as points in the plane, y downwards; arcs as chords."""

import math
from collections.abc import Iterable, Iterator
from itertools import pairwise

import shapely
from attrs import frozen
from ezdxf import path
from ezdxf.entities.arc import Arc
from ezdxf.entities.circle import Circle
from ezdxf.entities.dxfentity import DXFEntity
from ezdxf.entities.ellipse import Ellipse
from ezdxf.entities.hatch import Hatch
from ezdxf.entities.line import Line
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.entities.mline import MLine
from ezdxf.entities.mpolygon import MPolygon
from ezdxf.entities.polyline import Polyline
from ezdxf.entities.solid import Solid, Trace
from ezdxf.entities.spline import Spline
from ezdxf.math import Vec3
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.plan.opening import Point

_SAGITTA = 3e-5  # of the size of a curve: its area is then right within 0.01 %
_MEETING = 1e-6  # of its length between the ends of a closed line
_STEP = 2 * math.acos(1 - 2 * _SAGITTA)  # radians of arc to a chord


@frozen(kw_only=True, eq=False)
class Stroke:
    """A run of points; ``closed`` when its ends were joined, ``curved`` when it is an arc alone."""

    line: LineString
    closed: bool = False
    curved: bool = False


def strokes(entity: DXFEntity) -> Iterator[Stroke]:
    """Yield what a line, polyline or curve draws; nothing for another entity."""
    if isinstance(entity, Line):
        yield from _stroke(_flat([entity.dxf.start, entity.dxf.end]))
    elif isinstance(entity, LWPolyline):
        ocs = entity.ocs()
        points = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
        yield from _stroke(
            _flat(ocs.points_to_wcs(_bulged(points, entity.closed))), closed=entity.closed
        )
    elif isinstance(entity, Polyline):
        yield from _polyline(entity)
    elif isinstance(entity, MLine):  # walls drawn as several lines beside each other
        for part in entity.virtual_entities():
            yield from strokes(part)
    elif isinstance(entity, Circle):  # Arc is one of them
        size = abs(entity.dxf.radius)
        if size > 0:
            is_arc = isinstance(entity, Arc)
            points_3d = list(entity.flattening(2 * _SAGITTA * size))
            yield from _stroke(_flat(points_3d), closed=not is_arc, curved=True)
    elif isinstance(entity, Ellipse | Spline):
        yield from _stroke(_flat(_curve(entity)), curved=True)


def areas(entity: DXFEntity) -> list[Polygon]:
    """Return what a hatch or a filled shape covers; nothing for another entity."""
    if isinstance(entity, Hatch | MPolygon):
        rings = []
        for run in path.from_hatch(entity):
            size = max(run.start.distance(vertex) for vertex in run.control_vertices())
            if size > 0:
                rings.append(_flat(run.flattening(_SAGITTA * size)))
        return evenly(rings)
    if isinstance(entity, Solid | Trace):
        return evenly([_flat(entity.wcs_vertices())])
    return []


def evenly(rings: Iterable[list[Point]]) -> list[Polygon]:
    """Return what rings cover, a ring within another being a hole."""
    covered: BaseGeometry = Polygon()
    for ring in rings:
        if len(ring) >= 3:
            covered = shapely.symmetric_difference(covered, shapely.make_valid(Polygon(ring)))
    return [
        part
        for part in shapely.get_parts(covered).tolist()
        if isinstance(part, Polygon) and part.area > 0
    ]


def _polyline(entity: Polyline) -> Iterator[Stroke]:
    if entity.is_2d_polyline:
        points = [
            (vertex.dxf.location.x, vertex.dxf.location.y, vertex.dxf.get("bulge", 0.0))
            for vertex in entity.vertices
        ]
        flat = _flat(entity.ocs().points_to_wcs(_bulged(points, entity.is_closed)))
        yield from _stroke(flat, closed=entity.is_closed)
    elif entity.is_3d_polyline:
        run = [vertex.dxf.location for vertex in entity.vertices]
        if entity.is_closed and run:
            run.append(run[0])
        yield from _stroke(_flat(run), closed=entity.is_closed)


def _curve(entity: Ellipse | Spline) -> list[Vec3]:
    if isinstance(entity, Ellipse):
        size = entity.dxf.major_axis.magnitude
    else:
        size = max((Vec3(point).magnitude for point in entity.control_points), default=1.0)
    return list(entity.flattening(max(_SAGITTA * size, 1e-9)))


def _bulged(points: list[tuple[float, float, float]], closed: bool) -> list[Vec3]:
    """Return a polyline's points with its arcs as chords.

    A segment's bulge is the tangent of a quarter of the angle it sweeps, positive to the left
    [DXF Reference, LWPOLYLINE, group code 42].
    """
    ring = [*points, points[0]] if closed and points else points
    run = [Vec3(*ring[0][:2])] if ring else []
    for (x0, y0, bulge), (x1, y1, _) in pairwise(ring):
        chord = math.hypot(x1 - x0, y1 - y0)
        if bulge and chord:
            angle = 4 * math.atan(bulge)
            away = (1 - bulge**2) / (4 * bulge)  # from the chord to the centre, in chords
            centre_x = (x0 + x1) / 2 - away * (y1 - y0)
            centre_y = (y0 + y1) / 2 + away * (x1 - x0)
            radius = math.hypot(x0 - centre_x, y0 - centre_y)
            first = math.atan2(y0 - centre_y, x0 - centre_x)
            count = max(2, math.ceil(abs(angle) / _STEP))
            run += [
                Vec3(centre_x + radius * math.cos(at), centre_y + radius * math.sin(at))
                for at in (first + angle * step / count for step in range(1, count))
            ]
        run.append(Vec3(x1, y1))
    return run


def _flat(points: Iterable[Vec3]) -> list[Point]:
    return [(point.x, -point.y) for point in points]


def _stroke(points: list[Point], *, closed: bool = False, curved: bool = False) -> Iterator[Stroke]:
    run = [point for at, point in enumerate(points) if at == 0 or point != points[at - 1]]
    if len(run) > 1 and all(math.isfinite(part) for point in run for part in point):
        line = LineString(run)
        meets = math.dist(run[0], run[-1]) <= _MEETING * line.length
        yield Stroke(line=line, closed=len(run) > 3 and (closed or meets), curved=curved)
