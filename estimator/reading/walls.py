"""Wall strokes parted from thinner ones by their thickness and how straight they run."""

from itertools import pairwise

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.ink import Mask
from estimator.reading.settings import Settings

Floats = NDArray[np.float32]

_STEP = 0.955  # what OpenCV's 3 x 3 distance transform counts for one pixel


@frozen(kw_only=True, eq=False)
class Strokes:
    """Ink parted by thickness.

    Parameters
    ----------
    walls, thin : bool, shape (H, W)
        Wall strokes; every other ink.
    thickness
        The thinnest and thickest usual wall, in pixels.
    """

    walls: Mask
    thin: Mask
    thickness: tuple[float, float]


@frozen(kw_only=True, eq=False)
class Widths:
    """Stroke widths of ink.

    Parameters
    ----------
    depth : float32, shape (H, W)
        Distance of each ink pixel to the nearest paper, in pixels.
    ridge : bool, shape (H, W)
        Pixels in the middle of their stroke.
    """

    depth: Floats
    ridge: Mask

    @classmethod
    def of(cls, ink: Mask) -> "Widths":
        """Measure ink."""
        depth = np.asarray(cv2.distanceTransform(ink.view(np.uint8), cv2.DIST_L2, 3), np.float32)
        depth /= _STEP
        ridge = (depth >= cv2.dilate(depth, np.ones((3, 3), np.uint8))) & ink
        return cls(depth=depth, ridge=np.asarray(ridge))

    def within(self, mask: Mask) -> Floats:
        """Return the stroke widths at the ridge pixels within a mask."""
        return np.asarray(2 * self.depth[self.ridge & mask] - 1)


def limits_between(widths: Floats, settings: Settings) -> list[tuple[float, int]]:
    """Return the classes of strokes thicker than the thinnest: where each begins, and its peak.

    Drawings are made with few pens and few kinds of wall, so that the histogram of stroke widths is
    a row of peaks with next to nothing between them.
    """
    counts, _ = np.histogram(widths, np.arange(-0.5, 62.0))
    enough = settings.class_least * counts.sum()
    peaks: list[int] = []
    for at in range(1, 60):
        if counts[at] < enough or counts[at] < counts[at - 1] or counts[at] <= counts[at + 1]:
            continue
        if peaks and counts[peaks[-1] : at].min() > 0.5 * min(counts[peaks[-1]], counts[at]):
            if counts[at] > counts[peaks[-1]]:
                peaks[-1] = at
            continue
        peaks.append(at)
    return [
        ((before + after) / 2, after)
        for before, after in pairwise(peaks)
        if after >= settings.pen_gap * before
    ]


def at_least(limit: float, ink: Mask, widths: Widths) -> Mask:
    """Return the strokes at least so many pixels thick."""
    core = widths.depth >= limit / 2 + 0.5
    away = cv2.distanceTransform((~core).view(np.uint8), cv2.DIST_L2, 3)
    return np.asarray((away <= limit / 2 + 1) & ink)


def _straight(walls: Mask, settings: Settings) -> Mask:
    """Return the parts of strokes that run straight along rows or columns for a good way."""
    length = max(3, round(settings.straight_least * max(walls.shape)))
    drawn = walls.view(np.uint8)
    across = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((1, length), np.uint8))
    down = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((length, 1), np.uint8))
    return np.asarray((across > 0) | (down > 0))


def _joined(walls: Mask, thicker: Mask) -> Mask:
    """Return the pieces of wall that hold some of the thicker walls."""
    _, label = cv2.connectedComponents(walls.view(np.uint8))
    held = np.zeros(int(label.max()) + 1, bool)
    held[np.unique(label[thicker])] = True
    held[0] = False
    return np.asarray(held[label])


def wall_strokes(ink: Mask, settings: Settings) -> list[Strokes]:
    """Part the walls from thinner strokes, in each way that may be right, the likeliest first.

    The chief class of walls is the one with the most ink in straight runs. Whatever is thicker is
    wall too, and so is each thinner class that runs as straight and is joined to thicker walls. A
    class that does, but is much thinner, may be inner walls or the lines of windows. Nothing is
    returned when no class of strokes is thicker than the rest.
    """
    widths = Widths.of(ink)
    limits = limits_between(widths.within(ink), settings)
    if not limits:
        return []
    classes = [at_least(limit, ink, widths) for limit, _ in limits]
    runs = [
        np.count_nonzero(_straight(own, settings) & ~thicker)
        for own, thicker in zip(classes, [*classes[1:], np.zeros_like(ink)], strict=True)
    ]
    at = int(np.argmax(runs))
    chosen, doubted = classes[at], []
    thinnest = limits[at][1]
    for below in range(at - 1, -1, -1):
        own = classes[below] & ~chosen
        area = np.count_nonzero(own)
        if area < settings.class_least * runs[at]:
            continue
        straight = np.count_nonzero(_straight(own, settings) & _joined(classes[below], chosen))
        if straight < settings.straight_share * area:
            break
        if limits[below][1] < settings.thinner_wall * thinnest:
            doubted = [classes[below]]
            break
        chosen, thinnest = classes[below], limits[below][1]
    return [
        strokes
        for walls in (chosen, *doubted)
        if (strokes := strokes_of(walls, ink, widths, settings))
    ]


def strokes_of(walls: Mask, ink: Mask, widths: Widths, settings: Settings) -> Strokes | None:
    """Drop pieces too short for walls and measure the rest; None when nothing is left."""
    found = widths.within(walls)
    if not len(found):
        return None
    least, most = (float(width) for width in np.quantile(found, [0.1, 0.9]))
    _, label, stats, _ = cv2.connectedComponentsWithStats(walls.view(np.uint8))
    extent = np.maximum(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT])
    filled = stats[:, cv2.CC_STAT_AREA] / (
        stats[:, cv2.CC_STAT_WIDTH] * stats[:, cv2.CC_STAT_HEIGHT]
    )
    breadth = np.minimum(stats[:, cv2.CC_STAT_WIDTH], stats[:, cv2.CC_STAT_HEIGHT])
    pier = (filled > settings.pier_share) & (breadth >= 0.8 * max(least, 4.0))
    long = (extent >= settings.piece_least * max(least, 3.0)) | pier
    long[0] = False
    walls = np.asarray(long[label])
    return Strokes(walls=walls, thin=ink & ~walls, thickness=(max(1.0, least), max(1.0, most)))
