"""Lines that end in the open, and the lines that close what they leave open."""

import math
from collections import Counter
from collections.abc import Sequence

import shapely
from attrs import frozen
from shapely import STRtree
from shapely.geometry import LineString
from shapely.geometry import Point as Place
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.gaps import (
    NARROWEST_GAP,
    WIDEST_GAP,
    Evidence,
    Gap,
    band,
    is_gap,
)
from estimator.plan.opening import Point

# In metres.
_SLIP = 0.03  # two ends so near were meant to meet
_ASIDE = 0.06  # a wall goes on that far off its line, at most
_THICKEST = 0.6  # between the two faces of one gap
_LEAF = 0.01  # a leaf ends where its swing does
_FACING = -0.9  # cosine between two ends that face each other
_ALIKE = 0.15  # two faces of one gap differ by less in width and direction


@frozen(kw_only=True, eq=False)
class _End:
    """An end in the open, with the direction the line would go on."""

    at: Point
    ahead: Point
    edge: int


def bridges(
    edges: Sequence[LineString], solids: BaseGeometry, evidence: Evidence
) -> tuple[list[LineString], list[Gap]]:
    """Return the lines that close gaps between the ends of lines, and those gaps."""
    ends = [
        end for end in _open_ends(edges, solids) if not evidence.has_swing_at(Place(end.at), _LEAF)
    ]
    tree = STRtree([*edges, solids.boundary])
    found = [
        reach
        for end in ends
        if (reach := _slip(end, ends, tree) or _across(end, ends, tree, evidence))
    ]
    closing: dict[tuple[Point, Point], None] = {}
    met: set[Point] = set()
    for start, goal in sorted(found, key=lambda reach: math.dist(*reach)):
        if start not in met:
            closing[start, goal] = None
            met |= {start, goal}
    wide = [reach for reach in closing if math.dist(*reach) >= NARROWEST_GAP]
    return [LineString(reach) for reach in closing], _paired(wide, evidence)


def _open_ends(edges: Sequence[LineString], solids: BaseGeometry) -> list[_End]:
    def key(point: Sequence[float]) -> tuple[int, int]:
        return round(point[0] * 2000), round(point[1] * 2000)

    degree = Counter(key(edge.coords[at]) for edge in edges for at in (0, -1))
    ends = []
    for number, edge in enumerate(edges):
        points = list(edge.coords)
        for (x, y), (from_x, from_y) in (
            (points[0][:2], points[1][:2]),
            (points[-1][:2], points[-2][:2]),
        ):
            if degree[key((x, y))] > 1 or solids.intersects(Place(x, y).buffer(_SLIP / 3)):
                continue
            run = math.dist((x, y), (from_x, from_y))
            ends.append(
                _End(at=(x, y), ahead=((x - from_x) / run, (y - from_y) / run), edge=number)
            )
    return ends


def _slip(end: _End, ends: Sequence[_End], tree: STRtree) -> tuple[Point, Point] | None:
    """Return the line to what an end was meant to meet."""
    near = [
        other for other in ends if other is not end and 0 < math.dist(other.at, end.at) <= _SLIP
    ]
    if near:
        return end.at, min(near, key=lambda other: math.dist(other.at, end.at)).at
    place = Place(end.at)
    for at in tree.query(place, predicate="dwithin", distance=_SLIP).tolist():
        if at != end.edge:
            line = tree.geometries[at]
            goal = line.interpolate(line.project(place)) if isinstance(line, LineString) else None
            if goal and goal.distance(place) > 0:
                return end.at, (goal.x, goal.y)
    return None


def _across(
    end: _End, ends: Sequence[_End], tree: STRtree, evidence: Evidence
) -> tuple[Point, Point] | None:
    """Return the line from an end to where its wall goes on, or to the wall it looks at."""
    (x, y), (ahead_x, ahead_y) = end.at, end.ahead
    start = _SLIP
    reach = WIDEST_GAP
    ray = LineString(
        [(x + ahead_x * start, y + ahead_y * start), (x + ahead_x * reach, y + ahead_y * reach)]
    )
    nearest, goal, is_faced = math.inf, None, False
    for at in tree.query(ray, predicate="intersects").tolist():
        meeting = shapely.get_coordinates(tree.geometries[at].intersection(ray)).tolist()
        for point in meeting:
            if (away := math.dist(point, end.at)) < nearest:
                nearest, goal = away, (point[0], point[1])
    for other in ends:
        along = (other.at[0] - x) * ahead_x + (other.at[1] - y) * ahead_y
        aside = abs((other.at[0] - x) * ahead_y - (other.at[1] - y) * ahead_x)
        facing = other.ahead[0] * ahead_x + other.ahead[1] * ahead_y
        is_ahead = start < along <= min(reach, nearest + start) and aside <= _ASIDE
        if is_ahead and facing <= _FACING:
            nearest, goal, is_faced = along - start, other.at, True
    if goal is None:
        return None
    width = math.dist(goal, end.at)
    kind = evidence.kind_in(end.at, goal, band(end.at, goal))
    return (end.at, goal) if is_gap(width, kind, in_line=is_faced) else None


def _paired(reaches: list[tuple[Point, Point]], evidence: Evidence) -> list[Gap]:
    """Return gaps, the two faces of a wall as one."""
    gaps, left = [], list(reaches)
    while left:
        one = left.pop(0)
        line = LineString(one)
        twin = next((other for other in left if _is_twin(line, LineString(other))), None)
        body: BaseGeometry = band(*one)
        if twin:
            left.remove(twin)
            body = shapely.union_all([line, LineString(twin)]).convex_hull
        kind = evidence.kind_in(*one, body)
        gaps.append(Gap(kind=kind, sides=(one, twin) if twin else (one,)))
    return gaps


def _is_twin(one: LineString, other: LineString) -> bool:
    apart = one.hausdorff_distance(other)
    widths = sorted((one.length, other.length))
    return apart <= _THICKEST and widths[0] >= (1 - _ALIKE) * widths[1]
