"""Necks: narrow places of a room where a wall seems to be broken through.

A cut is a straight stretch across a room from wall to wall. It lies in a neck when one end at least
is the end of a wall, when the room is much wider right beside it on one side, when both parts reach
much farther along it than it is long, and when neither is small for its length. A corridor that
turns, or a leg of an L, has none.
"""

import math
from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import LineString, Polygon
from shapely.ops import split

from estimator.measures import Share
from estimator.plan.opening import Point as Corner

# A neck is narrower than this share of what lies beside it.
NARROW: Share = 0.6
# Of the whole room, what a part must have at least.
_LEAST_PART: Share = 0.04
# Outlines are smoothed by this share of their size before corners are looked for.
_SMOOTH: Share = 0.004
_SHARPEST = 0.26  # radians: a corner that turns less is none
# How far beside a cut its surroundings are looked at, in its own lengths.
_BESIDE = (0.2, 0.5, 0.9)
_MOST_TRIED = 60
# Of necks hardly longer than the shortest, that is taken which leaves the fullest parts.
_AS_SHORT = 1.25


@frozen(kw_only=True)
class Cut:
    """A straight cut through an outline, and the two parts it makes."""

    start: Corner
    end: Corner
    parts: tuple[Polygon, Polygon]

    @property
    def length(self) -> float:
        """From wall to wall."""
        return math.dist(self.start, self.end)


def neck(outline: Polygon, places: Sequence[Corner]) -> Cut | None:
    """Return the narrowest neck of a room that has some of the places on either side, if any.

    Examples
    --------
    >>> from shapely.geometry import box
    >>> rooms = box(0, 0, 40, 30) | box(44, 0, 90, 30)
    >>> found = neck(rooms | box(40, 10, 44, 20), [(20, 15), (70, 15)])
    >>> found.length, neck(rooms | box(40, 0, 44, 30), [(20, 15), (70, 15)])
    (10.0, None)
    """
    smooth = shapely.simplify(outline, _SMOOTH * math.sqrt(outline.area))
    found: list[Cut] = []
    tried = 0
    for start, end in _across(smooth):
        if tried > _MOST_TRIED or (found and math.dist(start, end) > _AS_SHORT * found[0].length):
            break
        cut = cut_along(outline, start, end)
        if cut is not None and _parts_some(cut, places):
            tried += 1
            if _is_neck(cut, outline):
                found.append(cut)
    return max(found, key=_fullness, default=None)


def cut_along(outline: Polygon, start: Corner, end: Corner) -> Cut | None:
    """Return the cut between two points of an outline; None when it does not part it in two."""
    length = math.dist(start, end)
    if length == 0:
        return None
    over = max(1.5, 0.02 * length) / length
    (x, y), (x_, y_) = start, end
    line = LineString(
        [
            (x - over * (x_ - x), y - over * (y_ - y)),
            (x_ + over * (x_ - x), y_ + over * (y_ - y)),
        ]
    )
    parts = [part for part in split(outline, line).geoms if isinstance(part, Polygon)]
    parts.sort(key=lambda part: -part.area)
    slivers = sum(part.area for part in parts[2:])
    if len(parts) < 2 or slivers > 0.2 * parts[1].area:
        return None
    return Cut(start=start, end=end, parts=(parts[0], parts[1]))


def _parts_some(cut: Cut, places: Sequence[Corner]) -> bool:
    """Tell whether places lie in, or next to, both parts."""
    one, other = cut.parts
    points = shapely.points(places)
    nearer = shapely.distance(one, points) <= shapely.distance(other, points)
    return bool(nearer.any() and not nearer.all())


def _fullness(cut: Cut) -> float:
    """Return how much of the rectangles around them two parts fill together."""
    return float(sum(part.area / part.minimum_rotated_rectangle.area for part in cut.parts))


def _is_neck(cut: Cut, outline: Polygon) -> bool:
    wide = cut.length / NARROW
    for part in cut.parts:
        if part.area < max(_LEAST_PART * outline.area, wide**2):
            return False
        if _reach_along(part, cut) < wide:
            return False
    return any(_opens_beside(part, cut, wide) for part in cut.parts)


def _direction(cut: Cut) -> NDArray[np.float64]:
    return np.asarray(np.subtract(cut.end, cut.start) / cut.length)


def _reach_along(part: Polygon, cut: Cut) -> float:
    """Return how far a part reaches in the direction of a cut."""
    along = shapely.get_coordinates(part) @ _direction(cut)
    return float(along.max() - along.min())


def _opens_beside(part: Polygon, cut: Cut, wide: float) -> bool:
    """Tell whether a part is at least so wide right beside a cut."""
    along = _direction(cut)
    middle = (np.array(cut.start) + np.array(cut.end)) / 2
    away = np.array([-along[1], along[0]])
    if (np.array(part.centroid.coords[0]) - middle) @ away < 0:
        away = -away
    far = math.hypot(*np.ptp(shapely.get_coordinates(part), axis=0))
    for share in _BESIDE:
        place = middle + share * cut.length * away
        line = LineString([place - far * along, place + far * along])
        widths = shapely.length(shapely.get_parts(part.intersection(line)))
        if widths.size and widths.max() >= wide:
            return True
    return False


def _across(outline: Polygon) -> list[tuple[Corner, Corner]]:
    """Return stretches inside an outline from the end of a wall to another wall, shortest first."""
    inside = shapely.buffer(outline, 0.01 * math.sqrt(outline.area))
    shapely.prepare(inside)
    ends, walls = _wall_ends(outline)
    if not len(ends):
        return []
    points = np.asarray(shapely.points(ends))
    feet = shapely.shortest_line(points[:, None], np.array(walls)[None, :]).ravel()
    first, second = np.triu_indices(len(ends), k=1)
    between = shapely.linestrings(np.stack([ends[first], ends[second]], axis=1))
    lines = np.concatenate([feet, between])
    longest = NARROW * math.hypot(*np.ptp(shapely.get_coordinates(outline), axis=0))
    lengths = shapely.length(lines)
    lines = lines[(lengths > 1.0) & (lengths <= longest)]
    lines = lines[shapely.covers(inside, lines)]
    found = shapely.get_coordinates(lines[np.argsort(shapely.length(lines))]).reshape(-1, 2, 2)
    return [((start[0], start[1]), (end[0], end[1])) for start, end in found.tolist()]


def _wall_ends(outline: Polygon) -> tuple[NDArray[np.float64], list[LineString]]:
    """Return the corners where walls end in a room, shape (N, 2), and all walls around it."""
    turned = shapely.orient_polygons(outline)
    ends: list[NDArray[np.float64]] = []
    walls: list[LineString] = []
    for ring in (turned.exterior, *turned.interiors):
        places = np.array(ring.coords)[:-1]
        into = places - np.roll(places, 1, axis=0)
        out_of = np.roll(places, -1, axis=0) - places
        turn = np.arctan2(
            into[:, 0] * out_of[:, 1] - into[:, 1] * out_of[:, 0], (into * out_of).sum(axis=1)
        )
        ends.append(places[turn < -_SHARPEST])
        walls += [LineString(pair) for pair in pairwise(ring.coords)]
    return np.concatenate(ends), walls
