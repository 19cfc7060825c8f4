"""Rooms: an outline, a height, a use, and what is in and on the walls."""

import math
from enum import StrEnum

from attrs import field, frozen
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.measures import Metres, Share, checked
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import normalised
from estimator.plan.opening import Opening


class Basis(StrEnum):
    """How a figure came to be known."""

    MEASURED = "measured"
    READ = "read"
    ASSUMED = "assumed"


class Profile(StrEnum):
    """The shape of a ceiling over the room."""

    FLAT = "flat"
    SLOPED = "sloped"
    GABLE = "gable"


@frozen(kw_only=True, field_transformer=checked)
class Ceiling:
    """A ceiling that is not level.

    Parameters
    ----------
    profile
        Sloped rises from one side of the room to the other; gable rises to a ridge over the middle.
    top
        The greatest height; the room's ``ceiling_height`` is the least.
    towards
        The direction of the rise in the plan (of the ridge's cross-section for a gable), in
        degrees from the x axis towards the y axis.
    """

    profile: Profile
    top: Metres
    towards: float = 0.0


@frozen(kw_only=True, field_transformer=checked, cache_hash=True)
class Room:
    """One room of a storey.

    Parameters
    ----------
    id
        Unique in its plan, stable under corrections.
    use
        Slug of a room use in the book, such as ``kitchen``.
    storey
        Number of the storey it lies on.
    outline
        The inside faces of its walls in metres; None while the plan has no scale.
    outline_px
        The same outline in pixels of the picture it was read from; None when there is no picture.
    ceiling_height
        None when nobody said; the book's height for the use is assumed then.
    ceiling
        None for a level ceiling.
    confidence
        How sure it is that the room is there and shaped like this.
    basis
        Whether the outline was measured (typed, drawn to size) or read off a picture.
    empty
        Whether somebody said that nothing stands in it; otherwise a room without furnishings is
        taken to hold what its use usually does.
    """

    id: str
    name: str
    use: str = "room"
    storey: int = 0
    outline: Polygon | None = field(default=None, converter=normalised)
    outline_px: Polygon | None = field(default=None, converter=normalised)
    ceiling_height: Metres | None = None
    ceiling: Ceiling | None = None
    confidence: Share = 1.0
    basis: Basis = Basis.MEASURED
    openings: tuple[Opening, ...] = ()
    furnishings: tuple[Furnishing, ...] = ()
    empty: bool = False

    def __attrs_post_init__(self) -> None:
        where = self.name or self.id
        if self.outline is None and self.outline_px is None:
            raise PlanError(where, "the room has no outline", "draw it or type its sizes")
        if self.ceiling_height is not None and not self.ceiling_height > 0:
            raise PlanError(where, "its ceiling height is 0 m", "give a height above 0")
        if self.ceiling is not None and not math.isfinite(self.ceiling.towards):
            raise PlanError(where, "its ceiling has no direction", "give an angle in degrees")
        if self.ceiling and self.ceiling_height and self.ceiling.top < self.ceiling_height:
            raise PlanError(
                where, "the top of its ceiling is below its least height", "give the lesser first"
            )
