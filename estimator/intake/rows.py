"""Lay rooms of known size side by side in rows, so that they look like a plan."""

import math
from collections.abc import Sequence

from shapely.geometry import Polygon

from estimator.measures import Metres
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind, Point

_BREADTHS = (1.2, 1.6, 2.0, 2.5, 3.2, 4.0)  # width of the whole to its depth, to choose from

# Usual widths, common practice.
DOOR_WIDTH: Metres = 0.9
WINDOW_WIDTH: Metres = 1.2
_SPARE = 0.1  # of a wall, left beside its openings


def in_rows(sizes: Sequence[tuple[Metres, Metres]]) -> tuple[Polygon, ...]:
    """Return a rectangle for each width and depth, in order, touching and never overlapping.

    Of a few breadths of the whole, the one that leaves the fewest gaps is taken.

    >>> [room.bounds for room in in_rows([(3, 4), (2, 4)])]
    [(0.0, 0.0, 3.0, 4.0), (3.0, 0.0, 5.0, 4.0)]
    """
    total = sum(width * depth for width, depth in sizes)
    widest = max(width for width, _ in sizes)
    layouts = [_rows(sizes, max(math.sqrt(total * breadth), widest)) for breadth in _BREADTHS]
    return min(layouts, key=_gross_area)


def _gross_area(rooms: Sequence[Polygon]) -> float:
    corners = [room.bounds[2:] for room in rooms]
    return round(max(x for x, _ in corners) * max(y for _, y in corners), 6)


def _rows(sizes: Sequence[tuple[Metres, Metres]], limit: Metres) -> tuple[Polygon, ...]:
    """Return the rooms in rows no wider than the limit."""
    rooms = []
    left = top = deepest = 0.0
    for width, depth in sizes:
        if left and left + width > limit:
            left, top, deepest = 0.0, top + deepest, 0.0
        rooms.append(rectangle(width, depth, left=left, top=top))
        left += width
        deepest = max(deepest, depth)
    return tuple(rooms)


def openings(room: Polygon, room_id: str, doors: int, windows: int) -> tuple[Opening, ...] | None:
    """Return doors and windows of usual width spread over a rectangle's walls.

    Doors begin on the wall nearest the reader, windows on the far one. None when they do not fit.
    """
    left, top, right, bottom = room.bounds
    front, back = ((left, bottom), (right, bottom)), ((left, top), (right, top))
    sides = (((left, top), (left, bottom)), ((right, top), (right, bottom)))
    walls = (front, *sides, back)
    free = [math.dist(*wall) * (1 - _SPARE) for wall in walls]
    stock: list[list[OpeningKind]] = [[] for _ in walls]
    wanted = [(OpeningKind.DOOR, DOOR_WIDTH, range(4))] * doors
    wanted += [(OpeningKind.WINDOW, WINDOW_WIDTH, range(3, -1, -1))] * windows
    for kind, width, order in wanted:
        place = next((wall for wall in order if free[wall] >= width), None)
        if place is None:
            return None
        free[place] -= width
        stock[place].append(kind)
    found: list[Opening] = []
    for wall, kinds in zip(walls, stock, strict=True):
        for kind, start, end in _spread(wall, kinds):
            found.append(
                Opening(id=f"{room_id}-{kind}-{len(found) + 1}", kind=kind, start=start, end=end)
            )
    return tuple(found)


def _spread(
    wall: tuple[Point, Point], kinds: Sequence[OpeningKind]
) -> list[tuple[OpeningKind, Point, Point]]:
    """Return the openings along a wall with equal gaps between them."""
    (x0, y0), (x1, y1) = wall
    whole = math.dist(*wall)
    widths = [DOOR_WIDTH if kind is OpeningKind.DOOR else WINDOW_WIDTH for kind in kinds]
    gap = (whole - sum(widths)) / (len(kinds) + 1)
    found, at = [], gap
    for kind, width in zip(kinds, widths, strict=True):
        ends = [
            (x0 + (x1 - x0) * along / whole, y0 + (y1 - y0) * along / whole)
            for along in (at, at + width)
        ]
        found.append((kind, ends[0], ends[1]))
        at += width + gap
    return found
