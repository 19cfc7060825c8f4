"""Curves drawn as many short straight pieces."""

import math
from collections.abc import Iterator, Sequence

from shapely.geometry import LineString

from estimator.plan.opening import Point

_LEAST_TURN, _MOST_TURN = math.radians(0.5), math.radians(20)
_FEWEST = 5  # pieces of a curve
_UNLIKE = 2.5  # neighbouring pieces differ in length by less


def bends(points: Sequence[Point]) -> Iterator[LineString]:
    """Yield the parts of a run of points that turn a little at each point, always to one side.

    >>> arc = [(math.cos(at / 10), math.sin(at / 10)) for at in range(10)]
    >>> [len(bend.coords) for bend in bends([(1, -5), *arc])]
    [10]
    """
    start = 0
    for at in range(1, len(points)):
        if at + 1 == len(points) or not _goes_on(points, at, start):
            if at - start >= _FEWEST:
                yield LineString(points[start : at + 1])
            start = at


def _goes_on(points: Sequence[Point], at: int, start: int) -> bool:
    """Tell whether the curve that began at ``start`` goes on beyond the point at ``at``."""
    turn = _turn(points, at)
    if not _LEAST_TURN <= abs(turn) <= _MOST_TURN:
        return False
    before, after = math.dist(points[at - 1], points[at]), math.dist(points[at], points[at + 1])
    if max(before, after) > _UNLIKE * min(before, after):
        return False
    return at - start < 2 or _turn(points, at - 1) * turn > 0


def _turn(points: Sequence[Point], at: int) -> float:
    (x0, y0), (x1, y1), (x2, y2) = points[at - 1 : at + 2]
    one, two = (x1 - x0, y1 - y0), (x2 - x1, y2 - y1)
    return math.atan2(one[0] * two[1] - one[1] * two[0], one[0] * two[0] + one[1] * two[1])
