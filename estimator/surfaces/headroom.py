"""The height of the ceiling over a room, level, sloped or gabled, and the walls under it.

Areas are exact: the height is linear along every stretch of wall between corners and ridge, so its
mean below any level has a closed form, and the volume is an integral around the outline (Green).
"""

import math
from typing import Protocol

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.measures import CubicMetres, Metres, SquareMetres
from estimator.plan.opening import Point
from estimator.plan.room import Ceiling, Profile

Floats = NDArray[np.float64]


class Headroom(Protocol):
    """What there is between the floor and the ceiling of a room."""

    @property
    def volume(self) -> CubicMetres:
        """Air in the empty room."""

    @property
    def ceiling_area(self) -> SquareMetres:
        """True area of the ceiling, along its slope."""

    def walls(self, level: Metres) -> SquareMetres:
        """Return the area of all walls below a level, openings included."""

    def stretch(self, start: Point, end: Point, level: Metres) -> SquareMetres:
        """Return the area of a stretch of wall below a level."""


@frozen
class Level:
    """Headroom under a level ceiling."""

    floor: SquareMetres
    perimeter: Metres
    height: Metres

    @property
    def volume(self) -> CubicMetres:
        """Floor area × height."""
        return self.floor * self.height

    @property
    def ceiling_area(self) -> SquareMetres:
        """The floor area."""
        return self.floor

    def walls(self, level: Metres) -> SquareMetres:
        """Return the perimeter × the height, at most the level."""
        return self.perimeter * min(self.height, level)

    def stretch(self, start: Point, end: Point, level: Metres) -> SquareMetres:
        """Return the width × the height, at most the level."""
        return math.dist(start, end) * min(self.height, level)


class Pitched:
    """Headroom under a sloped or gabled ceiling.

    The height depends only on u, the distance along the direction of the rise. It grows evenly
    from the least height at the lowest side to the top at the other side (sloped), or at the
    ridge over the middle (gable), whence it falls evenly again.
    """

    def __init__(self, outline: Polygon, least: Metres, ceiling: Ceiling) -> None:
        angle = math.radians(ceiling.towards)
        self._along = np.array([math.cos(angle), math.sin(angle)])
        self._across = np.array([-math.sin(angle), math.cos(angle)])
        outline = shapely.normalize(outline)  # holes run against the outer ring
        rings = [shapely.get_coordinates(ring) for ring in (outline.exterior, *outline.interiors)]
        u = rings[0] @ self._along
        low, high = float(u.min()), float(u.max())
        gabled = ceiling.profile is Profile.GABLE
        self._ridge = (low + high) / 2 if gabled else high
        self._top = ceiling.top
        self._slope = (ceiling.top - least) / (self._ridge - low)
        self._floor = outline.area
        self._rings = rings
        self._pieces = self._cut(
            np.concatenate([ring[:-1] for ring in rings]),
            np.concatenate([ring[1:] for ring in rings]),
        )

    @property
    def ceiling_area(self) -> SquareMetres:
        """Floor area × √(1 + slope²)."""
        return self._floor * math.hypot(1.0, self._slope)

    @property
    def volume(self) -> CubicMetres:
        """Integral of the height over the floor, as ∮ (∫ h du) dv around the outline.

        Within a piece of wall the integrand is a quadratic of the way along it, for which
        Simpson's rule is exact.
        """
        starts, ends = self._pieces
        at_start, at_end = starts @ self._along, ends @ self._along
        weighted = (
            self._filled(at_start)
            + 4 * self._filled((at_start + at_end) / 2)
            + self._filled(at_end)
        ) / 6
        return abs(float(weighted @ ((ends - starts) @ self._across)))

    def walls(self, level: Metres) -> SquareMetres:
        """Return the area of all walls below a level, openings included."""
        return self._below(*self._pieces, level)

    def stretch(self, start: Point, end: Point, level: Metres) -> SquareMetres:
        """Return the area of a stretch of wall below a level."""
        return self._below(*self._cut(np.array([start]), np.array([end])), level)

    def _height(self, u: Floats) -> Floats:
        return self._top - self._slope * np.abs(u - self._ridge)

    def _filled(self, u: Floats) -> Floats:
        """Integral of the height from the ridge to u."""
        way = u - self._ridge
        return way * (self._top - self._slope * np.abs(way) / 2)

    def _cut(self, starts: Floats, ends: Floats) -> tuple[Floats, Floats]:
        """Return the lines with those that cross the ridge cut there in two."""
        at_start, at_end = starts @ self._along - self._ridge, ends @ self._along - self._ridge
        crossing = at_start * at_end < 0
        part = at_start[crossing] / (at_start[crossing] - at_end[crossing])
        tops = starts[crossing] + part[:, None] * (ends[crossing] - starts[crossing])
        first_ends = ends.copy()
        first_ends[crossing] = tops
        return np.concatenate([starts, tops]), np.concatenate([first_ends, ends[crossing]])

    def _below(self, starts: Floats, ends: Floats, level: Metres) -> SquareMetres:
        lengths = np.hypot(*(ends - starts).T)
        a, b = self._height(starts @ self._along), self._height(ends @ self._along)
        return float(lengths @ _mean_below(a, b, level))


def _mean_below(a: Floats, b: Floats, level: Metres) -> Floats:
    """Return the mean of min(h, level) where h runs evenly from a to b.

    Where the level lies between the two, the part above it is a triangle.
    """
    low, high = np.minimum(a, b), np.maximum(a, b)
    over = np.clip(high - level, 0.0, None)
    rise = np.where(high > low, high - low, 1.0)
    within = (low + high) / 2 - over * over / (2 * rise)
    return np.where(low >= level, level, within)


def headroom(outline: Polygon, least: Metres, ceiling: Ceiling | None) -> Headroom:
    """Return the headroom over an outline from its least height and the shape of its ceiling."""
    if ceiling is None or ceiling.profile is Profile.FLAT or ceiling.top <= least:
        return Level(outline.area, outline.length, least)
    return Pitched(outline, least, ceiling)
