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
from estimator.reading.walls import Strokes

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
    firm
        Whether a wall ends at it; otherwise it is the mouth of a passage, which is closed only
        where thin strokes say so.
    """

    corners: Ends
    firm: bool

    @property
    def width_px(self) -> float:
        """Distance between the two wall ends."""
        return float(math.dist(self.corners[0], self.corners[1]))

    @property
    def depth_px(self) -> float:
        """Thickness of the wall around it."""
        return float(math.dist(self.corners[1], self.corners[2]))

    def covers(self, place: Ends) -> bool:
        """Tell whether a place lies inside it."""
        step = place - self.middle
        return bool(
            abs(step @ self.along) < self.width_px / 2
            and abs(step @ self.across) < self.depth_px / 2
        )

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


def _row_gaps(
    walls: Mask,
    least: float,
    most: float,
    thickness: tuple[float, float],
    depths: tuple[float, float],
    *,
    slanted: bool,
) -> tuple[Ends, Mask]:
    """Return gaps along the rows as (left, top, right, bottom), shape (N, 4), and which are firm."""
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
        return np.zeros((0, 4)), np.zeros(0, bool)
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
    left = np.maximum.reduceat(start[order], first)
    right = np.minimum.reduceat(end[order], first)
    top = np.minimum.reduceat(row[order], first)
    bottom = np.maximum.reduceat(row[order], first) + 1
    firm, mouths = _between_wall_ends(
        walls, left, top, right, bottom, thickness, depths, slanted=slanted
    )
    return np.vstack([firm, mouths]), np.arange(len(firm) + len(mouths)) < len(firm)


def _between_wall_ends(
    walls: Mask,
    left: Places,
    top: Places,
    right: Places,
    bottom: Places,
    thickness: tuple[float, float],
    depths: tuple[float, float],
    *,
    slanted: bool,
) -> tuple[Ends, Ends]:
    """Keep rectangles that open on both long sides and stop at a wall's end; and, of passages too
    long for a wall's thickness, the strips at their mouths.
    """
    tall, wide = walls.shape
    filled = cv2.integral(walls.view(np.uint8))

    def free(row: Places, start: Places, end: Places) -> Mask:
        inside = (row >= 0) & (row < tall)
        row = np.clip(row, 0, tall - 1)
        start, end = np.clip(start, 0, wide), np.clip(end, 0, wide)
        inked = (
            filled[row + 1, end] - filled[row, end] - filled[row + 1, start] + filled[row, start]
        )
        return np.asarray(~inside | (inked <= 0.34 * (end - start)))

    above, below = top - 3, bottom + 2
    opens_above, opens_below = free(above, left, right), free(below, left, right)
    # across the grain of the pixels a wall's end must be seen to belong to a wall
    stub = round(1.5 * thickness[0]) if slanted else 3
    left_above, left_below = free(above, left - stub, left), free(below, left - stub, left)
    right_above, right_below = free(above, right, right + stub), free(below, right, right + stub)
    deep = bottom - top
    as_wall = (deep >= depths[0]) & (deep <= depths[1])
    ends_left, ends_right = left_above & left_below, right_above & right_below
    firm = as_wall & opens_above & opens_below & (ends_left | ends_right)
    rectangles = np.stack([left, top, right, bottom], axis=1).astype(float)
    if slanted:
        set_back = (bottom - top) // 4  # the jambs may not be square to the wall
        firm &= _solid(filled, left - stub - set_back, top + 1, left - set_back, bottom - 1)
        firm &= _solid(filled, right + set_back, top + 1, right + stub + set_back, bottom - 1)
        collinear = firm & ends_left & ends_right
        return rectangles[collinear], rectangles[firm & ~collinear]
    rectangles = rectangles[firm]
    mouths = []
    beside = round(1.5 * thickness[0])
    for at in np.flatnonzero(~firm & (deep >= depths[0])):
        for opens, stops, edge, step in (
            (opens_above[at], left_above[at] or right_above[at], top[at], 1),
            (opens_below[at], left_below[at] or right_below[at], bottom[at] - 1, -1),
        ):
            if not (opens and stops):
                continue
            thick = [thickness[1], float(deep[at])]
            for column in (left[at] - beside, right[at] + beside):
                if 0 <= column < wide:
                    stroke = walls[edge::step, column][: int(2 * thickness[1])]
                    run = int(np.argmin(stroke)) if not stroke.all() else len(stroke)
                    if run >= depths[0]:
                        thick.append(float(run))
            ends_at = sorted((edge + (step < 0), edge + (step < 0) + step * min(thick)))
            strip = walls[max(0, int(ends_at[0])) : max(1, int(ends_at[1]))]
            reach = int(2 * thickness[1])
            mouths.append(
                [
                    left[at] - _clear(strip[:, max(0, left[at] - reach) : left[at]][:, ::-1]),
                    ends_at[0],
                    right[at] + _clear(strip[:, right[at] : right[at] + reach]),
                    ends_at[1],
                ]
            )
    return rectangles, np.array(mouths, float).reshape(-1, 4)


def _clear(strip: Mask) -> int:
    """Return how far the row with the farthest wall is free, from the first column on."""
    if not strip.size or not strip.any(axis=1).all():
        return 0
    return int(strip.argmax(axis=1).max())


def _solid(filled: Places, left: Places, top: Places, right: Places, bottom: Places) -> Mask:
    """Tell which rectangles are nearly all wall, from the integral picture of the walls."""
    tall, wide = filled.shape[0] - 1, filled.shape[1] - 1
    left, right = np.clip(left, 0, wide), np.clip(right, 0, wide)
    top, bottom = np.clip(top, 0, tall), np.clip(bottom, 0, tall)
    inked = filled[bottom, right] - filled[top, right] - filled[bottom, left] + filled[top, left]
    return np.asarray(inked >= 0.75 * np.maximum(1, (right - left) * (bottom - top)))


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
    found, firm = _row_gaps(
        turned, least, most, thickness, depths, slanted=angle not in (0.0, math.pi / 2)
    )
    boxes = found[:, [[0, 1], [2, 1], [2, 3], [0, 3]]] @ back[:, :2].T + back[:, 2]
    return [Gap(corners=box, firm=bool(sure)) for box, sure in zip(boxes, firm, strict=True)]


def directions(walls: Mask, settings: Settings) -> list[float]:
    """Return the directions walls run in besides the two axes, in radians from the x axis."""
    small = cv2.GaussianBlur(walls.view(np.uint8) * 255, (0, 0), 1.5)
    strength, normal = cv2.cartToPolar(
        cv2.Sobel(small, cv2.CV_32F, 1, 0), cv2.Sobel(small, cv2.CV_32F, 0, 1)
    )
    strong = strength > 100
    run = np.mod(normal[strong] + math.pi / 2, math.pi)
    weight = strength[strong]
    votes, _ = np.histogram(run, 90, (0, math.pi), weights=weight)
    votes = votes + np.roll(votes, 1) + np.roll(votes, -1)
    least = settings.slant_least * weight.sum()
    found: list[float] = []
    for at in np.argsort(-votes):
        if votes[at] < least or len(found) == settings.slants_most:
            break
        rough = (at + 0.5) * math.pi / 90
        offset = np.mod(run - rough + math.pi / 2, math.pi) - math.pi / 2
        near = np.abs(offset) < math.radians(3)
        angle = rough + float(np.average(offset[near], weights=weight[near]))
        off = [
            abs((angle - known + math.pi / 2) % math.pi - math.pi / 2)
            for known in (0.0, math.pi / 2, *found)
        ]
        if min(off) > math.radians(6):
            found.append(float(angle))
    return found


def gaps_in(strokes: Strokes, settings: Settings) -> list[Gap]:
    """Find the gaps in walls of every direction; of two in one place, the first found stays.

    Mouths of passages are looked for when the gaps where walls end are closed, so that a door
    beside a passage does not pass for its end.
    """
    axes = (0.0, math.pi / 2)
    kept: list[Gap] = []

    def keep(found: list[Gap], *, firm: bool) -> None:
        for gap in found:
            if gap.firm is firm and not any(known.covers(gap.middle) for known in kept):
                kept.append(gap)

    slanted: list[Gap] = []
    for angle in (*axes, *directions(strokes.walls, settings)):
        found = gaps_along(strokes.walls, angle, strokes.thickness, settings)
        keep(found, firm=True)
        if angle not in axes:
            slanted += found
    closed = strokes.walls | (painted(strokes, kept) > 0)
    for angle in axes:
        keep(gaps_along(closed, angle, strokes.thickness, settings), firm=False)
    keep(slanted, firm=False)
    return kept


def painted(strokes: Strokes, gaps: list[Gap]) -> NDArray[np.int16]:
    """Return a picture of gaps, each in its number from 1, reaching well into its walls."""
    shape, reach = strokes.walls.shape, max(1.0, 0.75 * strokes.thickness[0])
    picture = np.zeros(shape, np.int16)
    for number, gap in enumerate(gaps, start=1):
        longer = reach * np.array([-1.0, 1.0, 1.0, -1.0])[:, None] * gap.along
        inwards = 0.5 * np.array([1.0, 1.0, -1.0, -1.0])[:, None] * gap.across
        corners = np.round(gap.corners + longer + inwards - 0.5).astype(np.int32)
        cv2.fillConvexPoly(picture, corners, number)
    return picture
