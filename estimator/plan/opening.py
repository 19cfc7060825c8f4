"""Doors, windows and passages in the walls of a room."""

import math
from enum import StrEnum

from attrs import frozen

from estimator.errors import PlanError
from estimator.measures import Metres, Share, checked

Point = tuple[float, float]


class OpeningKind(StrEnum):
    """What fills the gap in the wall."""

    DOOR = "door"
    WINDOW = "window"
    PASSAGE = "passage"


class Hinge(StrEnum):
    """The jamb that a door's leaf hangs at; both for two leaves."""

    START = "start"
    END = "end"
    BOTH = "both"


@frozen(kw_only=True, field_transformer=checked)
class Opening:
    """A gap in one room's wall, from start to end along it.

    Parameters
    ----------
    start, end
        The two jambs on the room's outline in metres; None while the plan has no scale.
    start_px, end_px
        The same in pixels of the picture; None when there is no picture.
    height
        From sill to head; None when nobody said.
    sill
        Height of its lower edge above the floor; None when nobody said.
    leads_to
        Id of the room on the other side; None when it leads outside or nobody knows.
    opens_in
        Whether a door swings into this room and not out of it; None when nobody knows.
    hinge
        Where a door that swings hangs; None when nobody knows.
    """

    id: str
    kind: OpeningKind
    start: Point | None = None
    end: Point | None = None
    start_px: Point | None = None
    end_px: Point | None = None
    height: Metres | None = None
    sill: Metres | None = None
    leads_to: str | None = None
    opens_in: bool | None = None
    hinge: Hinge | None = None
    confidence: Share = 1.0

    def __attrs_post_init__(self) -> None:
        ends = (self.start, self.end, self.start_px, self.end_px)
        if any(not math.isfinite(part) for end in ends if end for part in end):
            raise PlanError(self.id, "the opening has no place", "give its two ends on the wall")
        if (self.start is None) != (self.end is None) or (self.start_px is None) != (
            self.end_px is None
        ):
            raise PlanError(self.id, "the opening has one end", "give its two ends on the wall")
        if self.height == 0:
            raise PlanError(self.id, "the opening's height is 0 m", "give a height above 0")

    @property
    def width(self) -> Metres | None:
        """Distance between the jambs."""
        return math.dist(self.start, self.end) if self.start and self.end else None
