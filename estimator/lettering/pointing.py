"""Labels outside their rooms, given to the rooms they mean.

A label means the unnamed room that its leader ends in or points at; else the only unnamed room
nearby of its printed size; else, when it stands on the paper beside the building, the unnamed room
behind the wall there.
"""

from collections.abc import Iterator

import numpy as np
import shapely
from attrs import frozen
from shapely.geometry import Point, Polygon, box

from estimator.lettering.leaders import Leader, Strokes, leader, strokes_of, within
from estimator.lettering.naming import Placed
from estimator.lettering.size_cuts import misfit
from estimator.lettering.tags import Tag, tags_of
from estimator.lettering.vocabulary import ANY, OUTDOORS
from estimator.measures import MetresPerPixel, Share
from estimator.plan.plan import Plan
from estimator.reading.arrays import Mask
from estimator.reading.picture import Picture

SURE_BY_LEADER: Share = 0.9
SURE_BY_SIZE: Share = 0.85
SURE_BY_PLACE: Share = 0.6
# In heights of letters: how far off a room of a printed size may be, and one beside a label.
_FAR = 15.0
_BESIDE = 4.0
# A room fits a printed size within this; no other room may within the second.
_FITS: Share = 0.06
_NEARLY_FITS: Share = 0.12
# A named room is farther from a label than the unnamed one it is given to by this.
_FARTHER = 1.3
# In heights of letters, what lies so near to the rooms is their walls.
_WALLS = 1.0
# A label beside the building sees no room on this many of its four sides.
_FREE_SIDES = 3
_OPEN_PAPER = 12.0  # in heights of letters: how far it looks


@frozen(kw_only=True)
class Pointed:
    """A tag given to a room that it does not stand in, and how sure that is."""

    room: str
    tag: Tag
    sure: Share


def pointed(
    plan: Plan, found: Placed, picture: Picture, metres_per_px: MetresPerPixel | None
) -> tuple[Pointed, ...]:
    """Return the tags that mean an unnamed room they do not stand in, each room once."""
    outlines = {room.id: room.outline_px for room in plan.rooms if room.outline_px is not None}
    free = {
        room_id: outline
        for room_id, outline in outlines.items()
        if not any(tag.use or tag.floor for tag in tags_of(found.in_rooms.get(room_id, ())))
    }
    strays = [*_strays(outlines, found)]
    if not free or not strays:
        return ()
    lettering = [*found.elsewhere, *(label for own in found.in_rooms.values() for label in own)]
    strokes = strokes_of(picture.pixels, (label.line.box_px for label in lettering))
    given = []
    for tag, standing_in in strays:
        line = leader(_ground(strokes, outlines, standing_in, tag), tag.box_px, tag.letter_px)
        meant = _by_leader(line, outlines, standing_in) if line else None
        if meant is None and standing_in is None:
            meant = _by_size(tag, free, metres_per_px) or _by_place(tag, outlines, strokes.walls)
        if meant is not None and meant[0] in free:
            given.append(Pointed(room=meant[0], tag=tag, sure=meant[1]))
            del free[meant[0]]
    return tuple(given)


Outlines = dict[str, Polygon]
Meant = tuple[str, Share]
"""A room's id, and how sure it is meant."""


def _strays(outlines: Outlines, found: Placed) -> Iterator[tuple[Tag, str | None]]:
    """Yield tags that may mean a room they do not stand in, with that in which they stand."""
    for tag in tags_of(found.elsewhere):
        if tag.use not in (None, ANY):
            yield tag, None
    for room_id in outlines:
        tags = [tag for tag in tags_of(found.in_rooms.get(room_id, ())) if tag.use]
        if len(tags) > 1:
            yield from ((tag, room_id) for tag in tags if tag.use != ANY)


def _ground(strokes: Strokes, outlines: Outlines, standing_in: str | None, tag: Tag) -> Mask:
    """Return the ink among which a leader of a tag may run: on the paper, or in its room."""
    if standing_in is not None:
        return within(strokes.thin, [outlines[standing_in]])
    walls = _WALLS * tag.letter_px
    building = within(strokes.thin, [outline.buffer(walls) for outline in outlines.values()])
    return np.asarray(strokes.thin & ~building, dtype=np.bool_)


def _by_leader(line: Leader, outlines: Outlines, standing_in: str | None) -> Meant | None:
    """Return the first other room along the course of a leader."""
    end = Point(line.end)
    met = [
        (end.distance(outline.intersection(line.course)), room_id)
        for room_id, outline in outlines.items()
        if room_id != standing_in and outline.intersects(line.course)
    ]
    return (min(met)[1], SURE_BY_LEADER) if met else None


def _by_size(tag: Tag, free: Outlines, metres_per_px: MetresPerPixel | None) -> Meant | None:
    """Return the only unnamed room nearby that a printed size fits."""
    if metres_per_px is None or not tag.floor:
        return None
    label = box(*tag.box_px)
    off = sorted(
        (misfit(outline, tag, metres_per_px), room_id)
        for room_id, outline in free.items()
        if outline.distance(label) <= _FAR * tag.letter_px
    )
    is_only = len(off) == 1 or (len(off) > 1 and off[1][0] > _NEARLY_FITS)
    return (off[0][1], SURE_BY_SIZE) if is_only and off[0][0] <= _FITS else None


def _by_place(tag: Tag, outlines: Outlines, walls: Mask) -> Meant | None:
    """Return the room behind the wall that a label stands at, outside the building."""
    if tag.use == OUTDOORS or _free_sides(tag, outlines, walls) < _FREE_SIDES:
        return None
    label = box(*tag.box_px)
    near = sorted((outline.distance(label), room_id) for room_id, outline in outlines.items())
    if near[0][0] > _BESIDE * tag.letter_px:
        return None
    if len(near) > 1 and near[1][0] < _FARTHER * near[0][0]:
        return None
    return near[0][1], SURE_BY_PLACE


def _free_sides(tag: Tag, outlines: Outlines, walls: Mask) -> int:
    """Return on how many of its four sides a label has neither rooms nor walls."""
    (left, top, right, bottom), far = tag.box_px, _OPEN_PAPER * tag.letter_px
    sides = (
        (left, top - far, right, top),
        (left, bottom, right, bottom + far),
        (left - far, top, left, bottom),
        (right, top, right + far, bottom),
    )
    rooms = shapely.union_all(list(outlines.values()))
    return sum(
        not rooms.intersects(box(*side))
        and not walls[
            max(0, int(side[1])) : max(0, int(side[3])), max(0, int(side[0])) : max(0, int(side[2]))
        ].any()
        for side in sides
    )
