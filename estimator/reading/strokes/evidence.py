"""What the thin strokes about a gap say it is: a window, a door or just a way through."""

import math

import numpy as np
from attrs import frozen

from estimator.reading.arrays import Mask, Places
from estimator.reading.settings import Settings
from estimator.reading.strokes.gaps import Gap


@frozen(kw_only=True)
class Evidence:
    """How far thin ink supports a gap, each from 0 to 1.

    Parameters
    ----------
    line
        Share of the gap's width along which ink runs inside the wall's thickness.
    swing
        Share of the best-fitting quarter circle about a jamb that is drawn.
    leaf
        Share of the best-fitting straight leaf from a jamb that is drawn.
    """

    line: float
    swing: float
    leaf: float

    def is_window(self, settings: Settings) -> bool:
        """Tell whether lines run through the gap from jamb to jamb and no door swings in it."""
        return self.line >= settings.line_share and self.swing < settings.arc_share

    def is_door(self, settings: Settings) -> bool:
        """Tell whether a door swings in the gap."""
        return self.swing >= settings.arc_share

    def supports(self, settings: Settings) -> bool:
        """Tell whether the drawing itself closes the gap."""
        return max(self.line / settings.line_share, self.swing / settings.arc_share) >= 1


def _inked(thin: Mask, places: Places) -> Mask:
    """Look places, shape (..., 2), up in a mask; outside of it there is no ink."""
    tall, wide = thin.shape
    column, row = places[..., 0].astype(np.int32), places[..., 1].astype(np.int32)
    inside = (column >= 0) & (column < wide) & (row >= 0) & (row < tall)
    return np.asarray(thin.take(np.where(inside, row * wide + column, 0)) & inside)


_TURN = np.linspace(0.1, 0.9, 13) * math.pi / 2
_RADII = np.geomspace(0.3, 1.5, 48)
_TRIED = np.flatnonzero(((_RADII > 0.42) & (_RADII < 0.58)) | ((_RADII > 0.8) & (_RADII < 1.15)))
_INNER = np.maximum(np.arange(48) - 7, 0)
_OUTER = np.minimum(np.arange(48) + 7, 47)


def evidence_for(gap: Gap, thin: Mask, broad: Mask) -> Evidence:
    """Weigh the thin strokes in and beside a gap.

    Parameters
    ----------
    thin, broad : bool, shape (H, W)
        Thin ink, and the same made one pixel broader on each side.
    """
    width, depth = gap.width_px, gap.depth_px
    along, across = gap.along, gap.across
    steps = np.linspace(0.05, 0.95, max(8, int(width / 2)))[:, None, None] * width * along
    rows = np.linspace(-0.15, 1.15, max(4, int(1.3 * depth)))[None, :, None] * depth * across
    line = float(_inked(broad, gap.corners[0] + steps + rows).mean(axis=0).max())
    # a door turns about either jamb, on either face or in the middle of the wall, to either side
    jambs = np.array([0.0, width] * 4)
    faces = np.array([0.0, 0.0, depth, depth, depth / 2, depth / 2, depth / 2, depth / 2])
    inward = np.array([1.0, -1.0] * 4)[:, None] * along
    outward = np.array([-1.0, -1.0, 1.0, 1.0, 1.0, 1.0, -1.0, -1.0])[:, None] * across
    pivots = gap.corners[0] + jambs[:, None] * along + faces[:, None] * across
    spokes = (
        np.cos(_TURN)[None, :, None] * inward[:, None]
        + np.sin(_TURN)[None, :, None] * outward[:, None]
    )
    rings = pivots[:, None, None] + width * _RADII[None, :, None, None] * spokes[:, None]
    drawn = _inked(thin, rings).mean(axis=2)
    # a swing is a bare line; where the rings inside and outside are inked too, it is clutter
    bare = drawn - np.minimum(0.5, np.minimum(drawn[:, _INNER], drawn[:, _OUTER]))
    leaves = pivots[:, None] + np.linspace(0.15, 0.9, 16)[None, :, None] * width * outward[:, None]
    return Evidence(
        line=line,
        swing=float(max(0.0, bare[:, _TRIED].max())),
        leaf=float(_inked(broad, leaves).mean(axis=1).max()),
    )
