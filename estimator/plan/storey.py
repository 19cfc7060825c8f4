"""Storeys: each with the picture it was read from and the scale of that picture."""

from attrs import frozen

from estimator.errors import PlanError
from estimator.measures import MetresPerPixel, Share, checked
from estimator.plan.sheet import Sheet


@frozen(kw_only=True)
class Source:
    """The picture a storey was read from; ``page`` counts from 1."""

    file: str
    page: int = 1
    width_px: int
    height_px: int


@frozen(kw_only=True, field_transformer=checked)
class Scale:
    """How many metres one pixel of the picture stands for, or of its sheet laid flat.

    Parameters
    ----------
    relative_error
        One standard deviation of ``metres_per_px``, as a share of it; lengths err by as much and
        areas by twice as much, all in step.
    basis
        In words, what it was found from: "two points 4.2 m apart".
    """

    metres_per_px: MetresPerPixel
    relative_error: Share
    basis: str

    def __attrs_post_init__(self) -> None:
        if not self.metres_per_px > 0:
            raise PlanError("scale", "it is 0 m per pixel", "give a known length above 0")


@frozen(kw_only=True)
class Storey:
    """One floor level.

    Parameters
    ----------
    number
        Counts upwards from 0 in the order the storeys were given.
    sheet
        How the sheet lies in the picture, where it must be laid flat before anything is measured;
        the scale is that of the flat sheet then. None when the picture is flat and upright.
    """

    number: int = 0
    name: str = ""
    source: Source | None = None
    sheet: Sheet | None = None
    scale: Scale | None = None
