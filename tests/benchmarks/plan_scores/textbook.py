"""Two ways to find rooms as textbooks teach them, with their usual settings.

Gonzalez & Woods, *Digital Image Processing*: threshold (Otsu 1979), closing and connected
components; and a watershed over the distance transform, seeded where the paper lies deep.
"""

import cv2
import numpy as np
from numpy.typing import NDArray
from plan_scores.rooms import Found

_LEAST = 0.0006  # share of the picture that a region covers at least


def components(pixels: NDArray[np.uint8]) -> Found:
    """Threshold, close, take what is enclosed."""
    closed = cv2.morphologyEx(_walls(pixels), cv2.MORPH_CLOSE, np.ones((25, 25), np.uint8))
    _, label = cv2.connectedComponents(1 - closed, connectivity=4)
    return _inside(label)


def watershed(pixels: NDArray[np.uint8]) -> Found:
    """Threshold, and part the paper where the distance from ink has its ridges."""
    walls = _walls(pixels)
    depth = cv2.distanceTransform(1 - walls, cv2.DIST_L2, 5)
    _, seeds = cv2.connectedComponents((depth > 0.35 * np.quantile(depth, 0.99)).view(np.uint8))
    markers = np.where(walls > 0, seeds.max() + 1, seeds).astype(np.int32)
    cv2.watershed(pixels.copy(), markers)
    markers[(markers < 0) | (markers == seeds.max() + 1)] = 0
    return _inside(markers)


def _walls(pixels: NDArray[np.uint8]) -> NDArray[np.uint8]:
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    _, ink = cv2.threshold(grey, 0, 1, cv2.THRESH_BINARY_INV + cv2.THRESH_OTSU)
    return np.asarray(cv2.morphologyEx(ink, cv2.MORPH_OPEN, np.ones((3, 3), np.uint8)), np.uint8)


def _inside(label: NDArray[np.int32]) -> Found:
    """Return the regions that are large enough and do not touch the picture's edge."""
    edge = np.unique(np.concatenate([label[0], label[-1], label[:, 0], label[:, -1]]))
    area = np.bincount(label.ravel())
    keep = (area >= _LEAST * label.size) & (np.arange(len(area)) > 0)
    keep[edge] = False
    return [(label == number, float(area[number])) for number in np.flatnonzero(keep)]
