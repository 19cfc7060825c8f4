"""Uneven light on paper, taken away."""

import cv2
import numpy as np

from estimator.measures import Share
from estimator.reading.arrays import Pixels

# Light changes slowly: it is judged on a picture this large, in windows of this share of it, which
# are wider than any wall and most furniture.
_JUDGED_AT_PX = 160
_WINDOW: Share = 0.12
# Paper whose darkest parts are no darker than this share of its brightest is evenly lit.
_EVEN: Share = 0.85
# No part is made brighter than so many times, or its noise would look like ink.
_MOST_GAIN = 3.0


def evened(pixels: Pixels) -> Pixels:
    """Return a picture of paper, shape (H, W, 3), as if evenly lit; itself where it is."""
    paper = _paper(pixels)
    dark, bright = np.quantile(paper, (0.02, 0.98))
    if dark > _EVEN * bright:
        return pixels
    gain = np.clip(bright / np.maximum(paper, 1.0), 1.0, _MOST_GAIN).astype(np.float32)
    tall, wide = pixels.shape[:2]
    gain = cv2.resize(gain, (wide, tall), interpolation=cv2.INTER_LINEAR)
    lit = [cv2.multiply(band, gain, dtype=cv2.CV_8U) for band in cv2.split(pixels)]
    return np.asarray(cv2.merge(lit), np.uint8)


def _paper(pixels: Pixels) -> np.ndarray:
    """Return how bright the paper is everywhere, on a small picture."""
    zoom = min(1.0, _JUDGED_AT_PX / max(pixels.shape))
    small = cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)
    grey = cv2.cvtColor(small, cv2.COLOR_RGB2GRAY)
    size = round(_WINDOW * max(grey.shape)) | 1
    paper = cv2.morphologyEx(grey, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
    return np.asarray(cv2.GaussianBlur(paper, (0, 0), size / 4), np.float32)
