"""Straight edges between bright paper and what it lies on."""

import math

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Floats, Pixels, Places

# Ink up to this thick is taken off the paper before its edges are looked for, in pixels of the
# small picture; a desk is wider.
_INK_PX = 9
# Parts of one edge lie within so many pixels of its line and within this angle, in radians.
_OFF_LINE_PX = 3.0
_OFF_ANGLE = 0.05
# An edge shorter than this share of the picture's longer side is none of a sheet.
_SHORTEST = 0.08
# No more edges than this are combined, the longest first.
_MOST = 16


@frozen(kw_only=True, eq=False)
class Edge:
    """An endless line with the paper on its left, looking along it.

    Parameters
    ----------
    normal : float, shape (2,)
        Of length 1, from the line into the paper.
    offset
        ``normal @ place == offset`` on the line.
    length_px
        How much of it was seen.
    """

    normal: Floats
    offset: float
    length_px: float


def whiteness(pixels: Pixels) -> Pixels:
    """Return how white each pixel is, shape (H, W): coloured and dark ones are not."""
    red, green, blue = cv2.split(pixels)
    return np.asarray(cv2.min(cv2.min(red, green), blue), np.uint8)


def without_ink(white: Pixels) -> Pixels:
    """Return the picture with thin dark marks taken off."""
    kernel = np.ones((_INK_PX, _INK_PX), np.uint8)
    return np.asarray(cv2.morphologyEx(white, cv2.MORPH_CLOSE, kernel), np.uint8)


def edges_in(bare: Pixels) -> list[Edge]:
    """Return the longest straight edges of a picture without ink."""
    found, *_ = cv2.createLineSegmentDetector(cv2.LSD_REFINE_NONE).detect(bare)
    if found is None:
        return []
    starts, ends = np.split(found.reshape(-1, 4).astype(np.float64), 2, axis=1)
    lengths = np.linalg.norm(ends - starts, axis=1)
    edges: list[Edge] = []
    free = np.ones(len(lengths), bool)
    ways = _ways_into_bright(bare, starts, ends)
    for longest in np.argsort(-lengths):
        if not free[longest] or len(edges) == _MOST:
            continue
        normal = ways[longest]
        offset = float(normal @ (starts[longest] + ends[longest]) / 2)
        near = (np.abs(starts @ normal - offset) < _OFF_LINE_PX) & (
            np.abs(ends @ normal - offset) < _OFF_LINE_PX
        )
        alike = free & near & (ways @ normal > math.cos(_OFF_ANGLE))
        alike[longest] = True
        free &= ~alike
        length = float(lengths[alike].sum())
        if length >= _SHORTEST * max(bare.shape):
            ends_of = np.concatenate([starts[alike], ends[alike]])
            edges.append(edge_through(ends_of, normal, length))
    return edges


def _ways_into_bright(bare: Pixels, starts: Places, ends: Places) -> Places:
    """Return the normal of each segment that points to its bright side."""
    along = (ends - starts) / np.maximum(np.linalg.norm(ends - starts, axis=1), 1e-9)[:, None]
    normals = np.stack([-along[:, 1], along[:, 0]], axis=1)
    middles = (starts + ends) / 2
    brighter = sampled(bare, middles + 3 * normals) >= sampled(bare, middles - 3 * normals)
    return np.where(brighter[:, None], normals, -normals)


def edge_through(places: Places, inward: Floats, length_px: float) -> Edge:
    """Return the edge that most places, shape (N, 2), lie on, with the paper on its inner side."""
    across, down, *at = (
        cv2.fitLine(places.astype(np.float32), cv2.DIST_HUBER, 0, 0.01, 0.01).ravel().tolist()
    )
    normal = np.array([-down, across])
    normal = normal if normal @ inward > 0 else -normal
    return Edge(normal=normal, offset=float(normal @ np.array(at)), length_px=length_px)


def sampled(pixels: Pixels, places: Places) -> Floats:
    """Return the brightness at places, shape (N, 2); outside the picture that of its edge."""
    tall, wide = pixels.shape
    columns = np.clip(np.floor(places[..., 0]), 0, wide - 1).astype(int)
    rows = np.clip(np.floor(places[..., 1]), 0, tall - 1).astype(int)
    return np.asarray(pixels[rows, columns], np.float64)
