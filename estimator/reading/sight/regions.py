"""Regions of a picture: the pixels of a mask, its connected pieces, numbered regions and edges."""

from collections.abc import Iterator
from itertools import pairwise

import cv2
import numpy as np

from estimator.reading.arrays import Counts, Labels, Mask

# What encloses a region is looked at so many pixels outside of it.
_EDGE_PX = 2


def pixels_of(mask: Mask) -> tuple[Counts, Counts]:
    """Return rows and columns of a mask's pixels, in a fraction of the time of ``np.nonzero``."""
    rows, columns = np.divmod(np.flatnonzero(mask), mask.shape[1])
    return rows, columns


def pieces_of(mask: Mask) -> Iterator[tuple[Counts, Counts]]:
    """Yield rows and columns of each piece of a mask, connected at sides or corners."""
    count, label = cv2.connectedComponents(mask.view(np.uint8), connectivity=8)
    rows, columns = pixels_of(mask)
    number = label[rows, columns]
    order = np.argsort(number, kind="stable")
    rows, columns = rows[order], columns[order]
    stops = np.searchsorted(number[order], np.arange(1, count + 1)).tolist()
    for start, stop in pairwise(stops):
        yield rows[start:stop], columns[start:stop]


def grown(label: Labels, reach_px: int) -> Labels:
    """Return regions grown by so many pixels; where two meet, the one of the higher number wins."""
    size = 2 * reach_px + 1
    # OpenCV does not dilate whole numbers of 32 bits; floats hold numbers to 2**24 exactly.
    grown_label = cv2.dilate(label.astype(np.float32), np.ones((size, size), np.uint8))
    return np.asarray(grown_label, np.int32)


def edges_of(label: Labels) -> tuple[tuple[Counts, Counts], Labels]:
    """Return rows and columns of the pixels close outside of regions, and the region of each."""
    around = grown(label, _EDGE_PX)
    at = pixels_of((label == 0) & (around > 0))
    return at, around[at]
