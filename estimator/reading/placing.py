"""Where things are in a plan: rooms in reading order, openings on their walls."""

import math
from collections.abc import Mapping
from itertools import pairwise
from typing import TypeVar

from shapely.geometry import LineString, Point, Polygon

from estimator.reading.arrays import Places

Key = TypeVar("Key")


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
