"""Small plans drawn in the source, so that the reader sees each case; all sizes are in pixels."""

from itertools import pairwise

import cv2
import numpy as np
import pytest

from estimator.reading.picture import Picture

INK, PAPER = 20, 255


class Sheet:
    """A white sheet on which walls are drawn as strokes of ink."""

    def __init__(self, wide: int, tall: int) -> None:
        self.pixels = np.full((tall, wide), PAPER, np.uint8)

    def wall(self, left: int, top: int, right: int, bottom: int, ink: int = INK) -> "Sheet":
        self.pixels[top:bottom, left:right] = ink
        return self

    def box(self, left: int, top: int, right: int, bottom: int, thick: int) -> "Sheet":
        """Walls of one thickness around a room whose inside is the given rectangle."""
        self.wall(left - thick, top - thick, right + thick, top)
        self.wall(left - thick, bottom, right + thick, bottom + thick)
        self.wall(left - thick, top, left, bottom)
        return self.wall(right, top, right + thick, bottom)

    def clear(self, left: int, top: int, right: int, bottom: int) -> "Sheet":
        return self.wall(left, top, right, bottom, ink=PAPER)

    def line(self, *ends: tuple[int, int], thick: int = 1) -> "Sheet":
        for start, end in pairwise(ends):
            cv2.line(self.pixels, start, end, INK, thick, cv2.LINE_AA)
        return self

    def window(self, left: int, top: int, right: int, bottom: int) -> "Sheet":
        """A gap in a level wall, glazed by three lines along it."""
        self.clear(left, top, right, bottom)
        for row in (top, (top + bottom) // 2, bottom - 1):
            self.wall(left, row, right, row + 1)
        return self

    def swing(self, hinge: tuple[int, int], width: int, start: int) -> "Sheet":
        """A door leaf standing open at right angles, and its quarter circle."""
        cv2.ellipse(self.pixels, hinge, (width, width), 0, start, start + 90, INK, 1, cv2.LINE_AA)
        return self

    def word(self, text: str, left: int, base: int, size: float = 0.5) -> "Sheet":
        cv2.putText(self.pixels, text, (left, base), 0, size, INK, 1, cv2.LINE_AA)
        return self

    def picture(self, **known) -> Picture:
        return Picture(pixels=np.repeat(self.pixels[..., None], 3, axis=2), **known)


@pytest.fixture
def new_sheet() -> type[Sheet]:
    """A blank sheet of any size to draw on."""
    return Sheet


@pytest.fixture
def two_rooms() -> Sheet:
    """Two rooms of 300 x 360 and 400 x 360 with a door of 60 between and one out, and a window."""
    sheet = Sheet(1000, 600).box(100, 100, 812, 460, thick=20)
    sheet.wall(400, 100, 412, 460)
    sheet.clear(400, 200, 412, 260).line((412, 200), (471, 200)).swing((412, 200), 60, 0)
    sheet.clear(500, 460, 560, 480).line((500, 460), (500, 401)).swing((500, 460), 60, 270)
    sheet.window(550, 80, 700, 100)
    return sheet.word("Room", 200, 300).word("Hall", 580, 300)


@pytest.fixture
def l_shape() -> Sheet:
    """An L-shaped room and a square one, with a door between."""
    sheet = Sheet(1000, 800).box(100, 100, 800, 600, thick=20)
    sheet.wall(490, 100, 500, 360).wall(490, 350, 800, 360)
    sheet.clear(490, 200, 500, 260).line((490, 200), (431, 200)).swing((490, 200), 60, 90)
    return sheet.window(200, 600, 350, 620)


@pytest.fixture
def blank_sheet() -> Sheet:
    return Sheet(900, 700)
