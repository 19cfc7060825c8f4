"""Free rectangles between two walls along the rows of a mask: where gaps in walls may be."""

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Counts, Mask, Places
from estimator.reading.settings import Settings


@frozen(kw_only=True, eq=False)
class Rectangles:
    """Stretches of rows that are free between the same two columns; int64, shape (N,) each.

    Parameters
    ----------
    left, right
        First free column, and the column of wall after the last.
    top, bottom
        First row, and the row after the last.
    """

    left: Counts
    top: Counts
    right: Counts
    bottom: Counts

    @property
    def deep(self) -> Counts:
        """How many rows each has."""
        return self.bottom - self.top

    def where(self, chosen: Mask) -> "Rectangles":
        """Return only the chosen ones."""
        return Rectangles(
            left=self.left[chosen],
            top=self.top[chosen],
            right=self.right[chosen],
            bottom=self.bottom[chosen],
        )

    def boxes(self) -> Places:
        """Return left, top, right, bottom; shape (N, 4)."""
        return np.stack([self.left, self.top, self.right, self.bottom], axis=1).astype(float)


class Ink:
    """Counts wall pixels in rectangles, quickly."""

    def __init__(self, walls: Mask) -> None:
        self.tall, self.wide = walls.shape
        self._sums = np.asarray(cv2.integral(walls.view(np.uint8)), np.int64)

    def share(self, left: Counts, top: Counts, right: Counts, bottom: Counts) -> Counts:
        """Return what share of each rectangle is wall; outside the picture there is none."""
        a, b = np.clip(left, 0, self.wide), np.clip(right, 0, self.wide)
        c, d = np.clip(top, 0, self.tall), np.clip(bottom, 0, self.tall)
        inked = self._sums[d, b] - self._sums[c, b] - self._sums[d, a] + self._sums[c, a]
        return np.asarray(inked / np.maximum(1, (right - left) * (bottom - top)))

    def free(self, row: Counts, left: Counts, right: Counts) -> Mask:
        """Tell whether a stretch of row is free but for a pixel in three."""
        return np.asarray(self.share(left, row, right, row + 1) <= 0.34)


def rectangles_between(walls: Mask, least: float, most: float) -> Rectangles:
    """Return all rectangles whose width is within the bounds.

    Runs in neighbouring rows belong to one rectangle while neither end moves by more than 2 pixels.
    """
    width = walls.shape[1]
    step = np.diff(walls.view(np.int8), axis=1).ravel()
    falls, rises = np.flatnonzero(step == -1), np.flatnonzero(step == 1)
    stride = width - 1
    # the free run after a fall ends at the next rise in the same row
    nexts = np.searchsorted(rises, falls)
    falls, nexts = falls[nexts < len(rises)], nexts[nexts < len(rises)]
    rises = rises[nexts]
    length = rises - falls
    sound = (falls // stride == rises // stride) & (length >= least) & (length <= most)
    row, start, end = falls[sound] // stride, falls[sound] % stride + 1, rises[sound] % stride + 1
    if not len(row):
        return Rectangles(left=row, top=row, right=row, bottom=row)
    key = row * width + start
    parent = np.arange(len(row))
    for shift in (2, -2, 1, -1, 0):
        above = key - width + shift
        at = np.minimum(np.searchsorted(key, above), len(key) - 1)
        fits = (key[at] == above) & (np.abs(end[at] - end) <= 2)
        parent[fits] = at[fits]
    while not np.array_equal(parent, grand := parent[parent]):
        parent = grand
    order = np.argsort(parent, kind="stable")
    first = np.flatnonzero(np.diff(parent[order], prepend=-1))
    found = Rectangles(
        left=np.maximum.reduceat(start[order], first),
        top=np.minimum.reduceat(row[order], first),
        right=np.minimum.reduceat(end[order], first),
        bottom=np.maximum.reduceat(row[order], first) + 1,
    )
    return found.where(found.right - found.left >= least)


def between_wall_ends(
    walls: Mask,
    found: Rectangles,
    thickness: tuple[float, float],
    settings: Settings,
    *,
    slanted: bool,
) -> tuple[Rectangles, Rectangles]:
    """Return the rectangles as deep as a wall, open on both long sides, where a wall ends.

    The first are sure; the second, found only across the grain of the pixels, end at one wall and
    meet the side of another.
    """
    ink = Ink(walls)
    found = found.where(
        (found.deep >= settings.gap_depth_least * thickness[0])
        & (found.deep <= settings.gap_depth_most * thickness[1])
    )
    above, below = found.top - 3, found.bottom + 2
    left, right = found.left, found.right
    opens = ink.free(above, left, right) & ink.free(below, left, right)
    # across the grain a wall's end must be seen to belong to a wall that runs the same way
    stub = round(1.5 * thickness[0]) if slanted else 3
    ends_left = ink.free(above, left - stub, left) & ink.free(below, left - stub, left)
    ends_right = ink.free(above, right, right + stub) & ink.free(below, right, right + stub)
    ends = opens & (ends_left | ends_right)
    if not slanted:
        return found.where(ends), found.where(np.zeros_like(ends))
    top, bottom = found.top + 1, found.bottom - 1
    back = found.deep // 4  # the jambs may not be square to the wall
    solid = (ink.share(left - stub - back, top, left - back, bottom) >= 0.75) & (
        ink.share(right + back, top, right + stub + back, bottom) >= 0.75
    )
    both = ends_left & ends_right
    return found.where(ends & solid & both), found.where(ends & solid & ~both)


def mouths(
    walls: Mask, found: Rectangles, thickness: tuple[float, float], settings: Settings
) -> Places:
    """Return a strip as deep as a wall at each open end of the rectangles, shape (N, 4)."""
    ink = Ink(walls)
    found = found.where(found.deep >= settings.gap_depth_least * thickness[0])
    strips = []
    for edge, beyond, step in (
        (found.top, found.top - 3, 1),
        (found.bottom - 1, found.bottom + 2, -1),
    ):
        opens = ink.free(beyond, found.left, found.right) & (
            ink.free(beyond, found.left - 3, found.left)
            | ink.free(beyond, found.right, found.right + 3)
        )
        for at in np.flatnonzero(opens)[: settings.gaps_most]:
            left, right, first = int(found.left[at]), int(found.right[at]), int(edge[at])
            deep = _depth(walls, left, right, first, step, thickness)
            deep = min(deep, float(found.deep[at]))
            near = first + (step < 0)
            top, bottom = sorted((near, near + step * deep))
            rows = walls[max(0, int(top)) : max(1, int(bottom))]
            reach = int(2 * thickness[1])
            left -= _clear(rows[:, max(0, left - reach) : left][:, ::-1])
            right += _clear(rows[:, right : right + reach])
            strips.append((left, top, right, bottom))
    return np.array(strips, float).reshape(-1, 4)


def _depth(
    walls: Mask, left: int, right: int, row: int, step: int, thickness: tuple[float, float]
) -> float:
    """Return how thick the walls on both sides of a mouth are, the thinner of the two."""
    beside = round(1.5 * thickness[0])
    thick = [thickness[1]]
    for column in (left - beside, right + beside):
        if 0 <= column < walls.shape[1]:
            stroke = walls[row::step, column][: int(2 * thickness[1])]
            run = len(stroke) if stroke.all() else int(np.argmin(stroke))
            if run >= 0.5 * thickness[0]:
                thick.append(float(run))
    return min(thick)


def _clear(strip: Mask) -> int:
    """Return how far the row with the farthest wall is free, from the first column on."""
    if not strip.size or not strip.any(axis=1).all():
        return 0
    return int(strip.argmax(axis=1).max())
