"""Numbered regions of a picture."""

import cv2
import numpy as np

from estimator.reading.arrays import Labels


def grown(label: Labels, reach_px: int) -> Labels:
    """Return regions grown by so many pixels; where two meet, the one of the higher number wins."""
    size = 2 * reach_px + 1
    # OpenCV does not dilate whole numbers of 32 bits; floats hold numbers to 2**24 exactly.
    grown_label = cv2.dilate(label.astype(np.float32), np.ones((size, size), np.uint8))
    return np.asarray(grown_label, np.int32)
