"""Ink parted from paper, and wall strokes parted from thinner ones."""

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.picture import Pixels
from estimator.reading.settings import Settings

Mask = NDArray[np.bool_]


def ink_of(grey: Pixels, settings: Settings) -> Mask:
    """Return where ink is: darker than the paper or coloured floor around it.

    Parameters
    ----------
    grey : uint8, shape (H, W)

    Returns
    -------
    bool, shape (H, W)
    """
    tall, wide = grey.shape
    small = cv2.resize(
        cv2.medianBlur(grey, 3), None, fx=0.25, fy=0.25, interpolation=cv2.INTER_AREA
    )
    size = max(3, round(settings.paper_window * max(small.shape))) | 1
    paper = cv2.morphologyEx(small, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
    paper = cv2.blur(paper, (size, size))
    dark = settings.paper_black * float(np.median(paper))
    paper = cv2.resize(paper, (wide, tall))
    brightness = cv2.divide(grey, cv2.max(paper, 1), scale=255)
    level, _ = cv2.threshold(brightness, 0, 255, cv2.THRESH_OTSU)
    return np.asarray((brightness < level) | (grey < dark))


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


_STEP = 0.955  # what OpenCV's 3 x 3 distance transform counts for one pixel


def _widths(ink: Mask) -> tuple[NDArray[np.float32], Mask]:
    """Return each ink pixel's distance to paper, and the ridges of that landscape."""
    depth = cv2.distanceTransform(ink.view(np.uint8), cv2.DIST_L2, 3) / _STEP
    ridge = (depth >= cv2.dilate(depth, np.ones((3, 3), np.uint8))) & ink
    return depth, np.asarray(ridge)


def pen_limits(widths: NDArray[np.float64], settings: Settings) -> list[float]:
    """Return the widths at which walls may begin: valleys of the stroke-width histogram.

    Always ends with 0, for a drawing whose walls are as thin as every other line.
    """
    counts, _ = np.histogram(widths, np.arange(-0.5, 62.0))
    enough = 0.02 * counts.sum()
    peaks: list[int] = []
    for at in range(1, 60):
        if counts[at] < enough or counts[at] < counts[at - 1] or counts[at] <= counts[at + 1]:
            continue
        if peaks and counts[peaks[-1] : at].min() > 0.5 * min(counts[peaks[-1]], counts[at]):
            if counts[at] > counts[peaks[-1]]:
                peaks[-1] = at
            continue
        peaks.append(at)
    limits = [
        (before + after) / 2
        for before, after in zip(peaks, peaks[1:], strict=False)
        if after >= settings.pen_gap * before
    ]
    return [*limits, 0.0]


def faint_of(grey: Pixels, pen: float, settings: Settings) -> Mask:
    """Return thin strokes however faint: pixels darker than what surrounds them closely."""
    size = 2 * round(pen) + 3
    around = cv2.morphologyEx(grey, cv2.MORPH_CLOSE, np.ones((size, size), np.uint8))
    return np.asarray(cv2.subtract(around, grey) > settings.faint_least * 255)


def _straight(walls: Mask, settings: Settings) -> Mask:
    """Return the parts of strokes that run straight along rows or columns for a good way."""
    length = max(3, round(settings.straight_least * max(walls.shape)))
    drawn = walls.view(np.uint8)
    across = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((1, length), np.uint8))
    down = cv2.morphologyEx(drawn, cv2.MORPH_OPEN, np.ones((length, 1), np.uint8))
    return (across | down) > 0


@frozen(kw_only=True, eq=False)
class Thickness:
    """Strokes of one class of thickness: those at least as thick as ``limit``, less the thicker."""

    limit: float
    strokes: "Strokes"
    area: int
    straight: float


def thicknesses(ink: Mask, settings: Settings) -> list[Thickness]:
    """Sort ink into classes of thickness, the thickest first, and see how straight each runs."""
    depth, ridge = _widths(ink)
    limits = pen_limits(2.0 * depth[ridge] - 1, settings)
    thicker = np.zeros_like(ink)
    classes = []
    for limit in sorted(limits, reverse=True):
        strokes = part_strokes(ink, limit, settings)
        own = strokes.walls & ~thicker
        area = int(np.count_nonzero(own))
        straight = np.count_nonzero(own & _straight(strokes.walls, settings)) / max(1, area)
        classes.append(Thickness(limit=limit, strokes=strokes, area=area, straight=straight))
        thicker = strokes.walls
    return classes


def wall_strokes(classes: list[Thickness], settings: Settings) -> Strokes:
    """Choose which classes of thickness are walls: the chief straight one, all that are thicker,
    and the thinner ones as long as they run as straight.
    """
    chief = max(range(len(classes)), key=lambda at: classes[at].area * classes[at].straight)
    chosen = chief
    for at in range(chief + 1, len(classes)):
        if classes[at].area < 0.02 * classes[chief].area:
            continue
        so_far = sum(known.area for known in classes[:at])
        is_pen = classes[at].limit == 0
        if classes[at].straight < settings.straight_share or (is_pen and classes[at].area < so_far):
            break
        chosen = at
    return classes[chosen].strokes


def limits_of(ink: Mask, settings: Settings) -> list[float]:
    """Return the widths at which walls may begin in this drawing, the likeliest first."""
    depth, ridge = _widths(ink)
    return pen_limits(2.0 * depth[ridge] - 1, settings)


def part_strokes(ink: Mask, limit: float, settings: Settings) -> Strokes:
    """Part ink into walls at least as thick as the limit and thin strokes."""
    depth, ridge = _widths(ink)
    if limit > 0:
        core = (depth >= limit / 2 + 0.5).view(np.uint8)
        size = int(limit) + 2 | 1
        disc = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (size, size))
        walls = (cv2.dilate(core, disc) > 0) & ink
    else:
        walls = ink.copy()
    widths = 2 * depth[ridge & walls] - 1
    if not len(widths):
        return Strokes(walls=walls, thin=ink, thickness=(1.0, 1.0))
    least, most = np.quantile(widths, [0.1, 0.9])
    count, label, stats, _ = cv2.connectedComponentsWithStats(walls.view(np.uint8))
    long = np.maximum(stats[:, 2], stats[:, 3]) >= settings.piece_least * max(least, 3.0)
    long[0] = False
    walls = long[label]
    return Strokes(walls=walls, thin=ink & ~walls, thickness=(float(least), float(most)))
