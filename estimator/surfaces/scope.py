"""The scope: which surfaces of a room are part of the job."""

from attrs import frozen

from estimator.measures import Metres, checked

PARTS = {
    "floors": "floors",
    "walls": "walls",
    "ceilings": "ceilings",
    "doors": "doors",
    "glass": "glass",
    "reveals": "reveals",
    "furniture": "furniture",
    "undersides": "undersides of furniture",
    "touch_points": "touch points",
}
"""What the parts of a scope are called, by their fields."""


@frozen(kw_only=True, field_transformer=checked, cache_hash=True)
class Scope:
    """What is treated.

    Parameters
    ----------
    walls_to
        Height up to which walls, doors and glass are treated; None for full height.
    reveals
        The sides of the gaps that doors and windows sit in.
    undersides
        Undersides of furniture, which a mist from above and around does not reach.
    """

    floors: bool = True
    walls: bool = True
    walls_to: Metres | None = None
    ceilings: bool = False
    doors: bool = True
    glass: bool = False
    reveals: bool = True
    furniture: bool = True
    undersides: bool = False
    touch_points: bool = True


NOTHING = Scope(
    floors=False, walls=False, doors=False, reveals=False, furniture=False, touch_points=False
)
"""No surface at all, as outdoors."""
