"""A page to draw on with few words."""

from collections.abc import Sequence
from itertools import pairwise

import cv2
import numpy as np

Ink = int | tuple[int, int, int]
Point = tuple[float, float]


class Page:
    """A sheet of paper; ink is a grey or a colour, and places are pixels from the top left."""

    def __init__(self, wide: int = 640, tall: int = 640, paper: Ink = 255) -> None:
        self.pixels = np.full((tall, wide, 3), paper, np.uint8)

    def line(self, *points: Point, thick: int = 1, ink: Ink = 20) -> "Page":
        for start, end in pairwise(points):
            cv2.line(self.pixels, _at(start), _at(end), _colour(ink), thick, cv2.LINE_AA)
        return self

    def box(
        self, left: float, top: float, wide: float, tall: float, *, thick: int = 1, ink: Ink = 20
    ) -> "Page":
        """Draw a rectangle; filled when its line is -1 thick."""
        corners = _at((left, top)), _at((left + wide, top + tall))
        cv2.rectangle(self.pixels, *corners, _colour(ink), thick)
        return self

    def disc(
        self, centre: Point, radius: float, *, thick: int = 1, ink: Ink = 20, arc: Point = (0, 360)
    ) -> "Page":
        size = (round(radius), round(radius))
        cv2.ellipse(self.pixels, _at(centre), size, 0, *arc, _colour(ink), thick, cv2.LINE_AA)
        return self

    def filled(self, corners: Sequence[Point], ink: Ink = 20) -> "Page":
        ring = np.array([_at(corner) for corner in corners], np.int32)
        cv2.fillPoly(self.pixels, [ring], _colour(ink), cv2.LINE_AA)
        return self

    def word(
        self, text: str, left: float, base: float, size: float = 0.45, *, ink: Ink = 20, bold=1
    ) -> "Page":
        cv2.putText(self.pixels, text, _at((left, base)), 0, size, _colour(ink), bold, cv2.LINE_AA)
        return self

    def grid(
        self, left: float, top: float, columns: int, rows: int, wide: float, tall: float, **pen
    ) -> "Page":
        for row in range(rows + 1):
            self.line((left, top + row * tall), (left + columns * wide, top + row * tall), **pen)
        for column in range(columns + 1):
            x = left + column * wide
            self.line((x, top), (x, top + rows * tall), **pen)
        return self


def _at(point: Point) -> tuple[int, int]:
    return round(point[0]), round(point[1])


def _colour(ink: Ink) -> tuple[int, int, int]:
    return (ink, ink, ink) if isinstance(ink, int) else ink
