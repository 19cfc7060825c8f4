"""Floors as a grid of cells, each in one room: outlines, shared walls, and carving.

``cells`` : int, shape (rows, columns), the number of the room a cell lies in, or OUTSIDE. ``lines``
are the metres at which columns and rows begin and end.
"""

import itertools
from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.measures import Metres
from estimator.plan.opening import Point

Cells = NDArray[np.int32]
OUTSIDE = -1


class Untraceable(Exception):
    """A room that is in several parts or surrounds another has no single outline."""


@frozen
class Lines:
    """Where the columns and rows of a grid begin and end, in metres."""

    x: tuple[Metres, ...]
    y: tuple[Metres, ...]

    def point(self, column: int, row: int) -> Point:
        """Return a crossing of the lines."""
        return self.x[column], self.y[row]


@frozen
class Run:
    """A straight stretch of wall between two rooms, ``beyond`` perhaps OUTSIDE.

    ``inward`` points into ``room``; start and end are left to right or top to bottom.
    """

    room: int
    beyond: int
    start: Point
    end: Point
    inward: Point

    @property
    def length(self) -> Metres:
        """Its length."""
        return abs(self.end[0] - self.start[0]) + abs(self.end[1] - self.start[1])


def outline(mask: NDArray[np.bool_], lines: Lines) -> tuple[Point, ...]:
    """Return the corners of a set of cells, without those on straight stretches.

    Raises
    ------
    Untraceable
        When the cells are in several parts, touch at a corner only, or enclose a hole.
    """
    framed = np.pad(mask, 1).astype(np.int8)
    down = framed[1:, 1:] - framed[1:, :-1]  # left of the cell: +1 where the inside begins
    over = framed[1:, 1:] - framed[:-1, 1:]
    after: dict[tuple[int, int], tuple[int, int]] = {}
    for row, column in zip(*np.nonzero(down), strict=True):
        start, end = (int(column), int(row) + 1), (int(column), int(row))
        if down[row, column] < 0:
            start, end = end, start
        if start in after:
            raise Untraceable
        after[start] = end
    for row, column in zip(*np.nonzero(over), strict=True):
        start, end = (int(column), int(row)), (int(column) + 1, int(row))
        if over[row, column] < 0:
            start, end = end, start
        if start in after:
            raise Untraceable
        after[start] = end
    first = min(after)
    corners, at, before = [], first, (0, 0)
    walked = 0
    while walked == 0 or at != first:
        following = after[at]
        way = (following[0] - at[0], following[1] - at[1])
        if way != before:
            corners.append(at)
        at, before = following, way
        walked += 1
    if walked < len(after):
        raise Untraceable
    return tuple(lines.point(*corner) for corner in corners)


def runs(cells: Cells, lines: Lines) -> Iterator[Run]:
    """Yield every straight stretch of wall between the same two rooms, once each."""
    framed = np.pad(cells, 1, constant_values=OUTSIDE)
    yield from _upright(framed[1:-1], lines, flipped=False)
    yield from _upright(framed.T[1:-1], Lines(lines.y, lines.x), flipped=True)


def _upright(framed: Cells, lines: Lines, *, flipped: bool) -> Iterator[Run]:
    before, after = framed[:, :-1], framed[:, 1:]
    walls = before != after
    for column in np.flatnonzero(walls.any(axis=0)):
        left, right = before[:, column], after[:, column]
        wall = walls[:, column]
        changes = np.flatnonzero((np.diff(left) != 0) | (np.diff(right) != 0)) + 1
        stops = [0, *changes.tolist(), len(wall)]
        for start, end in itertools.pairwise(stops):
            if not wall[start]:
                continue
            one, other = int(left[start]), int(right[start])
            ends = [(lines.x[column], lines.y[start]), (lines.x[column], lines.y[end])]
            inward = (-1.0, 0.0)
            if one == OUTSIDE:
                one, other, inward = other, one, (1.0, 0.0)
            if flipped:
                ends = [(y, x) for x, y in ends]
                inward = (inward[1], inward[0])
            yield Run(one, other, ends[0], ends[1], inward)


def parts(mask: NDArray[np.bool_]) -> tuple[int, Cells]:
    """Return how many separate parts a set of cells has, and the number of each cell's part."""
    count, numbers = cv2.connectedComponents(mask.astype(np.uint8), connectivity=4)
    return count - 1, np.asarray(numbers - 1, np.int32)
