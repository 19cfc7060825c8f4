"""What borders a sheet of paper: whether four sides are its edges or walls of a bright building."""

from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen

from estimator.measures import Share
from estimator.reading.arrays import Floats, Pixels, Places
from estimator.reading.sheet.edges import sampled

# So many places along a side are looked at, those nearest to its ends left out.
_PLACES = 60
_ENDS: Share = 0.04
# Paper near its sides and most of what lies within are at least this share as bright as each other.
_LIT_LEAST: Share = 0.65
# So far within a side paper is looked at, and so far beyond it what lies around; no more than the
# second share of that is brighter than the first share of the paper.
_PAPER_PX = 6
_BEYOND_PX = (14, 22, 30, 40)
_BRIGHT: Share = 0.95
_BRIGHT_MOST: Share = 0.4
# A line is drawn along this share of the sides of a building, darker than this share of what lies
# beyond it; a sheet's shadow is wider and paler.
_LINED_MOST: Share = 0.4
_LINE: Share = 0.6
_LINE_PX = (-3, -2, -1, 0, 1, 2)
_BESIDE_PX = -8
# A wall goes on in line with a side beyond its corner: brightness differs by so much across the
# line, so near to it, along this share of a stretch between these shares of the side.
_GOES_ON: Share = 0.6
_STRETCH: tuple[Share, Share] = (0.04, 0.2)
_STEP = 10.0
_NEAR_PX = 4
_FEWEST = 6


@frozen(kw_only=True, eq=False)
class Side:
    """One side of a sheet, clockwise.

    Parameters
    ----------
    along : float, shape (N, 2)
        Places along it.
    inward : float, shape (2,)
        Of length 1, into the sheet.
    """

    along: Places
    inward: Floats
    length: float

    def beside(self, depth_px: float) -> Places:
        """Return the places so far within the sheet, or outside it when below 0."""
        return np.asarray(self.along + depth_px * self.inward)


def sides_of(corners: Places) -> Iterator[Side]:
    """Yield the sides between corners that run clockwise, shape (4, 2)."""
    shares = np.linspace(_ENDS, 1 - _ENDS, _PLACES)[:, None]
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        length = float(np.linalg.norm(end - start))
        inward = np.array([start[1] - end[1], end[0] - start[0]]) / length
        yield Side(along=start + shares * (end - start), inward=inward, length=length)


def is_paper(white: Pixels, bare: Pixels, corners: Places) -> bool:
    """Tell whether a sheet lies within four corners: bright all over, alone, with bare edges.

    Parameters
    ----------
    white, bare : uint8, shape (H, W)
        The picture with its ink and without.
    """
    sides = tuple(sides_of(corners))
    within = np.zeros(white.shape, np.uint8)
    cv2.fillConvexPoly(within, np.rint(corners).astype(np.int32), 1)
    border = float(np.median([sampled(bare, side.beside(_PAPER_PX)) for side in sides]))
    inner = float(np.median(bare[within > 0]))
    if not _LIT_LEAST * border <= inner <= border / _LIT_LEAST:
        return False
    if max(_bright_beyond(bare, side) for side in sides) > _BRIGHT_MOST:
        return False
    if any(_goes_on(bare, *end) for end in _ends(corners)):
        return False
    return _lined(white, sides) < _LINED_MOST


def _bright_beyond(bare: Pixels, side: Side) -> Share:
    """Return which share of what lies beyond a side is about as bright as the paper beside it."""
    tall, wide = bare.shape
    beyond = np.array([side.beside(-away) for away in _BEYOND_PX])
    seen = ((beyond >= 0) & (beyond < (wide, tall))).all(axis=2)
    bright = sampled(bare, beyond) > _BRIGHT * sampled(bare, side.beside(_PAPER_PX))
    return float(np.mean(bright[seen])) if seen.any() else 0.0


def _ends(corners: Places) -> Iterator[tuple[Floats, Floats, Floats]]:
    """Yield each end of each side: its corner, the side as a vector towards it, the way inward."""
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        inward = np.array([start[1] - end[1], end[0] - start[0]]) / np.linalg.norm(end - start)
        yield end, end - start, inward
        yield start, start - end, inward


def _goes_on(bare: Pixels, corner: Floats, side: Floats, inward: Floats) -> bool:
    """Tell whether an edge goes on beyond the corner where a side ends; none of a sheet does."""
    tall, wide = bare.shape
    places = corner + np.linspace(*_STRETCH, _PLACES // 2)[:, None] * side
    seen = ((places >= _NEAR_PX) & (places < np.array([wide, tall]) - _NEAR_PX)).all(axis=1)
    if np.count_nonzero(seen) < _FEWEST:
        return False
    within, without = (
        sampled(bare, places[seen] + away * inward) for away in (_NEAR_PX, -_NEAR_PX)
    )
    return bool(np.mean(within - without > _STEP) > _GOES_ON)


def _lined(white: Pixels, sides: tuple[Side, ...]) -> Share:
    """Return along which share of the sides a line is drawn."""
    shares = []
    for side in sides:
        darkest = np.min([sampled(white, side.beside(depth)) for depth in _LINE_PX], axis=0)
        shares.append(np.mean(darkest < _LINE * sampled(white, side.beside(_BESIDE_PX))))
    return float(np.mean(shares))
