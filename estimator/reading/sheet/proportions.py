"""How wide a sheet is to its height, from its four corners in a photo.

A pinhole camera of focal length f, its axis through the middle of the photo, sees the two
directions of the sheet under a right angle; that tells f, and f tells the proportions [1]_. Seen
nearly from above, the corners hardly tell f, and the usual lens of a phone is assumed.

References
----------
.. [1] Zhang and He, Whiteboard scanning and image enhancement, Digital Signal Processing 17 (2007).
"""

import math

import cv2
import numpy as np

from estimator.measures import Ratio
from estimator.reading.arrays import Places

# The usual lens of a phone sees a diagonal of the photo this many focal lengths long: 26 mm to a
# diagonal of 43.3 mm (common practice); within about this factor, as a logarithm.
_USUAL_FOCAL = 26 / 43.3
_FOCAL_SPREAD = 0.25
_FOCALS = np.exp(np.linspace(-1.0, 1.2, 89))
# Corners are off by about this angle as seen from the middle of the sheet, in radians.
_ANGLE_ERROR = 0.004
# Sheets have the proportions of ISO 216, or of common US paper (ANSI/ASME Y14.1), when so near.
_USUAL: tuple[Ratio, ...] = (math.sqrt(2), 11 / 8.5, 17 / 11, 14 / 8.5)
_NEAR = 0.02


def proportions(corners: Places, size_px: tuple[int, int]) -> Ratio:
    """Return width ÷ height of the sheet with these corners, clockwise from the upper left.

    Parameters
    ----------
    size_px
        Width and height of the photo.
    """
    square = np.array([[0, 0], [1, 0], [1, 1], [0, 1]], np.float32)
    centred = (corners - np.array(size_px) / 2) / math.hypot(*size_px)
    across, down, _ = cv2.getPerspectiveTransform(square, centred.astype(np.float32)).T
    focals = _USUAL_FOCAL * _FOCALS
    seen = [
        np.stack([way[0] / focals, way[1] / focals, np.full_like(focals, way[2])])
        for way in (across, down)
    ]
    wide, tall = (np.linalg.norm(way, axis=0) for way in seen)
    off_square = (seen[0] * seen[1]).sum(axis=0) / (wide * tall)
    misfit = (off_square / _ANGLE_ERROR) ** 2 + (np.log(_FOCALS) / _FOCAL_SPREAD) ** 2
    best = int(np.argmin(misfit))
    return _usual(float(wide[best] / tall[best]))


def _usual(ratio: Ratio) -> Ratio:
    """Return the proportions of common paper when these are near them."""
    for usual in _USUAL:
        for paper in (usual, 1 / usual):
            if abs(math.log(ratio / paper)) < _NEAR:
                return paper
    return ratio
