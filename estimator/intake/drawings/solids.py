"""Footprint and height of a solid given as triangles."""

from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import Polygon

from estimator.measures import Metres

Corner = tuple[float, float, float]
Triangle = tuple[int, int, int]

_LEVEL = 1e-3  # metres; corners nearer in height lie on one plane
_GRID = 1e-6
_FLAT_SHARE = 0.98  # of the footprint under a level ceiling


def footprint(corners: Sequence[Corner], triangles: Sequence[Triangle]) -> Polygon | None:
    """Return the outline of a solid's level underside, or else of its shadow; its largest part.

    >>> block = [(x, y, z) for z in (0, 2) for x, y in ((0, 0), (3, 0), (3, 4), (0, 4))]
    >>> footprint(block, [(0, 1, 2), (0, 2, 3), (4, 5, 6), (4, 6, 7)]).area
    12.0
    """
    points = np.array(corners, float)
    faces = points[np.array(triangles, int)]
    lowest = points[:, 2].min()
    level = faces[(faces[:, :, 2] <= lowest + _LEVEL).all(axis=1)]
    for chosen in (level, faces):
        shadow = shapely.union_all(
            [part for part in shapely.polygons(chosen[:, :, :2]) if part.area > 0],
            grid_size=_GRID,
        )
        parts = [part for part in shapely.get_parts(shadow).tolist() if isinstance(part, Polygon)]
        if parts:
            outline = max(parts, key=lambda part: part.area).simplify(_GRID)
            return outline if isinstance(outline, Polygon) else None
    return None


def height_of(
    corners: Sequence[Corner], triangles: Sequence[Triangle], outline: Polygon
) -> tuple[Metres, bool]:
    """Return the height of a solid over its outline, and whether its top is level.

    The height under a top that is not level is the mean one, volume ÷ footprint, where the volume
    is the sum of the signed tetrahedra between the triangles and a point [Zhang and Chen 2001].
    """
    points = np.array(corners, float)
    faces = points[np.array(triangles, int)]
    lowest, highest = points[:, 2].min(), points[:, 2].max()
    top = faces[(faces[:, :, 2] >= highest - _LEVEL).all(axis=1)]
    if sum(part.area for part in shapely.polygons(top[:, :, :2])) >= _FLAT_SHARE * outline.area:
        return float(highest - lowest), True
    apex = faces - points.mean(axis=0)
    volume = abs(np.einsum("ij,ij->i", apex[:, 0], np.cross(apex[:, 1], apex[:, 2])).sum()) / 6
    return float(volume / outline.area), False
