"""Outlines as shapely polygons: made, checked and brought into one form.

Plan coordinates are metres with x to the right and y downwards, as in the picture.
"""

from collections.abc import Iterable, Sequence

import shapely
from shapely.geometry import Polygon

from estimator.errors import PlanError

type_points = Sequence[Sequence[float]]


def polygon(corners: type_points, holes: Iterable[type_points] = ()) -> Polygon:
    """Return a polygon from its corners; the first need not be repeated at the end."""
    return Polygon(corners, list(holes))


def rectangle(width: float, depth: float, *, left: float = 0.0, top: float = 0.0) -> Polygon:
    """Return an upright rectangle with its corner nearest the origin at (left, top)."""
    return shapely.box(left, top, left + width, top + depth)


def normalised(outline: Polygon | None) -> Polygon | None:
    """Return the polygon with its vertices in one order whatever vertex it began with.

    Raises
    ------
    PlanError
        When the outline crosses itself, is empty or encloses nothing.
    """
    if outline is None:
        return None
    if not isinstance(outline, Polygon) or outline.is_empty:
        raise PlanError("outline", "it has no corners", "give at least three corners")
    if not shapely.is_valid(outline):
        reason = shapely.is_valid_reason(outline).split("[")[0].lower()
        raise PlanError(
            "outline", f"it is not a simple shape ({reason})", "draw it without crossing itself"
        )
    if not outline.area > 0:
        raise PlanError("outline", "it encloses no area", "give at least three corners")
    return shapely.normalize(outline)


def scaled(outline: Polygon, factor: float) -> Polygon:
    """Return the outline with every coordinate multiplied by the factor."""
    return shapely.transform(outline, lambda points: points * factor)
