"""Doubts: what was assumed or read weakly, said so that it can be priced and answered."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import Share, checked


class Aspect(StrEnum):
    """What a doubt is about."""

    SCALE = "scale"
    OUTLINE = "outline"
    HEIGHT = "height"
    USE = "use"
    CONTENTS = "contents"
    OPENINGS = "openings"
    OTHER = "other"


@frozen(kw_only=True, field_transformer=checked)
class Doubt:
    """One thing that is not certain.

    Parameters
    ----------
    aspect
        What it is about.
    room
        Id of the room it concerns; None when it concerns the whole plan.
    says
        One sentence for the client's page: what was assumed or read weakly.
    confidence
        How likely it is that what was assumed holds.
    relative_error
        One standard deviation of the figure concerned (length of the scale, area of the outline,
        height, surface of the contents) as a share of it; 0 when no figure depends on it.
    """

    aspect: Aspect
    room: str | None = None
    says: str
    confidence: Share
    relative_error: Share = 0.0
