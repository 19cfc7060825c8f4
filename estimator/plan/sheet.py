"""How a sheet of paper lies in a picture, and its places laid flat and upright."""

import math
from typing import Any

import numpy as np
from attrs import field, frozen
from numpy.typing import NDArray

from estimator.errors import PlanError
from estimator.plan.opening import Point

Places = NDArray[np.float64]
Matrix = tuple[float, ...]


def _matrix(rows: Any) -> Matrix:
    return tuple(float(part) for part in np.ravel(rows))


@frozen(kw_only=True)
class Sheet:
    """The sheet that a picture shows from aside, or turned by a quarter.

    Parameters
    ----------
    from_picture
        Projective map from pixels of the picture to those of the sheet laid flat and upright:
        nine numbers, row by row.
    width_px, height_px
        Size of the sheet laid flat.
    """

    from_picture: Matrix = field(converter=_matrix)
    width_px: int
    height_px: int

    def __attrs_post_init__(self) -> None:
        parts = self.from_picture
        if len(parts) != 9 or not all(map(math.isfinite, parts)) or not np.linalg.det(self.map):
            raise PlanError("sheet", "its place in the picture is unusable", "read the plan again")

    @property
    def map(self) -> Places:
        """The projective map from the picture, shape (3, 3)."""
        return np.array(self.from_picture).reshape(3, 3)

    def flat(self, places: Places) -> Places:
        """Return places of the picture, shape (N, 2), on the sheet laid flat."""
        return mapped(self.map, places)

    def flat_point(self, point: Point) -> Point:
        """Return one place of the picture on the sheet laid flat."""
        ((x, y),) = self.flat(np.array([point])).tolist()
        return x, y

    def in_picture(self, places: Places) -> Places:
        """Return places of the sheet laid flat, shape (N, 2), in the picture."""
        return mapped(np.linalg.inv(self.map), places)


def turned(sheet: Sheet, quarters: int) -> Sheet:
    """Return the sheet laid flat so many quarters further anticlockwise.

    >>> lying = Sheet(from_picture=np.eye(3), width_px=40, height_px=30)
    >>> turned(lying, 1).flat_point((40, 0)), turned(lying, 1).width_px
    ((0.0, 0.0), 30)
    """
    for _ in range(quarters % 4):
        quarter = np.array([[0, 1, 0], [-1, 0, sheet.width_px], [0, 0, 1]])
        sheet = Sheet(
            from_picture=quarter @ sheet.map, width_px=sheet.height_px, height_px=sheet.width_px
        )
    return sheet


def mapped(matrix: NDArray[np.floating[Any]], places: Places) -> Places:
    """Return places, shape (N, 2), carried along by a projective map, shape (3, 3).

    >>> mapped(np.array([[2, 0, 1], [0, 2, 0], [0, 0, 1]]), np.array([[3.0, 4.0]])).tolist()
    [[7.0, 8.0]]
    """
    ends = np.asarray(places, np.float64) @ matrix[:, :2].T + matrix[:, 2]
    return np.asarray(ends[:, :2] / ends[:, 2:])
