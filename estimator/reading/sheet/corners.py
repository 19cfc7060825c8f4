"""The four corners of a sheet of paper in a photo."""

from collections.abc import Iterator
from itertools import combinations

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Floats, Pixels, Places
from estimator.reading.sheet.bordering import Side, is_paper, sides_of
from estimator.reading.sheet.edges import (
    Edge,
    edge_through,
    edges_in,
    sampled,
    whiteness,
    without_ink,
)

# The longer side of the picture in which the sheet is looked for, and then measured.
LOOKED_AT_PX = 480
MEASURED_AT_PX = 1500
# A sheet covers at least this share of the photo, and its corners lie within or about as far out.
_AREA_LEAST = 0.15
_OUTSIDE_MOST = 0.02
# Its corners are no more pointed than this, as cosines.
_POINTED = 0.75
# Paper and what it lies on are looked at so many pixels to either side of its edge.
_REACH_PX = 4
_BEYOND_PX = 14
# The sides are measured within so many pixels of where they were found in the small picture.
_NEAR_PX = 4.0
# Paper is brighter than what it lies on by so much, along this share of each side.
_CONTRAST = 10.0
_SIDE_LEAST = 0.8


@frozen(kw_only=True, eq=False)
class _Quad:
    corners: Places
    support: float


def sheet_corners(pixels: Pixels) -> Places | None:
    """Return the corners of the sheet a photo shows, clockwise from the upper left, (4, 2).

    None when no bright sheet with four straight sides lies on something darker.
    """
    white, zoom = _sized(pixels, MEASURED_AT_PX)
    small, smaller = _sized(white, LOOKED_AT_PX)
    bare = without_ink(whiteness(small))
    best = max(_quads(bare, edges_in(bare)), key=lambda quad: quad.support, default=None)
    if best is None or not is_paper(whiteness(small), bare, best.corners):
        return None
    measured = _measured(without_ink(whiteness(white)), best.corners / smaller, _NEAR_PX / smaller)
    return measured / zoom


def _sized(pixels: Pixels, longest: int) -> tuple[Pixels, float]:
    """Return the picture no larger than that, and how many of its pixels make one of those."""
    zoom = min(1.0, longest / max(pixels.shape))
    if zoom == 1:
        return pixels, zoom
    sized = cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)
    return np.asarray(sized, np.uint8), zoom


def _quads(bare: Pixels, edges: list[Edge]) -> Iterator[_Quad]:
    """Yield what four edges enclose, where the paper is within."""
    facing = [
        (one, other) for one, other in combinations(edges, 2) if one.normal @ other.normal < -0.5
    ]
    for first, second in combinations(facing, 2):
        corners = _enclosed(first, second, bare.shape)
        if corners is not None:
            support = _support(bare, corners)
            if support is not None:
                yield _Quad(corners=corners, support=support)


def _enclosed(
    first: tuple[Edge, Edge], second: tuple[Edge, Edge], shape: tuple[int, ...]
) -> Places | None:
    """Return the corners of a sheet between two pairs of facing edges, None when there is none."""
    if any(abs(one.normal @ other.normal) > _POINTED for one in first for other in second):
        return None
    places = [_meeting(first[at], second[to]) for at, to in ((0, 0), (0, 1), (1, 1), (1, 0))]
    corners = np.array(places, np.float64)
    tall, wide = shape
    out = _OUTSIDE_MOST * max(shape)
    if (corners < -out).any() or (corners > np.array([wide, tall]) + out).any():
        return None
    if not all((corners @ edge.normal - edge.offset > -1e-6).all() for edge in (*first, *second)):
        return None
    area = cv2.contourArea(corners.astype(np.float32))
    if area < _AREA_LEAST * tall * wide:
        return None
    return _clockwise(corners)


def _meeting(one: Edge, other: Edge) -> Floats:
    normals, offsets = np.stack([one.normal, other.normal]), np.array([one.offset, other.offset])
    return np.asarray(np.linalg.solve(normals, offsets))


def _clockwise(corners: Places) -> Places:
    """Return corners clockwise as seen, the upper left one first."""
    middle = corners.mean(axis=0)
    around = corners[np.argsort(np.arctan2(*(corners - middle).T[::-1]))]
    return np.roll(around, -int(np.argmin(around.sum(axis=1))), axis=0)


def _support(bare: Pixels, corners: Places) -> float | None:
    """Return along how much of its sides paper ends, in pixels; None where one shows too little."""
    total = 0.0
    for side in sides_of(corners):
        inside = sampled(bare, side.beside(_REACH_PX))
        outside = np.maximum(
            sampled(bare, side.beside(-_REACH_PX)), sampled(bare, side.beside(-_BEYOND_PX))
        )
        seen = float(np.mean(inside - outside > _CONTRAST))
        if seen < _SIDE_LEAST:
            return None
        total += seen * side.length
    return total


def _measured(white: Pixels, corners: Places, near_px: float) -> Places:
    """Return corners moved to where the brightness changes most across each side."""
    soft = np.asarray(cv2.GaussianBlur(white, (0, 0), max(1.0, near_px / 8)), np.uint8)
    sides = [
        _measured_side(np.asarray(soft, np.uint8), side, near_px) for side in sides_of(corners)
    ]
    return np.array([_meeting(sides[at - 1], sides[at]) for at in range(4)])


def _measured_side(soft: Pixels, side: Side, near_px: float) -> Edge:
    steps = np.arange(-near_px, near_px + 1)
    across = np.stack([side.beside(step) for step in steps], axis=1)
    rises = np.diff(sampled(soft, across), axis=1)
    steepest = rises.argmax(axis=1)
    rows = np.flatnonzero(rises.max(axis=1) > 0)
    places = (across[rows, steepest[rows]] + across[rows, steepest[rows] + 1]) / 2
    found = places if len(places) > 1 else side.beside(0)
    return edge_through(found, side.inward, side.length)
