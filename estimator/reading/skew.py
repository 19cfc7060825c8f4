"""How far a drawing stands turned from upright."""

import math

import cv2
import numpy as np

from estimator.reading.arrays import Pixels

_QUARTER = math.pi / 2
_DIRECTIONS = 90  # of the edges, within a quarter turn: one degree each

# The search for the best angle about a first guess: its reach in radians, and steps to each side.
_SEARCH = ((0.05, 10), (0.005, 5), (0.001, 3))


def skew(grey: Pixels) -> float:
    """Estimate how far a drawing is turned from upright, within 45 degrees, in radians.

    The commonest direction of the edges gives it within a degree; the angle at which rows and
    columns are most uneven gives the rest.

    Parameters
    ----------
    grey : uint8, shape (H, W)
        Dark ink on bright paper.
    """
    ink = np.asarray(255 - grey, np.uint8)
    best = _commonest_direction(grey)
    for reach, steps in _SEARCH:
        tried = best + np.linspace(-reach, reach, 2 * steps + 1)
        marks = [_unevenness(ink, angle) for angle in tried]
        if max(marks) > 1.02 * marks[steps]:  # a tie is no reason to turn the picture
            best = float(tried[int(np.argmax(marks))])
    return best


def _commonest_direction(grey: Pixels) -> float:
    """Return the direction most edges have, 0 unless another stands out."""
    strength, direction = cv2.cartToPolar(
        cv2.Sobel(grey, cv2.CV_32F, 1, 0), cv2.Sobel(grey, cv2.CV_32F, 0, 1)
    )
    strong = strength > max(60.0, 0.3 * float(strength.max()))
    if np.count_nonzero(strong) < 100:
        return 0.0
    turned = np.mod(direction[strong] + _QUARTER / 2, _QUARTER) - _QUARTER / 2
    votes, edges = np.histogram(
        turned, _DIRECTIONS, (-_QUARTER / 2, _QUARTER / 2), weights=strength[strong]
    )
    votes = votes + np.roll(votes, 1) + np.roll(votes, -1)
    best = int(np.argmax(votes))
    upright = votes[_DIRECTIONS // 2 - 1 : _DIRECTIONS // 2 + 1].max()
    if votes[best] < 3 * votes.mean() or upright > 0.8 * votes[best]:
        return 0.0
    return float(edges[best] + edges[best + 1]) / 2


def _unevenness(ink: Pixels, angle: float) -> float:
    """Return how much rows and columns of turned ink differ from their neighbours."""
    tall, wide = ink.shape
    turn = cv2.getRotationMatrix2D((wide / 2, tall / 2), math.degrees(angle), 1.0)
    turned = cv2.warpAffine(ink, turn, (wide, tall))
    rows = cv2.reduce(turned, 1, cv2.REDUCE_SUM, dtype=cv2.CV_32F).ravel()
    columns = cv2.reduce(turned, 0, cv2.REDUCE_SUM, dtype=cv2.CV_32F).ravel()
    return float(np.square(np.diff(rows)).sum() + np.square(np.diff(columns)).sum())
