"""Furniture and fixtures standing in a room."""

from attrs import field, frozen
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.measures import Share, checked
from estimator.plan.geometry import normalised


@frozen(kw_only=True, field_transformer=checked)
class Furnishing:
    """So many pieces of one kind of furniture.

    Parameters
    ----------
    kind
        Slug of a kind of furniture in the book, such as ``desk``.
    count
        How many there are; a drawn footprint stands for one.
    footprint
        Outline on the floor in metres; None when only the number is known, and the book's usual
        size is taken.
    footprint_px
        The same in pixels of the picture; None when there is no picture.
    """

    kind: str
    count: int = 1
    footprint: Polygon | None = field(default=None, converter=normalised)
    footprint_px: Polygon | None = field(default=None, converter=normalised)
    confidence: Share = 1.0

    def __attrs_post_init__(self) -> None:
        if self.count < 1:
            raise PlanError(
                self.kind, f"there are {self.count} of it", "give a count of at least 1"
            )
