"""Where things are in a plan: rooms in reading order, openings on their walls."""

import math
from collections.abc import Mapping
from itertools import pairwise

from shapely.geometry import LineString, Point, Polygon

from estimator.reading.arrays import Places


def reading_order(outlines: Mapping[int, Polygon]) -> list[int]:
    """Return the rooms line by line from the top, each line from the left."""
    waiting = sorted(outlines, key=lambda number: outlines[number].centroid.y)
    order: list[int] = []
    while waiting:
        top = outlines[waiting[0]]
        below = top.centroid.y + 0.3 * (top.bounds[3] - top.bounds[1])
        line = [number for number in waiting if outlines[number].centroid.y <= below]
        order += sorted(line, key=lambda number: outlines[number].centroid.x)
        waiting = [number for number in waiting if number not in line]
    return order


def on_wall(
    outline: Polygon, ends: tuple[Places, Places]
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    """Bring both ends onto the wall nearest to them; None when that leaves no width."""
    points = Point(ends[0]), Point(ends[1])
    walls = [
        LineString(pair)
        for ring in (outline.exterior, *outline.interiors)
        for pair in pairwise(ring.coords)
    ]
    wall = min(walls, key=lambda wall: sum(wall.distance(point) for point in points))
    start, end = (wall.interpolate(wall.project(point)) for point in points)
    if start.distance(end) < 0.5 * math.dist(*ends):
        return None
    return (start.x, start.y), (end.x, end.y)
