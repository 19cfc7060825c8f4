"""Gaps in walls, and what is drawn in them."""

import math
from collections.abc import Sequence

import numpy as np
import shapely
from attrs import field, frozen
from shapely import STRtree
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.leaves import has_leaf
from estimator.plan.opening import OpeningKind, Point

# Clear widths in metres, common practice.
NARROWEST_GAP = 0.4  # less is a slip of the pen
WIDEST_PLAIN_GAP = 1.3  # nothing drawn in it
WIDEST_FACED_GAP = 3.6  # the same, the wall going on in line behind it
WIDEST_DRAWN_GAP = 4.0  # a door or a window drawn in it
WIDEST_GAP = 9.0  # both

_NEAR = 0.15  # metres between a jamb and the swing drawn from it
_QUARTER = (0.85, 0.95)  # chord of a swing to its length; a quarter circle has 0.90
_LEAF = (0.4, 1.2)  # of a leaf to the width of the gap
_BAND = 0.25  # of a wall about one of its faces
_FILLED = 0.6  # of a gap by the door or window in it
_OFF_FACES = 0.015  # metres from a pane to the faces of its wall; nearer it is a threshold
_PANE = 0.7  # of the width of the gap, at least
_ALONG = math.cos(math.radians(8))


@frozen(kw_only=True, eq=False)
class Gap:
    """A gap with its one or two lines along the faces of the wall; ``kind`` None: nothing drawn."""

    kind: OpeningKind | None
    sides: tuple[tuple[Point, Point], ...]

    @property
    def width(self) -> float:
        """From jamb to jamb, in units of the drawing."""
        return math.dist(*self.sides[0])


@frozen(kw_only=True, eq=False)
class Evidence:
    """What is drawn besides walls.

    Parameters
    ----------
    curves
        Some of them the swings of doors.
    strokes
        Straight ones, some of them panes of windows.
    objects
        Doors and windows known to be such, with all they cover.
    """

    curves: tuple[LineString, ...] = ()
    strokes: tuple[LineString, ...] = ()
    objects: tuple[tuple[OpeningKind, Polygon], ...] = ()
    _curve_tree: STRtree = field(init=False)
    _stroke_tree: STRtree = field(init=False)

    @_curve_tree.default
    def _curves_in_tree(self) -> STRtree:
        return STRtree(list(self.curves))

    @_stroke_tree.default
    def _strokes_in_tree(self) -> STRtree:
        return STRtree(list(self.strokes))

    def has_swing_at(self, place: BaseGeometry, near: float) -> bool:
        """Tell whether a curve begins or passes near a place."""
        return bool(self._curve_tree.query(place, predicate="dwithin", distance=near).size)

    def has_stroke(self, start: Point, end: Point, near: float) -> bool:
        """Tell whether a straight stroke leads from one place to another, nearly."""
        places = shapely.Point(start), shapely.Point(end)
        found = self._stroke_tree.query(places[0], predicate="dwithin", distance=near).tolist()
        length = math.dist(start, end) + 2 * near
        return any(
            self.strokes[at].length <= length and self.strokes[at].dwithin(places[1], near)
            for at in found
        )

    def kind_in(self, start: Point, end: Point, body: BaseGeometry) -> OpeningKind | None:
        """Return what is drawn in a gap: between two jambs, over a body that would fill it.

        A passage has lines along the faces of its wall alone; outdoors that is a window.
        """
        width, near = math.dist(start, end), _NEAR
        line = LineString([start, end])
        for kind, extent in self.objects:
            if extent.dwithin(line, near) and covers(extent, line, near):
                return kind
        around = body.buffer(near)
        for at in self._curve_tree.query(around, predicate="intersects").tolist():
            if _is_swing(self.curves[at], width, around):
                return OpeningKind.DOOR
        reach = self._stroke_tree.query(line, predicate="dwithin", distance=width)
        thickness = body.area / width
        if thickness > 1.9 * _BAND:  # a wall drawn as a single line
            thickness = 0.0
        if has_leaf([self.strokes[at] for at in reach.tolist()], start, end, thickness):
            return OpeningKind.DOOR
        strokes = self._along(start, end, body.buffer(near / 3))
        within = body.buffer(-_OFF_FACES)
        if _covered([stroke.intersection(within) for stroke in strokes], start, end) >= _PANE:
            return OpeningKind.WINDOW
        return OpeningKind.PASSAGE if strokes else None

    def _along(self, start: Point, end: Point, around: BaseGeometry) -> list[LineString]:
        """Return the strokes along a gap that together lead from jamb to jamb, or none."""
        along = _direction(start, end)
        found = []
        for at in self._stroke_tree.query(around, predicate="intersects").tolist():
            stroke = self.strokes[at]
            ends = stroke.coords[0], stroke.coords[-1]
            if ends[0] != ends[1] and abs(float(_direction(*ends) @ along)) >= _ALONG:
                found.append(stroke)
        drawn = _covered([stroke.intersection(around) for stroke in found], start, end)
        return found if drawn >= _PANE else []


def _covered(pieces: Sequence[BaseGeometry], start: Point, end: Point) -> float:
    """Return the share of a gap that pieces along it cover: panes and sliding leaves."""
    along, width = _direction(start, end), math.dist(start, end)
    spans = []
    for piece in pieces:
        if not piece.is_empty:
            places = (shapely.get_coordinates(piece) - np.array(start)) @ along
            low, high = np.clip([places.min(), places.max()], 0.0, width)
            spans.append(LineString([(low, 0.0), (high, 0.0)]))
    return float(shapely.union_all(spans).length) / width


def _is_swing(curve: LineString, width: float, around: BaseGeometry) -> bool:
    """Tell whether a curve is drawn by the tip of a leaf that shuts a gap, or half of it."""
    ends = shapely.MultiPoint([curve.coords[0], curve.coords[-1]])
    chord = math.dist(curve.coords[0], curve.coords[-1])
    is_quarter = _QUARTER[0] <= chord / curve.length <= _QUARTER[1]
    is_of_width = _LEAF[0] * width <= chord / math.sqrt(2) <= _LEAF[1] * width
    return is_quarter and is_of_width and bool(ends.intersects(around))


def is_gap(width: float, kind: OpeningKind | None, *, in_line: bool) -> bool:
    """Tell whether walls end for a gap: by what is drawn in it, and whether they go on in line."""
    if in_line:
        return width <= (WIDEST_FACED_GAP if kind is None else WIDEST_GAP)
    return width <= (WIDEST_PLAIN_GAP if kind is None else WIDEST_DRAWN_GAP)


def covers(extent: Polygon, line: LineString, near: float) -> bool:
    """Tell whether what covers an extent stands in most of a gap's line."""
    return bool(extent.buffer(near).intersection(line).length >= _FILLED * line.length)


def band(start: Point, end: Point) -> Polygon:
    """Return a wall's usual body along a line."""
    return LineString([start, end]).buffer(_BAND, cap_style="flat")


def _direction(start: Point, end: Point) -> "np.ndarray[tuple[int], np.dtype[np.float64]]":
    return np.subtract(end, start) / math.dist(start, end)
