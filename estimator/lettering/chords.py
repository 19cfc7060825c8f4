"""How wide an outline is along a line across it."""

import shapely
from shapely.geometry import LineString, Polygon


def chord(outline: Polygon, place: float, lies_across: bool) -> float:
    """Return the longest stretch inside an outline along a line across it or down it.

    Parameters
    ----------
    place
        Where the line runs: its y when it lies across, else its x.

    Examples
    --------
    >>> from shapely.geometry import box
    >>> chord(box(0, 0, 4, 3), 1.0, True), chord(box(0, 0, 4, 3), 5.0, False)
    (4.0, 0.0)
    """
    left, top, right, bottom = outline.bounds
    ends = [(left, place), (right, place)] if lies_across else [(place, top), (place, bottom)]
    inside = shapely.get_parts(outline.intersection(LineString(ends)))
    return float(shapely.length(inside).max(initial=0.0))
