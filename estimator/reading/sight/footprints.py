"""Footprints of blobs: rectangles that stand square to their room when nearly so, and shapes.

Everything is in squares of contents.
"""

import math

import cv2
import numpy as np
from attrs import frozen
from shapely import affinity
from shapely.geometry import Polygon

from estimator.reading.arrays import Mask, Places
from estimator.reading.outlines import outline_of
from estimator.reading.settings import Settings
from estimator.reading.sight.blobs import Blob

# A rectangle in line with the room may be larger than the least one around a blob by this factor.
_NEARLY = 1.15
# A line of squares shorter than this share of the longest is a stray one at the edge of a piece.
_WHOLE = 0.5
# Corners of a shape are told apart from the stair-steps of its squares as by walls so thick.
_STEPS = 6.0


@frozen(kw_only=True, eq=False)
class Rectangle:
    """A rectangle by its middle and its two half sides, the longer first, shape (2,) each."""

    middle: Places
    longer: Places
    shorter: Places

    @property
    def length(self) -> float:
        """Its longer side."""
        return 2 * math.hypot(*self.longer)

    @property
    def depth(self) -> float:
        """Its shorter side."""
        return 2 * math.hypot(*self.shorter)

    @property
    def aspect(self) -> float:
        """The longer side as a multiple of the shorter."""
        return self.length / self.depth

    @property
    def polygon(self) -> Polygon:
        """The rectangle as a polygon."""
        return Polygon(
            [
                self.middle + along * self.longer + across * self.shorter
                for along, across in ((-1, -1), (1, -1), (1, 1), (-1, 1))
            ]
        )

    def parted(self, count: int) -> list["Rectangle"]:
        """Return as many alike side by side along its longer side."""
        places = (np.arange(count) + 0.5) / count * 2 - 1
        half = self.longer / count
        sides = (
            (half, self.shorter) if math.hypot(*half) >= self.depth / 2 else (self.shorter, half)
        )
        return [
            Rectangle(middle=self.middle + at * self.longer, longer=sides[0], shorter=sides[1])
            for at in places.tolist()
        ]


def tilt(mask: Mask) -> float:
    """Return how far a shape's sides stand turned, in radians; 0 when it is level or nearly so."""
    corners = _corners(mask)
    _, (wide, deep), degrees = cv2.minAreaRect(corners.astype(np.float32))
    level = np.prod(np.ptp(corners, axis=0))
    return 0.0 if level <= _NEARLY * wide * deep else math.radians(degrees)


def rectangles_of(blob: Blob, turn: float) -> tuple[Rectangle, Rectangle]:
    """Return the rectangle a blob is most like, and the least around it.

    They are turned like its room when it is so nearly.
    """
    corners = _corners(blob.squares) + np.array([blob.left, blob.top])
    _, (wide, deep), degrees = cv2.minAreaRect(corners.astype(np.float32))
    around = _around(corners, turn)
    if around.length * around.depth > _NEARLY * wide * deep:
        turn = math.radians(degrees)
        around = _around(corners, turn)
    rows, columns = np.nonzero(blob.squares)
    middles = np.stack([columns + blob.left, rows + blob.top], axis=1).astype(np.float64) + 0.5
    return _spread(middles, turn), around


def shape_of(blob: Blob) -> Polygon | None:
    """Return the outline of a blob; None when it has no body."""
    outline = outline_of(blob.squares, _STEPS, Settings())
    return outline and affinity.translate(Polygon(outline.exterior), blob.left, blob.top)


def _around(corners: Places, turn: float) -> Rectangle:
    """Return the least rectangle of a turn around points."""
    reach = corners @ _axes(turn).T
    low, high = reach.min(axis=0), reach.max(axis=0)
    return _rectangle((low + high) / 2, high - low, turn)


def _spread(places: Places, turn: float) -> Rectangle:
    """Return the rectangle of a turn around the middles of squares, stray ones left out.

    It is as wide as most lines of squares across it are long, and its middle that of those lines.
    """
    reach = places @ _axes(turn).T
    (along, middle), (across, centre) = (_lines(reach, axis) for axis in (1, 0))
    return _rectangle(np.array([centre, middle]), np.array([along, across]), turn)


def _rectangle(middle: Places, sides: Places, turn: float) -> Rectangle:
    """Return a rectangle by its middle and sides along its own axes."""
    first, second = _axes(turn) * sides[:, None] / 2
    if sides[0] < sides[1]:
        first, second = second, first
    return Rectangle(middle=middle @ _axes(turn), longer=first, shorter=second)


def _lines(reach: Places, axis: int) -> tuple[float, float]:
    """Return the usual length of lines of squares across an axis, and their middle along it."""
    line = np.floor(reach[:, axis]).astype(int)
    line -= line.min()
    lengths = np.bincount(line)
    whole = lengths >= _WHOLE * lengths.max()
    return float(np.median(lengths[whole])), float(reach[whole[line], axis].mean())


def _axes(turn: float) -> Places:
    """Return the unit vectors along and across a turn, shape (2, 2)."""
    return np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])


def _corners(mask: Mask) -> Places:
    """Return the corners of the squares along the edge of a shape."""
    padded = cv2.copyMakeBorder(mask.view(np.uint8), 0, 1, 0, 1, cv2.BORDER_CONSTANT, value=[0])
    grown = cv2.dilate(padded, np.ones((2, 2), np.uint8), anchor=(1, 1))
    contours, _ = cv2.findContours(grown, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    return np.concatenate(contours).reshape(-1, 2).astype(np.float64)
