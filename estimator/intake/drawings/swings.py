"""Doors by the swings drawn from their hinges, and windows by the panes drawn in walls."""

import math
from collections.abc import Iterator, Sequence

import shapely
from attrs import frozen
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.fittings import Fitting
from estimator.intake.drawings.gaps import Evidence, Gap
from estimator.plan.opening import OpeningKind, Point

_QUARTER = (0.88, 0.92)  # chord of a quarter circle to its length: 0.900

# In metres.
_RADIUS = (0.45, 1.35)  # of a leaf, common practice
_DRAWN_LEAF = 0.08  # from a hinge or tip to the line of the leaf
_PEN = 0.02  # of the line of a leaf
_AT_WALL = 0.15  # from a hinge or a closed leaf's tip to the wall
_MEETING = 0.12  # between the tips of two leaves of one door
_PIECE = 0.05  # thickness of the piece of wall put where a door stands in no wall
_REACH = 0.2  # that far beyond its jambs
_PANE = (0.4, 4.0)
_IN_WALL = 0.015  # a pane is off the faces of its wall by more
_ONE_WINDOW = 0.4  # panes nearer than that are of one window
_STRAIGHT = 0.02  # how far two leaves of one door are off one line, to its width


@frozen(kw_only=True, eq=False)
class _Leaf:
    """A leaf with its hinge.

    Parameters
    ----------
    tips
        Where its tip is when it is shut; two places when nobody can tell shut from open.
    swept
        What it sweeps.
    """

    hinge: Point
    tips: tuple[Point, ...]
    swept: Polygon


@frozen(kw_only=True, eq=False)
class Door:
    """A shut door from jamb to jamb, with all that its swing covers."""

    start: Point
    end: Point
    swept: BaseGeometry

    @property
    def line(self) -> LineString:
        """From jamb to jamb."""
        return LineString([self.start, self.end])

    @property
    def fitting(self) -> Fitting:
        """The door as an object to put into walls."""
        middle = (self.start[0] + self.end[0]) / 2, (self.start[1] + self.end[1]) / 2
        extent = self.line.buffer(_PIECE, cap_style="flat")
        return Fitting(kind=OpeningKind.DOOR, at=middle, extent=extent)

    def piece(self) -> tuple[Polygon, Gap]:
        """Return a piece of wall that shuts it, and the gap of its two faces."""
        (x0, y0), (x1, y1) = self.start, self.end
        width = math.dist(self.start, self.end)
        along = (x1 - x0) / width, (y1 - y0) / width
        aside = along[1] * _PIECE / 2, -along[0] * _PIECE / 2
        longer = LineString(
            [
                (x0 - along[0] * _REACH, y0 - along[1] * _REACH),
                (x1 + along[0] * _REACH, y1 + along[1] * _REACH),
            ]
        )
        sides = tuple(
            (
                (x0 + turn * aside[0], y0 + turn * aside[1]),
                (x1 + turn * aside[0], y1 + turn * aside[1]),
            )
            for turn in (1, -1)
        )
        piece = longer.buffer(_PIECE / 2, cap_style="flat")
        return piece, Gap(kind=OpeningKind.DOOR, sides=sides)


def doors_by_swing(evidence: Evidence, walls: BaseGeometry, gaps: Sequence[Gap]) -> list[Door]:
    """Return doors whose swings are drawn by a wall, and that stand in none of the gaps."""
    shapely.prepare(walls)
    known = shapely.union_all([LineString(side) for gap in gaps for side in gap.sides])
    leaves = [
        leaf
        for curve in evidence.curves
        if (leaf := _leaf(curve, evidence)) and _is_at(walls, leaf.hinge, leaf)
    ]
    beside = walls.buffer(_AT_WALL) if leaves else walls
    shapely.prepare(beside)

    def is_known(start: Point, end: Point) -> bool:
        line = LineString([start, end])
        return bool(known.intersection(line.buffer(_AT_WALL)).length >= line.length / 2)

    leaves = [leaf for leaf in leaves if not any(is_known(leaf.hinge, tip) for tip in leaf.tips)]
    doors = [*_double(leaves), *(door for leaf in leaves if (door := _single(leaf, walls, beside)))]
    kept: list[Door] = []
    for door in doors:
        near = door.line.buffer(_AT_WALL)
        is_seen = is_known(door.start, door.end) or any(
            other.swept.intersects(near) for other in kept
        )
        if not is_seen:
            kept.append(door)
    return kept


