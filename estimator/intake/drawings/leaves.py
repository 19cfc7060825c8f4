"""Leaves of doors drawn without the arc of a swing: a bare leaf, or one that folds.

A leaf is a straight stroke from a jamb; a folding door is a pair of strokes of one length that meet
off the line of the gap and lead back to it.
"""

import math
from collections.abc import Iterator, Sequence

from shapely.geometry import LineString

from estimator.plan.opening import Point

_AT_JAMB = 0.05  # metres
_MEET = 0.03
_CAP = 0.08  # thickness of a leaf drawn as a rectangle, at most

_LEAF = (0.85, 1.1)  # to the width of the gap
_FOLD = (0.12, 0.62)
_ALIKE = 0.2  # two parts of a fold differ by less
_OPEN = math.sin(math.radians(12))  # how far off the gap's line a leaf stands


def has_leaf(strokes: Sequence[LineString], start: Point, end: Point, thickness: float) -> bool:
    """Tell whether some of the straight strokes near a gap are the leaf that shuts it.

    Parameters
    ----------
    thickness
        Of the wall about the line from jamb to jamb.
    """
    width, near = math.dist(start, end), _AT_JAMB + thickness / 2
    for jamb, other in ((start, end), (end, start)):
        for stroke, tip in _from(strokes, jamb, near):
            if _off(tip, start, end) < _OPEN * stroke.length:
                continue
            share = stroke.length / width
            if _LEAF[0] <= share <= _LEAF[1] and _is_free(strokes, stroke, tip):
                return True
            if _FOLD[0] <= share <= _FOLD[1] and _folds(strokes, stroke, tip, (jamb, other), near):
                return True
    return False


def _from(
    strokes: Sequence[LineString], place: Point, near: float
) -> Iterator[tuple[LineString, Point]]:
    """Yield the strokes that begin at a place, each with its other end."""
    for stroke in strokes:
        one, two = ((x, y) for x, y, *_ in (stroke.coords[0], stroke.coords[-1]))
        if math.dist(one, place) <= near:
            yield stroke, two
        elif math.dist(two, place) <= near:
            yield stroke, one


def _off(place: Point, start: Point, end: Point) -> float:
    """Return how far a place is off the line of a gap."""
    along = end[0] - start[0], end[1] - start[1]
    away = place[0] - start[0], place[1] - start[1]
    return abs(along[0] * away[1] - along[1] * away[0]) / math.hypot(*along)


def _is_free(strokes: Sequence[LineString], leaf: LineString, tip: Point) -> bool:
    """Tell whether nothing goes on from the tip of a leaf, as a wall would."""
    return all(stroke is leaf or stroke.length <= _CAP for stroke, _ in _from(strokes, tip, _MEET))


def _folds(
    strokes: Sequence[LineString],
    part: LineString,
    tip: Point,
    gap: tuple[Point, Point],
    near: float,
) -> bool:
    """Tell whether another part leads from the tip of one back to the line of the gap."""
    reach = math.dist(*gap) + near
    return any(
        stroke is not part
        and abs(stroke.length - part.length) <= _ALIKE * part.length
        and _off(back, *gap) <= near
        and max(math.dist(back, jamb) for jamb in gap) <= reach
        for stroke, back in _from(strokes, tip, _MEET)
    )
