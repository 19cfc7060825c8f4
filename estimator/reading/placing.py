"""Where things are in a plan: rooms in reading order, openings on their walls."""

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import TypeVar

from shapely.geometry import LineString, Point, Polygon

from estimator.reading.arrays import Places

Key = TypeVar("Key")

# A wall runs along an opening when the cosine of the angle between them is at least this.
_ALONG = 0.95
# Steps in a wall behind an opening are at most this share of its width.
_STEP = 0.12


def reading_order(outlines: Mapping[Key, Polygon]) -> list[Key]:
    """Return the keys of outlines line by line from the top, each line from the left."""
    middles = {key: outline.centroid for key, outline in outlines.items()}
    waiting = sorted(outlines, key=lambda key: (middles[key].y, middles[key].x))
    order: list[Key] = []
    while waiting:
        _, top, _, bottom = outlines[waiting[0]].bounds
        below = middles[waiting[0]].y + 0.3 * (bottom - top)
        line = [key for key in waiting if middles[key].y <= below]
        order += sorted(line, key=lambda key: middles[key].x)
        waiting = waiting[len(line) :]
    return order


def on_wall(
    outline: Polygon, ends: tuple[Places, Places]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Bring both ends onto the wall they lie along; None when that leaves no width.

    A wall may be read with steps in it: each end comes onto the nearest edge along the opening, if
    the outline between the two keeps near the line from one to the other.
    """
    walls = [
        LineString(pair)
        for ring in (outline.exterior, *outline.interiors)
        for pair in pairwise(ring.coords)
        if pair[0] != pair[1]
    ]
    points = Point(ends[0]), Point(ends[1])
    width = math.dist(*ends)
    along = [wall for wall in walls if _is_along(wall, ends)]
    if along and width > 0:
        start, end = (_onto(min(along, key=point.distance), point) for point in points)
        line = LineString([start, end])
        steps = [line.interpolate(share, normalized=True) for share in (0.25, 0.5, 0.75)]
        near = max(_STEP * width, outline.boundary.distance(points[0]))
        if (
            line.length >= 0.8 * width
            and _is_along(line, ends)
            and all(min(wall.distance(step) for wall in along) <= near for step in steps)
        ):
            return (start.x, start.y), (end.x, end.y)
    wall = min(walls, key=lambda wall: sum(wall.distance(point) for point in points))
    start, end = (_onto(wall, point) for point in points)
    if start.distance(end) < 0.5 * width:
        return None
    return (start.x, start.y), (end.x, end.y)


def _onto(wall: LineString, point: Point) -> Point:
    return wall.interpolate(wall.project(point))


def _is_along(wall: LineString, ends: tuple[Places, Places]) -> bool:
    """Tell whether a wall runs in nearly the direction from one end to the other."""
    (ax, ay), (bx, by) = wall.coords
    dx, dy = ends[1] - ends[0]
    along = abs((bx - ax) * dx + (by - ay) * dy)
    return bool(along >= _ALONG * wall.length * math.hypot(dx, dy))
