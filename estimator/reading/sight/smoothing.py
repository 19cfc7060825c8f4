"""Floors made smooth beside doors and windows, whose frames and leaves leave ragged edges."""

import math

import cv2
import numpy as np

from estimator.reading.arrays import Labels, Mask, Pixels
from estimator.reading.sight.classes import DOOR, WINDOW
from estimator.reading.sight.network import Sight

# What is less broad than this share of a wall, a notch in a floor or a spike of it, is of a frame.
# Half a wall leaves areas as they were; a whole one makes them worse by some per cent.
_FRAME = 0.5


def beside_openings(sight: Sight, wall_px: float, size: tuple[int, int]) -> Mask:
    """Return where a picture of a size (H, W) shows what is nearer to an opening than a wall."""
    opening = np.isin(sight.classes, (DOOR, WINDOW)).view(np.uint8)
    near = cv2.dilate(opening, _square(2 * math.ceil(wall_px) + 1))
    return np.asarray(cv2.resize(near, size[::-1], interpolation=cv2.INTER_NEAREST) > 0)


def smoothed(drawn: Labels, number: int, near: Mask, wall: float) -> Mask:
    """Return the floor of a room, shape (H, W), smooth where it is near to an opening.

    Parameters
    ----------
    drawn
        Number of the room at each pixel; no other room loses any.
    near
        Which pixels are near to an opening.
    wall
        Usual thickness of a wall in these pixels.
    """
    face = drawn == number
    size = round(_FRAME * wall) | 1
    # OpenCV takes what lies beyond a picture for floor where that helps.
    smooth = np.pad(face, size).view(np.uint8)
    for how in (cv2.MORPH_CLOSE, cv2.MORPH_OPEN):
        smooth = np.asarray(cv2.morphologyEx(smooth, how, _square(size)), np.uint8)
    inner = smooth[size:-size, size:-size] > 0
    return np.asarray(np.where(near & (face | (drawn == 0)), inner, face))


def _square(size: int) -> Pixels:
    return np.ones((size, size), np.uint8)
