"""Room uses: what a room of a kind usually is like, for all that nobody said."""

from attrs import frozen

from estimator.measures import Metres, PerSquareMetre, Ratio, SquareMetres, checked


@frozen(kw_only=True, field_transformer=checked)
class Content:
    """How many pieces of a kind of furniture usually stand in a room.

    Parameters
    ----------
    per_room, per_area
        So many in every room, and so many more for its floor area; the sum is rounded.
    """

    kind: str
    per_room: Ratio = 0.0
    per_area: PerSquareMetre = 0.0


@frozen(kw_only=True, field_transformer=checked)
class TouchPoint:
    """Small things that many hands touch: handles, switches, taps.

    Parameters
    ----------
    per_room, per_area, per_door
        So many in every room, and so many more for its floor area and for every door.
    area
        Surface of one.
    """

    slug: str
    label: str
    per_room: Ratio = 0.0
    per_area: PerSquareMetre = 0.0
    per_door: Ratio = 0.0
    area: SquareMetres


@frozen(kw_only=True, field_transformer=checked, cache_hash=True)
class RoomUse:
    """A use of rooms, as the book states it.

    Parameters
    ----------
    words
        Everyday names, plurals included, in lower case.
    ceiling_height
        Taken where nobody gave a height.
    zone
        Slug of the strength zone its surfaces are treated in.
    contents
        What usually stands in it, taken where nobody placed or excluded furniture; the first
        matter most and are taken first while there is floor left.
    outdoors
        Whether it lies in the open air, where nothing is treated.
    width, depth
        What such a room usually measures, taken where nobody gave a size; None when they differ too
        much.
    """

    slug: str
    label: str
    words: tuple[str, ...] = ()
    ceiling_height: Metres
    zone: str
    contents: tuple[Content, ...] = ()
    touch_points: tuple[TouchPoint, ...] = ()
    outdoors: bool = False
    width: Metres | None = None
    depth: Metres | None = None
    source: str
    as_of: str
