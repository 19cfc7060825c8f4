"""How a door swings, from the floor its leaves are seen to sweep.

Before a door of width 1 a leaf hung at one jamb sweeps a sector of the unit circle about it, from
the shut door to the leaf as drawn: a quarter of the circle, or less for a leaf drawn half open. Two
leaves sweep two sectors of half the radius. The swing is that of the sector, on either side of the
wall, which the floor seen to be swept is most alike. The centroid alone would not tell: that of a
quarter lies 4 / 3π = 0.42 widths from its hinge, but that of an eighth 0.60.
"""

import math
from functools import cache

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.plan.opening import Hinge
from estimator.reading.arrays import Places
from estimator.reading.sight.classes import CONTENTS_STEP, SWING
from estimator.reading.sight.network import Sight

# Points a side at which the floor before a door is looked at.
_POINTS = 20
# Leaves are drawn so far open, in degrees.
_OPENED = (30, 50, 70, 90)
# Floor less alike any sector than this, as intersection over union, is no swing.
_LIKE_LEAST = 0.4


@frozen(kw_only=True)
class Swing:
    """How a door swings.

    Parameters
    ----------
    side
        1 where it swings to the side of the wall that the normal points to, -1 for the other.
    """

    side: int
    hinge: Hinge


def swing(sight: Sight, ends: Places, normal: Places, depth_px: float) -> Swing | None:
    """Return how the door in a wall swings; None where no floor is seen to be swept.

    Parameters
    ----------
    ends : float, shape (2, 2)
        The jambs, in the middle of the wall, in the network's pixels.
    normal : float, shape (2,)
        Unit vector across the wall.
    depth_px
        Thickness of the wall.
    """
    found, most = None, _LIKE_LEAST
    along = ends[1] - ends[0]
    for side in (1, -1):
        out = side * normal
        swept = _floor(sight, ends[0] + out * depth_px / 2, along, out * math.hypot(*along))
        for hinge, sectors in _sectors().items():
            both = np.minimum(swept, sectors).sum(axis=(1, 2))
            either = np.maximum(swept, sectors).sum(axis=(1, 2))
            like = float((both / either).max())
            if like > most:
                found, most = Swing(side=side, hinge=hinge), like
    return found


def _floor(sight: Sight, corner: Places, along: Places, out: Places) -> NDArray[np.float32]:
    """Return how far the square of floor before a door is swept, seen from its wall outwards."""
    steps = (np.arange(_POINTS) + 0.5) / _POINTS
    places = corner + steps[None, :, None] * along + steps[:, None, None] * out
    at = (places / CONTENTS_STEP - 0.5).astype(np.float32)  # OpenCV counts from centres
    floor = cv2.remap(sight.contents[SWING], at[..., 0], at[..., 1], cv2.INTER_LINEAR)
    return np.asarray(floor, np.float32)


@cache
def _sectors() -> dict[Hinge, NDArray[np.float32]]:
    """Return the sectors of each hinge, shape (angles, points outwards, points along)."""
    steps = (np.arange(_POINTS) + 0.5) / _POINTS
    x, y = np.meshgrid(steps, steps)
    turn = np.degrees(np.arctan2(y, x))

    def about_start(radius: float) -> NDArray[np.float32]:
        inside = np.hypot(x, y) <= radius
        return np.array([inside & (turn <= opened) for opened in _OPENED], np.float32)

    whole, half = about_start(1.0), about_start(0.5)
    return {
        Hinge.START: whole,
        Hinge.END: whole[:, :, ::-1],
        Hinge.BOTH: half + half[:, :, ::-1],
    }
