"""Kinds of furniture and fixtures, as solids on a usual footprint."""

from functools import lru_cache

from attrs import Factory, field, frozen

from estimator.measures import Metres, SquareMetres, checked
from estimator.surfaces.schedule import Lie
from estimator.surfaces.solids import Box, Faces, Footprint, Slab, Solid


@frozen(kw_only=True, field_transformer=checked, cache_hash=True)
class FurnitureKind:
    """A kind of furniture or fixture, as the book states it.

    Parameters
    ----------
    words
        Everyday names, plurals included, in lower case.
    length, depth, height
        Usual size: along the wall behind it, out from that wall, and up to its highest point.
    lie
        Fabric or intricate where every face takes liquid like that; None where tops, sides and
        undersides each take it as they lie.
    against_wall
        Whether it usually stands or hangs against a wall, which hides its back and the wall there.
    food_contact
        Whether food touches its tops, so that they are wiped and rinsed after treatment.
    zone
        Slug of the strength zone it is treated in; None for that of the room.
    touch
        Surface of the handles, pulls and buttons of one piece.
    family
        What a drawing shows this and kinds like it as; a kind that is its own family stands for
        any of them, and is taken for the one that usually stands in a room of the use.
    fixed
        Whether it is built in, and drawn on plans that show no loose furniture.
    footprint
        The rectangle of the usual size.
    """

    slug: str
    label: str
    words: tuple[str, ...] = ()
    length: Metres
    depth: Metres
    height: Metres
    solids: tuple[Solid, ...]
    lie: Lie | None = None
    against_wall: bool = False
    food_contact: bool = False
    zone: str | None = None
    touch: SquareMetres = 0.0
    family: str | None = None
    fixed: bool = False
    source: str
    as_of: str
    footprint: Footprint = field(
        init=False,
        eq=False,
        repr=False,
        default=Factory(lambda self: Footprint.rectangle(self.length, self.depth), takes_self=True),
    )


@lru_cache(maxsize=4096)
def faces(kind: FurnitureKind, footprint: Footprint) -> Faces:
    """Return the faces of one piece of a kind on a footprint."""
    return sum((solid.faces(footprint) for solid in kind.solids), Faces())


@lru_cache(maxsize=4096)
def hides_wall_below(kind: FurnitureKind, level: Metres) -> Metres:
    """Return the area of wall hidden below a level, for each metre of wall a kind stands along.

    Boxes and boards hide the wall behind them; legs, shelves and sheets do not.
    """
    return sum(
        solid.length * max(0.0, min(solid.top, level) - solid.base)
        for solid in kind.solids
        if isinstance(solid, Box | Slab)
    )
