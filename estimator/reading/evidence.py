"""What the thin strokes about a gap say it is: a window, a door or just a way through."""

import math

import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.gaps import Gap
from estimator.reading.settings import Settings

Mask = NDArray[np.bool_]
Places = NDArray[np.float64]


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
    at = np.floor(places).astype(np.int64)
    inside = (at >= 0).all(-1) & (at[..., 0] < thin.shape[1]) & (at[..., 1] < thin.shape[0])
    at = np.where(inside[..., None], at, 0)
    return np.asarray(thin[at[..., 1], at[..., 0]] & inside)


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
    steps = np.linspace(0.05, 0.95, max(8, int(width / 2)))
    rows = np.linspace(-0.15, 1.15, max(4, int(1.3 * depth)))
    inside = (
        gap.corners[0] + steps[:, None, None] * width * along + rows[None, :, None] * depth * across
    )
    line = float(_inked(broad, inside).mean(axis=0).max())
    swing = leaf = 0.0
    for jamb, inward in ((0.0, along), (width, -along)):
        for face, outward in (
            (0.0, -across),
            (depth, across),
            (depth / 2, across),
            (depth / 2, -across),
        ):
            pivot = gap.corners[0] + jamb * along + face * across
            spokes = np.cos(_TURN)[:, None] * inward + np.sin(_TURN)[:, None] * outward
            drawn = _inked(thin, pivot + (_RADII * width)[:, None, None] * spokes).mean(axis=1)
            # a swing is a bare line; where the rings inside and outside are inked too, it is clutter
            bare = drawn - 0.5 * np.minimum(1, 2 * np.minimum(drawn[_INNER], drawn[_OUTER]))
            swing = max(swing, float(bare[_TRIED].max()))
            lengths = np.linspace(0.15, 0.9, 16)[:, None] * width
            leaves = pivot + lengths * outward
            leaf = max(leaf, float(_inked(broad, leaves).mean()))
    return Evidence(line=line, swing=swing, leaf=leaf)
