"""How thick the walls are that the network sees."""

import cv2
import numpy as np

from estimator.reading.sight.classes import WALL
from estimator.reading.sight.network import Sight


def wall_thickness(sight: Sight) -> float:
    """Return the usual thickness of a wall, in the network's pixels."""
    wall = (sight.classes == WALL).view(np.uint8)
    inside = cv2.distanceTransform(wall, cv2.DIST_L2, 3)
    ridge = (inside == cv2.dilate(inside, np.ones((3, 3), np.uint8))) & (inside > 0)
    return 2 * float(np.median(inside[ridge])) if ridge.any() else 3.0
