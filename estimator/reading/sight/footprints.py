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
# So far the corners of squares stick out of a slanted side.
_STICKS_OUT = 0.5
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
    _, (wide, deep), degrees = cv2.minAreaRect(corners)
    level = np.prod(np.ptp(corners, axis=0))
    return 0.0 if level <= _NEARLY * wide * deep else math.radians(degrees)


def rectangle_of(blob: Blob, turn: float) -> Rectangle:
    """Return the least rectangle around a blob, turned like its room when nearly so."""
    corners = _corners(blob.squares) + np.array([blob.left, blob.top], np.float32)
    _, (wide, deep), degrees = cv2.minAreaRect(corners)
    square = _around(corners, turn)
    if square.length * square.depth <= _NEARLY * wide * deep:
        return square
    return _around(corners, math.radians(degrees), _STICKS_OUT)


def shape_of(blob: Blob) -> Polygon | None:
    """Return the outline of a blob; None when it has no body."""
    outline = outline_of(blob.squares, _STEPS, 0.0, Settings())
    return outline and affinity.translate(Polygon(outline.exterior), blob.left, blob.top)


def _around(corners: Places, turn: float, inset: float = 0.0) -> Rectangle:
    """Return the least rectangle of a turn around points, made so much smaller on every side."""
    axes = np.array([[math.cos(turn), math.sin(turn)], [-math.sin(turn), math.cos(turn)]])
    reach = corners @ axes.T
    low, high = reach.min(axis=0) + inset, reach.max(axis=0) - inset
    first, second = axes * ((high - low) / 2)[:, None]
    if math.hypot(*first) < math.hypot(*second):
        first, second = second, first
    return Rectangle(middle=(low + high) / 2 @ axes, longer=first, shorter=second)


def _corners(mask: Mask) -> Places:
    """Return the corners of the squares along the edge of a shape, float32 for OpenCV."""
    padded = cv2.copyMakeBorder(mask.view(np.uint8), 0, 1, 0, 1, cv2.BORDER_CONSTANT, value=[0])
    grown = cv2.dilate(padded, np.ones((2, 2), np.uint8), anchor=(1, 1))
    contours, _ = cv2.findContours(grown, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_SIMPLE)
    return np.concatenate(contours).reshape(-1, 2).astype(np.float32)
