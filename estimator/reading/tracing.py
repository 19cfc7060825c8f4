"""Straight ink of a picture, found cheaply: what a pointer that draws over it may keep to."""

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Floats, Pixels, Places

# Strokes are looked for in a picture whose longer side is this, and are this share of it at least.
_LOOKED_AT_PX = 1500
_SHORTEST = 0.015
_MOST = 700
# Strokes meet in a corner when their ends lie this near, in pixels of that picture.
_MEETING_PX = 8.0
_SQUARE = 0.9


@frozen(kw_only=True, eq=False)
class Ink:
    """Straight edges of ink.

    Parameters
    ----------
    lines : float, shape (N, 4)
        From (x, y) to (x, y) in pixels of the picture, the longest first.
    corners : float, shape (N, 2)
        Where two of them meet about squarely.
    """

    lines: Floats
    corners: Places


def traced(pixels: Pixels) -> Ink:
    """Return the straight edges of the ink of an RGB picture."""
    zoom = min(1.0, _LOOKED_AT_PX / max(pixels.shape[:2]))
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    small = cv2.resize(grey, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)
    found, *_ = cv2.createLineSegmentDetector(cv2.LSD_REFINE_NONE).detect(small)
    if found is None:
        return Ink(lines=np.empty((0, 4)), corners=np.empty((0, 2)))
    lines = found.reshape(-1, 4).astype(np.float64)
    lengths = np.hypot(lines[:, 2] - lines[:, 0], lines[:, 3] - lines[:, 1])
    long = lengths >= _SHORTEST * max(small.shape)
    order = np.argsort(-lengths[long])[:_MOST]
    lines, lengths = lines[long][order], lengths[long][order]
    return Ink(lines=lines / zoom, corners=_corners(lines, lengths) / zoom)


def _corners(lines: Floats, lengths: Floats) -> Places:
    """Return where lines that end near each other would meet."""
    along = (lines[:, 2:] - lines[:, :2]) / lengths[:, None]
    ends = lines.reshape(-1, 2)
    owner = np.repeat(np.arange(len(lines)), 2)
    sines = np.abs(along[:, None, 0] * along[None, :, 1] - along[:, None, 1] * along[None, :, 0])
    near = np.linalg.norm(ends[:, None] - ends[None, :], axis=2) <= _MEETING_PX
    one, other = np.nonzero(near & (sines[owner][:, owner] > _SQUARE))
    one, other = one[one < other], other[one < other]
    a, b = along[owner[one]], along[owner[other]]
    gap = ends[other] - ends[one]
    sine = a[:, 0] * b[:, 1] - a[:, 1] * b[:, 0]
    reach = (gap[:, 0] * b[:, 1] - gap[:, 1] * b[:, 0]) / sine
    return np.unique(np.round(ends[one] + reach[:, None] * a), axis=0)
