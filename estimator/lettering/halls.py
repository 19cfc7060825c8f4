"""Halls that a passage parts over their whole width, made one where neither part is named.

A gap as wide as the space on one side of it has no wall there to be a gap in: what looks like a
passage is where a hall turns.
"""

import math
from collections.abc import Iterator
from itertools import combinations

import numpy as np
import shapely
from attrs import evolve
from shapely.geometry import LineString, Point, Polygon

from estimator.errors import PlanError
from estimator.lettering.naming import Placed
from estimator.lettering.tags import tags_of
from estimator.measures import Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import merged
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# A passage leaves beside it no more than this share of its width, or a nib of wall so many times as
# long as thick, in the space so many widths behind it.
_BESIDE: Share = 0.1
_NIB = 2.0
# A part of a hall has at least so many doors.
_DOORS_LEAST = 2
_BEHIND = (0.1, 0.2, 0.3)
_SURE: Share = 0.8
_AREA_ERROR: Share = 0.05
_TOUCHING_PX = 0.5


def halls_joined(plan: Plan, found: Placed) -> Plan:
    """Return the plan with the parts of halls joined, each joining a doubt.

    Only where the sheet names rooms; what it names has a use of its own.
    """
    if not found.in_rooms:
        return plan
    parts = [
        room.id
        for room in plan.rooms
        if not any(tag.use or tag.floor for tag in tags_of(found.in_rooms.get(room.id, ())))
        and sum(opening.kind is OpeningKind.DOOR for opening in room.openings) >= _DOORS_LEAST
    ]
    for one, other in combinations(parts, 2):
        ids = {room.id for room in plan.rooms}
        if not {one, other} <= ids or not _are_open(plan.room(one), plan.room(other)):
            continue
        try:
            plan = joined_by_passage(plan, one, other)
        except PlanError:
            continue
        says = (
            f"{plan.room(one).name} was read as two rooms and joined, as they are open to each "
            "other over their whole width."
        )
        doubt = Doubt(
            aspect=Aspect.OUTLINE,
            room=one,
            says=says,
            confidence=_SURE,
            relative_error=_AREA_ERROR,
        )
        plan = evolve(plan, doubts=(*plan.doubts, doubt))
    return plan


def joined_by_passage(plan: Plan, kept: str, lost: str) -> Plan:
    """Return the plan with two rooms made one, the floor of the passages between them included.

    Raises
    ------
    PlanError
        When they lie apart.
    """
    ends = [
        _line(opening)
        for room_id, beyond in ((kept, lost), (lost, kept))
        for opening in _passages(plan.room(room_id), beyond)
    ]
    room = plan.room(kept)
    if ends and room.outline_px is not None:
        between = shapely.union_all(ends).convex_hull.buffer(_TOUCHING_PX)
        whole = shapely.union_all([room.outline_px, between])
        if isinstance(whole, Polygon):
            rooms = (evolve(one, outline_px=whole) if one.id == kept else one for one in plan.rooms)
            plan = evolve(plan, rooms=tuple(rooms))
    return merged(plan, [kept, lost])


def _passages(room: Room, beyond: str) -> Iterator[Opening]:
    """Yield the passages of a room that lead to another."""
    for opening in room.openings:
        if opening.kind is OpeningKind.PASSAGE and opening.leads_to == beyond:
            yield opening


def _are_open(room: Room, other: Room) -> bool:
    """Tell whether two rooms are open to each other over the whole width of one of them."""
    ways = [opening for opening in room.openings if opening.leads_to == other.id]
    if any(opening.kind is not OpeningKind.PASSAGE for opening in ways):
        return False
    lines = [
        (_line(here), _line(there))
        for here, there in zip(ways, _passages(other, room.id), strict=False)
    ]
    return any(
        _is_whole(here, room, here.distance(there)) or _is_whole(there, other, here.distance(there))
        for here, there in lines
    )


def _line(opening: Opening) -> LineString:
    return LineString([opening.start_px or (0, 0), opening.end_px or (0, 0)])


def _is_whole(passage: LineString, room: Room, deep: float) -> bool:
    """Tell whether a passage so deep is as wide as the room right behind it."""
    outline = room.outline_px
    if outline is None or passage.length == 0:
        return False
    start, end = np.array(passage.coords)
    along = (end - start) / passage.length
    away = passage.length * np.array([-along[1], along[0]])
    middle = (start + end) / 2
    if outline.distance(Point(middle + _BEHIND[0] * away)) > 0:
        away = -away
    far = math.dist(outline.bounds[:2], outline.bounds[2:]) * along
    for share in _BEHIND:
        place = middle + share * away
        across = outline.intersection(LineString([place - far, place + far]))
        here = min(shapely.get_parts(across), key=Point(place).distance, default=None)
        if here is None or here.length - passage.length > max(
            _BESIDE * passage.length, _NIB * deep
        ):
            return False
    return True
