"""Walls as edges of rooms: which face each other, and what becomes of a room when they move.

A ring is its corners in order, the first not repeated. Outer rings turn from x towards y and holes
the other way, so that the floor lies on the same side of every wall.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon
from shapely.geometry.polygon import orient

from estimator.measures import Metres
from estimator.plan.opening import Point

Vectors = NDArray[np.float64]
Key = tuple[str, int, int]
"""A wall by its room, its ring (0 is the outer one) and its place in it."""

THICKEST_WALL: Metres = 0.6
"""Rooms this far apart may still share a wall."""

# Walls face each other when they are turned by less than this, as a sine, and overlap by more than
# this share of the shorter; outlines drawn by hand may cross by this share of a thick wall.
_PARALLEL = 0.06
_SHARED = 0.02
_CROSSED = 0.25


@frozen
class Wall:
    """One edge of a room's outline on the ground."""

    room: str
    ring: int
    place: int
    start: Point
    end: Point

    @property
    def key(self) -> Key:
        """What tells it from other walls."""
        return self.room, self.ring, self.place

    @property
    def length(self) -> float:
        """Distance between its ends."""
        return math.dist(self.start, self.end)

    @property
    def along(self) -> Point:
        """Its direction, of length 1."""
        length = self.length
        return (self.end[0] - self.start[0]) / length, (self.end[1] - self.start[1]) / length

    @property
    def outward(self) -> Point:
        """Direction out of the room, of length 1, square to it."""
        x, y = self.along
        return y, -x

    def place_at(self, away: float) -> Point:
        """Return the place so far from its start."""
        x, y = self.along
        return self.start[0] + away * x, self.start[1] + away * y

    def reached(self, place: Point) -> float:
        """Return how far along it the place lies, seen square to it."""
        x, y = self.along
        return (place[0] - self.start[0]) * x + (place[1] - self.start[1]) * y

    def distance(self, place: Point) -> float:
        """Return the distance of a place from it."""
        return math.dist(place, self.place_at(min(max(self.reached(place), 0.0), self.length)))

    def moved(self, by: Point) -> "Wall":
        """Return the wall moved without turning."""
        return Wall(
            self.room,
            self.ring,
            self.place,
            (self.start[0] + by[0], self.start[1] + by[1]),
            (self.end[0] + by[0], self.end[1] + by[1]),
        )


def rings_of(outline: Polygon) -> list[list[Point]]:
    """Return the corners of the outer ring and of the holes."""
    turned = orient(outline, sign=1.0)
    return [
        [(float(x), float(y)) for x, y in ring.coords[:-1]]
        for ring in (turned.exterior, *turned.interiors)
    ]


def walls_of(room: str, outline: Polygon) -> list[Wall]:
    """Return every wall of a room, ring by ring."""
    return [
        Wall(room, at, place, start, ring[(place + 1) % len(ring)])
        for at, ring in enumerate(rings_of(outline))
        for place, start in enumerate(ring)
    ]


def facing(walls: Sequence[Wall], thickest: float) -> list[list[int]]:
    """Return, for each wall, the walls of other rooms that face it across at most that distance."""
    if not walls:
        return []
    starts = np.array([wall.start for wall in walls])
    ends = np.array([wall.end for wall in walls])
    lengths = np.maximum(np.linalg.norm(ends - starts, axis=1), 1e-12)
    along = (ends - starts) / lengths[:, None]
    outward = np.stack([along[:, 1], -along[:, 0]], axis=1)
    owners = np.unique([wall.room for wall in walls], return_inverse=True)[1]
    opposed = (along @ along.T) < -math.sqrt(1 - _PARALLEL**2)
    opposed &= owners[:, None] != owners[None, :]
    one, other = np.nonzero(opposed)
    middles = (starts[other] + ends[other]) / 2
    gap = ((middles - starts[one]) * outward[one]).sum(axis=1)
    near = (gap <= thickest) & (gap >= -_CROSSED * thickest)
    one, other = one[near], other[near]
    first = ((starts[other] - starts[one]) * along[one]).sum(axis=1)
    last = ((ends[other] - starts[one]) * along[one]).sum(axis=1)
    shared = np.minimum(np.maximum(first, last), lengths[one]) - np.maximum(
        np.minimum(first, last), 0.0
    )
    enough = shared > _SHARED * np.minimum(lengths[one], lengths[other])
    found: list[list[int]] = [[] for _ in walls]
    for at, mate in zip(one[enough].tolist(), other[enough].tolist(), strict=True):
        found[at].append(mate)
    return found


def together(walls: Sequence[Wall], thickest: float) -> list[int]:
    """Return the number of the group each wall moves with: all that face each other in turn."""
    mates = facing(walls, thickest)
    group = [-1] * len(walls)
    for first in range(len(walls)):
        waiting = [first] if group[first] < 0 else []
        while waiting:
            at = waiting.pop()
            if group[at] < 0:
                group[at] = first
                waiting += mates[at]
    return group


def shifted(outline: Polygon, by: Mapping[tuple[int, int], Point]) -> tuple[Polygon, list[Wall]]:
    """Return the outline with some walls moved, and all its walls as they come to lie.

    Walls that meet a moved one grow or shrink along their own line; between a moved wall and one
    that runs on along the same line a step comes to stand.

    Parameters
    ----------
    by
        How far each moved wall goes, by ring and place; the part along the wall does not count.
    """
    rings: list[list[Point]] = []
    walls: list[Wall] = []
    for at, ring in enumerate(rings_of(outline)):
        edges = [
            Wall("", at, place, start, ring[(place + 1) % len(ring)])
            for place, start in enumerate(ring)
        ]
        shifts = [_square(edge, by.get((at, edge.place), (0.0, 0.0))) for edge in edges]
        corners = [
            list(_meeting(edges[place - 1], edges[place], shifts[place - 1], shifts[place]))
            for place in range(len(ring))
        ]
        rings.append([corner for meeting in corners for corner in meeting])
        walls += [
            Wall("", at, place, corners[place][-1], corners[(place + 1) % len(ring)][0])
            for place in range(len(ring))
        ]
    return Polygon(rings[0], rings[1:]), walls


def _square(edge: Wall, by: Point) -> Point:
    """Return the part of a movement that is square to the wall."""
    if edge.length == 0:
        return 0.0, 0.0
    x, y = edge.outward
    share = by[0] * x + by[1] * y
    return share * x, share * y


def _meeting(before: Wall, after: Wall, one: Point, other: Point) -> Iterator[Point]:
    """Yield the corner between two walls after each was moved, or both ends of a step."""
    corner = after.start
    if one == other == (0.0, 0.0):
        yield corner
        return
    moved = (corner[0] + one[0], corner[1] + one[1])
    if not before.length or not after.length:
        yield moved
        return
    (ax, ay), (bx, by) = before.along, after.along
    sine = ax * by - ay * bx
    if abs(sine) > _PARALLEL:
        gap = (other[0] - one[0], other[1] - one[1])
        away = (gap[0] * by - gap[1] * bx) / sine
        yield moved[0] + away * ax, moved[1] + away * ay
        return
    yield moved
    if math.dist(one, other) > 0:
        yield corner[0] + other[0], corner[1] + other[1]
