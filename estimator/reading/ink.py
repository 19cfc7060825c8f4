"""Ink parted from paper."""

import cv2
import numpy as np

from estimator.reading.arrays import Mask, Pixels
from estimator.reading.settings import Settings


def ink_of(grey: Pixels, settings: Settings) -> Mask:
    """Return where ink is: darker than the paper or coloured floor around it.

    Parameters
    ----------
    grey : uint8, shape (H, W)

    Returns
    -------
    bool, shape (H, W)
    """
    tall, wide = grey.shape
    small = cv2.resize(
        cv2.medianBlur(grey, 3), None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA
    )
    size = max(3, round(settings.paper_window * max(small.shape))) | 1
    paper = cv2.morphologyEx(small, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
    paper = cv2.blur(paper, (size, size))
    dark = settings.paper_black * float(np.median(paper))
    paper = np.maximum(cv2.resize(paper, (wide, tall)), 1)
    brightness = cv2.divide(grey, paper, scale=255)
    level, _ = cv2.threshold(brightness, 0, 255, cv2.THRESH_OTSU)
    ink = (brightness < level) | (grey < dark)
    # beside paper, an edge lies half way between the ink and the paper, however grey the ink
    darkest = cv2.erode(brightness, np.ones((5, 5), np.uint8))
    halfway = cv2.addWeighted(darkest, 0.5, darkest, 0.0, 127.5)
    beside = cv2.dilate(brightness, np.ones((3, 3), np.uint8)) > settings.paper_white * 255
    return np.asarray(ink & ~((brightness > halfway) & beside))


def faint_of(grey: Pixels, settings: Settings) -> Mask:
    """Return thin strokes however faint: pixels darker than what surrounds them closely."""
    around = cv2.morphologyEx(grey, cv2.MORPH_CLOSE, np.ones((7, 7), np.uint8))
    return np.asarray(cv2.subtract(around, grey) > settings.faint_least * 255)