def panes(strokes: Sequence[LineString], masonry: BaseGeometry) -> list[Fitting]:
    """Return windows drawn as lines along the inside of walls."""
    inside = masonry.buffer(-_IN_WALL)
    shapely.prepare(inside)
    drawn = [
        stroke
        for stroke in strokes
        if _PANE[0] <= stroke.length <= _PANE[1] and shapely.contains(inside, stroke)
    ]
    found = []
    for group in shapely.get_parts(
        shapely.union_all([pane.buffer(_ONE_WINDOW / 2, cap_style="flat") for pane in drawn])
    ).tolist():
        extent = group.minimum_rotated_rectangle
        if isinstance(extent, Polygon):
            middle = group.centroid.x, group.centroid.y
            found.append(Fitting(kind=OpeningKind.WINDOW, at=middle, extent=extent))
    return found


def _leaf(curve: LineString, evidence: Evidence) -> _Leaf | None:
    """Return the leaf whose tip draws a curve; None when it is no quarter of a circle.

    A leaf is drawn open, as a line from the hinge to one end of the curve.
    """
    start, end = (point[:2] for point in (curve.coords[0], curve.coords[-1]))
    chord = math.dist(start, end)
    if not _QUARTER[0] <= chord / curve.length <= _QUARTER[1]:
        return None
    if not _RADIUS[0] <= chord / math.sqrt(2) <= _RADIUS[1]:
        return None
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    top = curve.interpolate(0.5, normalized=True)
    rise = math.dist(middle, (top.x, top.y))
    share = chord / 2 / rise  # of a right angle the hinge is half a chord behind its middle
    hinge = middle[0] + share * (middle[0] - top.x), middle[1] + share * (middle[1] - top.y)
    both = (start[0], start[1]), (end[0], end[1])
    shut = tuple(tip for tip in both if not evidence.has_stroke(hinge, tip, _DRAWN_LEAF))
    return _Leaf(
        hinge=hinge, tips=shut if len(shut) == 1 else both, swept=Polygon([hinge, *curve.coords])
    )


def _double(leaves: Sequence[_Leaf]) -> Iterator[Door]:
    """Yield doors of two leaves whose tips meet half way between their hinges."""
    for at, one in enumerate(leaves):
        for other in leaves[at + 1 :]:
            width = math.dist(one.hinge, other.hinge)
            meeting = min(math.dist(tip, end) for tip in one.tips for end in other.tips)
            line = LineString([one.hinge, other.hinge]) if width else None
            if line is None or meeting > _MEETING:
                continue
            if any(line.distance(Place(tip)) <= _STRAIGHT * width for tip in one.tips):
                yield Door(start=one.hinge, end=other.hinge, swept=one.swept.union(other.swept))


def _is_at(walls: BaseGeometry, place: Point, leaf: _Leaf) -> bool:
    """Tell whether a hinge or tip is at a wall, which the drawn leaf itself is not."""
    around = walls.intersection(Place(place).buffer(_AT_WALL))
    return not around.difference(leaf.swept.buffer(_PEN)).is_empty


def _single(leaf: _Leaf, walls: BaseGeometry, beside: BaseGeometry) -> Door | None:
    """Return the door of one leaf: shut where its tip is by a wall, rather along the wall."""
    shut = [tip for tip in leaf.tips if _is_at(walls, tip, leaf)]
    if not shut:
        return None

    def along_wall(tip: Point) -> float:
        return float(LineString([leaf.hinge, tip]).intersection(beside).length)

    return Door(start=leaf.hinge, end=max(shut, key=along_wall), swept=leaf.swept)
