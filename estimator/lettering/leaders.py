"""Leaders: lines that run from lettering to the room it means."""

import math
from collections.abc import Iterable

import cv2
import numpy as np
from attrs import frozen
from shapely.geometry import LineString, Polygon

from estimator.lettering.line import Box
from estimator.measures import Share
from estimator.plan.opening import Point
from estimator.reading.arrays import Mask, Pixels, Places

# Thin lines are often grey: ink that is darker than the paper by so much, of 255.
_FAINT = 22
# Walls are what is left of the ink by a brush of this share of the picture, in pixels at least.
_BRUSH: Share = 0.006
_LEAST_BRUSH = 5
# In heights of letters: how far from the lettering its frame stands or a leader starts, how far off
# it ends at least, over how much of its end its direction is taken, and how far that leads on.
_START = 1.0
_SHORTEST = 1.3
_END = 1.5
_LEADS_ON = 5.0
# Pixels of ink for every one along: more is a drawing, not a line.
_MOST_INK = 4.0


@frozen(kw_only=True)
class Leader:
    """Where a leader ends and where it points from there."""

    end: Point
    beyond: Point

    @property
    def course(self) -> LineString:
        """The straight line it would go on along."""
        return LineString([self.end, self.beyond])


@frozen(kw_only=True, eq=False)
class Strokes:
    """The ink of a picture but for its letters: thin lines, and walls; each of shape (H, W)."""

    thin: Mask
    walls: Mask


def strokes_of(pixels: Pixels, lettering: Iterable[Box]) -> Strokes:
    """Return the strokes of a picture, its lettering left out."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    ink = (grey < float(np.median(grey)) - _FAINT).astype(np.uint8)
    for left, top, right, bottom in lettering:
        ink[max(0, int(top)) : math.ceil(bottom), max(0, int(left)) : math.ceil(right)] = 0
    brush = max(_LEAST_BRUSH, round(_BRUSH * max(grey.shape)))
    walls = cv2.morphologyEx(ink, cv2.MORPH_OPEN, np.ones((brush, brush), np.uint8))
    ink[cv2.dilate(walls, np.ones((3, 3), np.uint8)) > 0] = 0
    return Strokes(thin=ink > 0, walls=np.asarray(walls) > 0)


def within(ink: Mask, outlines: Iterable[Polygon]) -> Mask:
    """Return the ink that lies inside outlines."""
    mask = np.zeros(ink.shape, np.uint8)
    for outline in outlines:
        cv2.fillPoly(mask, [np.round(np.array(outline.exterior.coords)).astype(np.int32)], 1)
    return np.asarray(ink & (mask > 0), dtype=np.bool_)


def leader(ink: Mask, box: Box, letter_px: float) -> Leader | None:
    """Return the longest leader that starts beside a box of lettering, or at a frame around it.

    Parameters
    ----------
    ink : bool, shape (H, W)
        Thin lines without the lettering.
    """
    joined = cv2.dilate(ink.view(np.uint8), np.ones((3, 3), np.uint8))
    _, pieces = cv2.connectedComponents(joined, connectivity=8)
    rows, columns = np.nonzero(ink)
    away = np.hypot(
        np.maximum(np.maximum(box[0] - columns, columns - box[2]), 0),
        np.maximum(np.maximum(box[1] - rows, rows - box[3]), 0),
    )
    of = pieces[rows, columns]
    best: tuple[float, Leader] | None = None
    for piece in np.unique(of[away <= _START * letter_px]):
        own = of == piece
        length = float(away[own].max())
        drawn = np.count_nonzero(away[own] > _START * letter_px)
        if length < _SHORTEST * letter_px or drawn > _MOST_INK * length:
            continue
        if best is None or length > best[0]:
            last = int(away[own].argmax())
            best = length, _pointing(columns[own], rows[own], last, letter_px)
    return best[1] if best else None


def _pointing(columns: Places, rows: Places, last: int, letter_px: float) -> Leader:
    """Return a leader from its pixels and which of them is its end."""
    x, y = float(columns[last]), float(rows[last])
    near = np.hypot(columns - x, rows - y) <= _END * letter_px
    along = x - float(columns[near].mean()), y - float(rows[near].mean())
    far = _LEADS_ON * letter_px / max(1e-6, math.hypot(*along))
    return Leader(end=(x, y), beyond=(x + far * along[0], y + far * along[1]))
