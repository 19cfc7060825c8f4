"""Ink parted from paper."""

import cv2
import numpy as np

from estimator.reading.arrays import Mask, Pixels
from estimator.reading.settings import Settings


def ink_on(grey: Pixels, settings: Settings) -> Mask:
    """Return where a picture is inked: darker than half way from the paper to the ink around.

    Parameters
    ----------
    grey : uint8, shape (H, W)
    """
    paper = _paper(grey, settings)
    brightness = np.asarray(cv2.divide(grey, paper, scale=255), np.uint8)
    black = grey < settings.paper_black * float(np.median(paper))
    return _dark(brightness, black, settings)


def _paper(grey: Pixels, settings: Settings) -> Pixels:
    """Return how bright the paper or floor around each pixel is, at least 1."""
    tall, wide = grey.shape
    small = cv2.resize(
        cv2.medianBlur(grey, 3), None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA
    )
    size = max(3, round(settings.paper_window * max(small.shape))) | 1
    paper = cv2.morphologyEx(small, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
    paper = cv2.resize(cv2.blur(paper, (size, size)), (wide, tall))
    return np.maximum(np.asarray(paper, np.uint8), np.uint8(1))


def _dark(brightness: Pixels, black: Mask, settings: Settings) -> Mask:
    level, _ = cv2.threshold(brightness, 0, 255, cv2.THRESH_OTSU)
    ink = (brightness < level) | black
    # beside paper, an edge lies half way between the ink and the paper, however grey the ink
    darkest = cv2.erode(brightness, np.ones((5, 5), np.uint8))
    halfway = cv2.addWeighted(darkest, 0.5, darkest, 0.0, 127.5)
    beside = cv2.dilate(brightness, np.ones((3, 3), np.uint8)) > settings.paper_white * 255
    return np.asarray(ink & ~((brightness > halfway) & beside))


def straight_runs(walls: Mask, settings: Settings) -> Mask:
    """Return the parts of strokes that run straight along rows or columns for a good way."""
    length = max(3, round(settings.straight_least * float(max(walls.shape))))
    drawn = walls.view(np.uint8)
    across = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((1, length), np.uint8))
    down = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((length, 1), np.uint8))
    return np.asarray((across > 0) | (down > 0))
