"""Gaps in walls: places where two wall ends face each other across a door, window or passage.

Glossary
--------
run
    A stretch of free pixels in one row between two wall pixels.
gap
    Neighbouring rows' runs with the same two ends: a rectangle as thick as the wall it is in and
    open to free floor on both of its long sides.
"""

import math

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.settings import Settings

Mask = NDArray[np.bool_]
Ends = NDArray[np.float64]
Places = NDArray[np.int64]


@frozen(kw_only=True, eq=False)
class Gap:
    """A rectangle in a wall, in pixels of the working picture.

    Parameters
    ----------
    corners
        Float, shape (4, 2): along one face of the wall, then back along the other.
    """

    corners: Ends

    @property
    def width_px(self) -> float:
        """Distance between the two wall ends."""
        return float(math.dist(self.corners[0], self.corners[1]))

    @property
    def depth_px(self) -> float:
        """Thickness of the wall around it."""
        return float(math.dist(self.corners[1], self.corners[2]))

    @property
    def middle(self) -> Ends:
        """Its centre."""
        return self.corners.mean(axis=0)

    @property
    def along(self) -> Ends:
        """Unit vector from one wall end to the other."""
        step: Ends = (self.corners[1] - self.corners[0]) / self.width_px
        return step

    @property
    def across(self) -> Ends:
        """Unit vector through the wall, from its first face to its second."""
        step: Ends = (self.corners[2] - self.corners[1]) / self.depth_px
        return step


def _row_gaps(walls: Mask, least: float, most: float, depths: tuple[float, float]) -> Ends:
    """Return gaps along the rows as (left, top, right, bottom), shape (N, 4)."""
    width = walls.shape[1]
    step = np.diff(walls.view(np.int8), axis=1)
    flat = step.ravel()
    falls, rises = np.flatnonzero(flat == -1), np.flatnonzero(flat == 1)
    stride = width - 1
    # the free run after a fall ends at the next rise in the same row
    nexts = np.searchsorted(rises, falls)
    sound = nexts < len(rises)
    falls, nexts = falls[sound], nexts[sound]
    rises = rises[nexts]
    length = rises - falls
    sound = (falls // stride == rises // stride) & (length >= least) & (length <= most)
    row, start, end = falls[sound] // stride, falls[sound] % stride + 1, rises[sound] % stride + 1
    if not len(row):
        return np.zeros((0, 4))
    key = row * width + start
    parent = np.arange(len(row))
    for shift in (2, -2, 1, -1, 0):
        above = key - width + shift
        at = np.minimum(np.searchsorted(key, above), len(key) - 1)
        fits = (key[at] == above) & (np.abs(end[at] - end) <= 2)
        parent[fits] = at[fits]
    while True:
        grand = parent[parent]
        if np.array_equal(grand, parent):
            break
        parent = grand
    order = np.argsort(parent, kind="stable")
    first = np.flatnonzero(np.diff(parent[order], prepend=-1))
    left = np.maximum.reduceat(start[order], first).astype(float)
    right = np.minimum.reduceat(end[order], first).astype(float)
    top = np.minimum.reduceat(row[order], first)
    bottom = np.maximum.reduceat(row[order], first) + 1
    deep = bottom - top
    # a run that starts or stops sloping is an outline, not a pair of facing ends
    keep = (deep >= depths[0]) & (deep <= depths[1]) & (right - left >= least)
    left, top, right, bottom = left[keep], top[keep], right[keep], bottom[keep]
    return np.stack([left, top, right, bottom], axis=1)[
        _between_wall_ends(walls, left.astype(int), top, right.astype(int), bottom)
    ].astype(float)


def _between_wall_ends(
    walls: Mask, left: Places, top: Places, right: Places, bottom: Places
) -> Mask:
    """Tell which rectangles open on both long sides and stop at a wall's end at least once."""
    tall, wide = walls.shape
    filled = cv2.integral(walls.view(np.uint8))

    def free(row: Places, start: Places, end: Places) -> Mask:
        inside = (row >= 0) & (row < tall)
        row = np.clip(row, 0, tall - 1)
        start, end = np.clip(start, 0, wide), np.clip(end, 0, wide)
        inked = filled[row + 1, end] - filled[row, end] - filled[row + 1, start] + filled[row, start]
        return np.asarray(~inside | (inked <= 0.2 * (end - start)))

    above, below = top - 3, bottom + 2
    opens = free(above, left, right) & free(below, left, right)
    ends_left = free(above, left - 4, left) & free(below, left - 4, left)
    ends_right = free(above, right, right + 4) & free(below, right, right + 4)
    return opens & (ends_left | ends_right)


def _turn(shape: tuple[int, ...], angle: float) -> tuple[Ends, tuple[int, int]]:
    """Return the affine map that turns a picture, and the size that then holds all of it."""
    tall, wide = shape[:2]
    c, s = math.cos(angle), math.sin(angle)
    size = (
        math.ceil(abs(wide * c) + abs(tall * s)),
        math.ceil(abs(wide * s) + abs(tall * c)),
    )
    turn = np.array([[c, s, 0.0], [-s, c, 0.0]])
    turn[:, 2] = np.array(size) / 2 - turn[:, :2] @ np.array([wide / 2, tall / 2])
    return turn, size


def gaps_along(
    walls: Mask, angle: float, thickness: tuple[float, float], settings: Settings
) -> list[Gap]:
    """Find the gaps in walls that run in one direction, in radians from the x axis."""
    least = settings.gap_least * thickness[0]
    most = settings.gap_most * max(walls.shape)
    depths = (settings.gap_depth_least * thickness[0], settings.gap_depth_most * thickness[1])
    if angle == 0.0:
        turned, back = walls, np.eye(2, 3)
    elif angle == math.pi / 2:
        turned, back = np.ascontiguousarray(walls.T), np.array([[0.0, 1, 0], [1, 0, 0]])
    else:
        turn, size = _turn(walls.shape, angle)
        turned = cv2.warpAffine(walls.view(np.uint8), turn, size, flags=cv2.INTER_NEAREST) > 0
        back = cv2.invertAffineTransform(turn)
    found = _row_gaps(turned, least, most, depths)
    corners = found[:, [[0, 1], [2, 1], [2, 3], [0, 3]]]
    return [Gap(corners=box) for box in corners @ back[:, :2].T + back[:, 2]]
