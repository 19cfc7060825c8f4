"""Floor layouts in metres: spaces that share wall centre lines, gaps in the walls, furniture.

Every space is drawn on the centre lines of the inner walls around it, so that neighbours touch.
A room's inside faces lie half an inner wall within its corners; an outer wall reaches as far in and
grows outwards. A layout's rooms therefore never overlap and its walls are what they leave over.
"""

import math
from collections.abc import Sequence
from functools import cached_property

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point

Ring = NDArray[np.float64]
"""Corners of a closed line, shape (N, 2), the first not repeated."""


_LEAST_FLOOR = 0.2  # square metres: less is no closet


@frozen(kw_only=True)
class Space:
    """A room, or a shaft that is walled but no room, by its corners on wall centre lines."""

    name: str
    use: str
    corners: tuple[Point, ...]
    height: Metres = 2.4
    is_room: bool = True


@frozen(kw_only=True)
class Gap:
    """A door, window or passage from ``start`` to ``end`` along a wall's centre line.

    Parameters
    ----------
    manner
        How it moves: leaf, double, sliding, folding, garage; empty for windows and passages.
    inward
        Unit vector across the wall into the room named ``room``.
    other
        The room on the far side; None outside.
    front, back
        Reach of the wall from the centre line into ``room`` and away from it.
    hinge_at_start, opens_inward
        Where the leaf hangs and whether it swings into ``room``.
    """

    kind: OpeningKind
    manner: str = ""
    start: Point
    end: Point
    inward: Point
    room: str
    other: str | None = None
    front: Metres
    back: Metres
    hinge_at_start: bool = True
    opens_inward: bool = True
    height: Metres = 2.04
    sill: Metres = 0.0

    @property
    def width(self) -> Metres:
        """Distance between the jambs."""
        return math.dist(self.start, self.end)

    def place(self, along: float, across: float) -> Point:
        """Return the point so far from the start and so far into the room, in metres."""
        width = self.width
        step = ((self.end[0] - self.start[0]) / width, (self.end[1] - self.start[1]) / width)
        return (
            self.start[0] + step[0] * along + self.inward[0] * across,
            self.start[1] + step[1] * along + self.inward[1] * across,
        )

    def band(self, spare: Metres = 0.0) -> Ring:
        """Return the four corners of the piece of wall it replaces, a little more across."""
        front, back = self.front + spare, -self.back - spare
        return np.array(
            [
                self.place(0, back),
                self.place(self.width, back),
                self.place(self.width, front),
                self.place(0, front),
            ]
        )

    @property
    def swings_into(self) -> str | None:
        """The room its leaf swings into; None outside."""
        return self.room if self.opens_inward else self.other

    def swing(self) -> Ring:
        """Return the corners of the square of floor that its leaf sweeps."""
        face, way = (self.front, 1) if self.opens_inward else (-self.back, -1)
        reach = self.width / 2 if self.manner == "double" else self.width
        return np.array(
            [
                self.place(along, face + way * out)
                for along, out in ((0, 0), (self.width, 0), (self.width, reach), (0, reach))
            ]
        )


@frozen(kw_only=True)
class Piece:
    """A piece of furniture: its back faces away from ``turn`` degrees plus a quarter."""

    kind: str
    room: str
    centre: Point
    width: Metres
    depth: Metres
    turn: float = 0.0

    def footprint(self) -> Ring:
        """Return its four corners in metres, the back edge first."""
        return self.at(np.array([(-0.5, -0.5), (0.5, -0.5), (0.5, 0.5), (-0.5, 0.5)]))

    def at(self, shares: Ring) -> Ring:
        """Return points given as shares of its width and depth from its centre, in metres."""
        cosine, sine = math.cos(math.radians(self.turn)), math.sin(math.radians(self.turn))
        x, y = shares[:, 0] * self.width, shares[:, 1] * self.depth
        return np.stack(
            [self.centre[0] + x * cosine - y * sine, self.centre[1] + x * sine + y * cosine], axis=1
        )


@frozen(kw_only=True)
class Layout:
    """One floor of a building.

    Parameters
    ----------
    footprint
        The ring around the spaces' corners.
    blocks
        Masonry that stands within rooms: columns, piers, stubs of wall.
    """

    title: str
    spaces: tuple[Space, ...]
    footprint: tuple[Point, ...]
    gaps: tuple[Gap, ...] = ()
    pieces: tuple[Piece, ...] = ()
    blocks: tuple[tuple[Point, ...], ...] = ()
    inner_wall: Metres = 0.1
    outer_wall: Metres = 0.3

    def inside(self, space: Space) -> Ring:
        """Return the inside faces of the walls around a space."""
        return self._insides[space.name]

    @cached_property
    def _insides(self) -> dict[str, Ring]:
        half = self.inner_wall / 2
        return {space.name: inset(np.array(space.corners), half) for space in self.spaces}

    @property
    def is_sound(self) -> bool:
        """Whether every space is wide enough for its walls to leave a floor between them."""
        for space in self.spaces:
            walls = _edges(directed(np.array(space.corners)))
            faces = _edges(self._insides[space.name])
            turned_over = np.einsum("ij,ij->i", walls, faces).min() <= 0
            if turned_over or area(self._insides[space.name]) < _LEAST_FLOOR:
                return False
        return True

    def outside(self) -> Ring:
        """Return the outer face of the building."""
        return inset(np.array(self.footprint), self.inner_wall / 2 - self.outer_wall)


def _edges(ring: Ring) -> Ring:
    return np.concatenate([ring[1:], ring[:1]]) - ring


def within(ring: Ring | Sequence[Point], point: Point) -> bool:
    """Whether a point lies in a ring, by the parity of crossings to its right."""
    px, py = point
    inside = False
    x, y = ring[-1]
    for nx, ny in ring:
        if (y > py) != (ny > py) and x + (py - y) / (ny - y) * (nx - x) > px:
            inside = not inside
        x, y = nx, ny
    return inside


def area(ring: Ring) -> float:
    """Return the signed area of a ring: positive when it turns as x towards y."""
    x, y = ring[:, 0], ring[:, 1]
    last = x[-1] * y[0] - x[0] * y[-1]
    return float(np.dot(x[:-1], y[1:]) - np.dot(x[1:], y[:-1]) + last) / 2


def directed(ring: Ring) -> Ring:
    """Return the ring turning as x towards y, so that its inside lies on that side."""
    return ring if area(ring) >= 0 else ring[::-1]


def inset(ring: Ring, by: Metres) -> Ring:
    """Return the ring moved inwards on every side, with sharp corners; outwards when negative.

    Plain arithmetic, as rings are short: an array operation costs more than the whole ring.
    """
    points = directed(ring).tolist()
    inward = []
    for (x, y), (nx, ny) in zip(points, points[1:] + points[:1], strict=True):
        length = math.hypot(nx - x, ny - y)
        inward.append(((y - ny) / length, (nx - x) / length))
    moved = []
    bx, by_ = inward[-1]
    for (x, y), (ix, iy) in zip(points, inward, strict=True):
        reach = by / max(1 + ix * bx + iy * by_, 0.1)
        moved.append((x + (ix + bx) * reach, y + (iy + by_) * reach))
        bx, by_ = ix, iy
    return np.array(moved)
