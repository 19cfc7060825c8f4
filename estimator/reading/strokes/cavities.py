"""Walls drawn as two lines, hatched or not, filled in so that they read like solid ones."""

from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Floats, Labels, Mask
from estimator.reading.settings import Settings
from estimator.reading.strokes.walls import STEP


@frozen(kw_only=True, eq=False)
class _Cells:
    """The pieces of paper that ink encloses.

    Parameters
    ----------
    number : int32, shape (H, W)
        Of the cell at each pixel; 0 on ink.
    width, length : float, shape (N,)
        Of the widest disc inside; of a strip of that width with the same area.
    """

    number: Labels
    width: Floats
    length: Floats

    @classmethod
    def of(cls, ink: Mask) -> "_Cells":
        free = (~ink).view(np.uint8)
        count, numbered, stats, _ = cv2.connectedComponentsWithStats(free, connectivity=4)
        number = np.asarray(numbered, np.int32)
        depth = np.asarray(cv2.distanceTransform(free, cv2.DIST_L2, 3)) / STEP
        reach = np.zeros(count)
        np.maximum.at(reach, number.ravel(), depth.ravel())
        width = np.maximum(2 * reach - 1, 1.0)
        width[0] = np.inf
        return cls(number=number, width=width, length=stats[:, cv2.CC_STAT_AREA] / width)


def filled_in(ink: Mask, settings: Settings) -> Iterator[Mask]:
    """Yield ink with its narrow places filled, once for each width that walls may have.

    The insides of hollow walls all have one of a few widths, and so have the cells of a hatch; each
    width that many cells have is tried. First only closed cells are filled, then also paper
    between lines that run along each other.
    """
    cells = _Cells.of(ink)
    usual = _usual_widths(cells, max(ink.shape), settings)
    for widest in usual:
        narrow = (cells.width <= widest)[cells.number]
        yield ink | (narrow & ~_windows(ink, narrow, cells, widest, settings))
    strips = np.zeros_like(ink)
    for widest in usual:
        strips |= _strips(ink, widest)
        narrow = (cells.width <= widest)[cells.number] | strips
        yield ink | (narrow & ~_windows(ink, narrow, cells, widest, settings))


def _usual_widths(cells: _Cells, longer: int, settings: Settings) -> list[float]:
    """Return the peaks of the cells' widths, each weighed by its length."""
    most = settings.hollow_most * longer
    counts, _ = np.histogram(cells.width, np.arange(-0.5, most + 1.5), weights=cells.length)
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


def _windows(ink: Mask, narrow: Mask, cells: _Cells, widest: float, settings: Settings) -> Mask:
    """Return the cells along a line inside a wall, which is the glass of a window."""
    inside = cv2.distanceTransform((ink | narrow).view(np.uint8), cv2.DIST_L2, 3) >= 0.3 * widest
    glass = (ink & inside).view(np.uint8)
    least = max(5, round(settings.glass_least * widest))
    panes = cv2.max(
        cv2.morphologyEx(glass, cv2.MORPH_OPEN, np.ones((1, least), np.uint8)),
        cv2.morphologyEx(glass, cv2.MORPH_OPEN, np.ones((least, 1), np.uint8)),
    )
    beside = (cv2.dilate(panes, np.ones((5, 5), np.uint8)) > 0) & ~ink
    touched = np.bincount(cells.number[beside], minlength=len(cells.length))
    # a pane runs along the whole of its cell; furniture only stands against some of a wall
    glazed = (
        (touched > 1.6 * cells.length)
        & (cells.length > 4 * cells.width)
        & (cells.length < settings.gap_most * max(ink.shape))
    )
    return np.asarray(glazed[cells.number])


def _strips(ink: Mask, widest: float) -> Mask:
    """Return paper between two lines that run along each other, where no end cap closes it off."""
    drawn, apart, along = ink.view(np.uint8), round(widest) + 1, round(2.5 * widest)
    strips = np.zeros_like(ink)
    for across, down in (((1, apart), (along, 1)), ((apart, 1), (1, along))):
        between = cv2.morphologyEx(drawn, cv2.MORPH_CLOSE, np.ones(across, np.uint8)) - drawn
        strips |= cv2.morphologyEx(between, cv2.MORPH_OPEN, np.ones(down, np.uint8)) > 0
    return strips
