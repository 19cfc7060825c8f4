"""Walls drawn as two lines, hatched or not, filled in so that they read like solid ones."""

from collections.abc import Iterator

import cv2
import numpy as np

from estimator.reading.arrays import Floats, Labels, Mask
from estimator.reading.settings import Settings
from estimator.reading.walls import STEP


def filled_in(ink: Mask, settings: Settings) -> Iterator[Mask]:
    """Yield ink with its narrow cells filled, once for each width that walls may have.

    The insides of hollow walls all have one of a few widths, and so have the cells of a hatch; each
    width that many cells have is tried.

    Parameters
    ----------
    ink : bool, shape (H, W)
    """
    free = (~ink).view(np.uint8)
    count, numbered, stats, _ = cv2.connectedComponentsWithStats(free, connectivity=4)
    cell = np.asarray(numbered, np.int32)
    depth = np.asarray(cv2.distanceTransform(free, cv2.DIST_L2, 3)) / STEP
    reach = np.zeros(count)
    np.maximum.at(reach, cell.ravel(), depth.ravel())
    width = np.maximum(2 * reach - 1, 1.0)
    width[0] = np.inf
    length = stats[:, cv2.CC_STAT_AREA] / width
    for strips in (False, True):
        for widest in _usual_widths(width, length, max(ink.shape), settings):
            yield _without_windows(ink, cell, width, length, widest, settings, strips=strips)


def _usual_widths(width: Floats, length: Floats, longer: int, settings: Settings) -> list[float]:
    """Return the peaks of the cells' widths, each weighed by its length."""
    most = settings.hollow_most * longer
    counts, _ = np.histogram(width, np.arange(-0.5, most + 1.5), weights=length)
    mass = np.convolve(counts, (1.0, 1.0, 1.0), mode="same")
    enough = settings.hollow_least * longer
    peaks = [
        at
        for at in range(3, len(mass) - 1)
        if mass[at] >= enough and mass[at] >= mass[at - 1] and mass[at] > mass[at + 1]
    ]
    likeliest = sorted(peaks, key=lambda at: -mass[at])[: settings.hollow_tries]
    # where walls meet their inside is wider
    return [1.25 * at + 1.0 for at in sorted(likeliest)]


def _without_windows(
    ink: Mask,
    cell: Labels,
    widths: Floats,
    length: Floats,
    widest: float,
    settings: Settings,
    *,
    strips: bool,
) -> Mask:
    """Fill the narrow cells but those along a line inside the wall, which is a window's glass."""
    narrow_places = (widths <= widest)[cell]
    if strips:
        narrow_places = narrow_places | _strips(ink, widest)
    filled = ink | narrow_places
    inside = cv2.distanceTransform(filled.view(np.uint8), cv2.DIST_L2, 3) >= 0.3 * widest
    glass = (ink & inside).view(np.uint8)
    least = max(5, round(settings.glass_least * widest))
    across = cv2.morphologyEx(glass, cv2.MORPH_OPEN, np.ones((1, least), np.uint8))
    down = cv2.morphologyEx(glass, cv2.MORPH_OPEN, np.ones((least, 1), np.uint8))
    panes = cv2.max(across, down)
    beside = (cv2.dilate(panes, np.ones((5, 5), np.uint8)) > 0) & ~ink
    touched = np.bincount(cell[beside], minlength=len(length))
    # a pane runs along the whole of its cell; furniture only stands against some of a wall
    glazed = (
        (touched > 1.6 * length)
        & (length > 4 * widths)
        & (length < settings.gap_most * max(ink.shape))
    )
    return np.asarray(ink | (narrow_places & ~glazed[cell]))


def _strips(ink: Mask, widest: float) -> Mask:
    """Return paper between two lines that run along each other, where no end cap closes it off."""
    drawn, apart, along = ink.view(np.uint8), round(widest) + 1, round(2.5 * widest)
    strips = np.zeros_like(ink)
    for across, down in (((1, apart), (along, 1)), ((apart, 1), (1, along))):
        between = cv2.morphologyEx(drawn, cv2.MORPH_CLOSE, np.ones(across, np.uint8)) - drawn
        strips |= cv2.morphologyEx(between, cv2.MORPH_OPEN, np.ones(down, np.uint8)) > 0
    return strips
