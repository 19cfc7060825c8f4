"""The scope: which surfaces of a room are part of the job."""

from attrs import frozen

from estimator.measures import Metres, checked


@frozen(kw_only=True, field_transformer=checked)
class Scope:
    """What is treated.

    Parameters
    ----------
    walls_to
        Height up to which walls and doors are treated; None for full height.
    """

    floors: bool = True
    walls: bool = True
    walls_to: Metres | None = None
    ceilings: bool = False
    doors: bool = True
    glass: bool = False
    furniture: bool = True
    touch_points: bool = True
