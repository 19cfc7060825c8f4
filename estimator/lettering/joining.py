"""Rooms read as two but lettered as one, joined where only both together have the printed size."""

from attrs import evolve

from estimator.errors import PlanError
from estimator.lettering.halls import joined_by_passage
from estimator.lettering.naming import Placed
from estimator.lettering.size_cuts import misfit
from estimator.lettering.tags import Tag, tags_of
from estimator.measures import MetresPerPixel, Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# Alone a room is off its printed size by more than this; joined it is within the second.
_ALONE: Share = 0.12
_TOGETHER: Share = 0.05
# A false wall leaves parts that each count, and together fill a rectangle.
_LEAST_PART: Share = 0.2
_LEAST_FULL: Share = 0.8
_SURE: Share = 0.85
_AREA_ERROR: Share = 0.05


def joined(plan: Plan, found: Placed, metres_per_px: MetresPerPixel | None) -> Plan:
    """Return the plan without false walls, each joining a doubt.

    A room and an unlettered one beside it, with no door between them, are one where the printed
    size says so; what looks like a passage may be a line across one room.
    """
    if metres_per_px is None:
        return plan
    tags = {room.id: tags_of(found.in_rooms.get(room.id, ())) for room in plan.rooms}
    gone: set[str] = set()
    for room in plan.rooms:
        if len(tags[room.id]) != 1 or room.id in gone or room.outline_px is None:
            continue
        (tag,) = tags[room.id]
        if tag.printed is None or misfit(room.outline_px, tag, metres_per_px) <= _ALONE:
            continue
        ways = [
            (off, other.id)
            for other in plan.rooms
            if not tags[other.id]
            and other.id not in gone
            and _may_be_one(room, other)
            and (whole := _whole(plan, room, other))
            and (off := _off(whole.room(room.id), tag, metres_per_px)) <= _TOGETHER
        ]
        if ways:
            _, other_id = min(ways)
            plan = joined_by_passage(plan, room.id, other_id)
            plan = evolve(plan, doubts=(*plan.doubts, _doubt(room, tag)))
            gone.add(other_id)
    return plan


def _may_be_one(room: Room, other: Room) -> bool:
    """Tell whether two rooms could be parts of one: alike in size, with no door between them."""
    if room is other or room.storey != other.storey or other.outline_px is None:
        return False
    assert room.outline_px is not None
    small, large = sorted((room.outline_px.area, other.outline_px.area))
    return small >= _LEAST_PART * large and all(
        opening.leads_to != other.id
        for opening in room.openings
        if opening.kind is not OpeningKind.PASSAGE
    )


def _whole(plan: Plan, room: Room, other: Room) -> Plan | None:
    try:
        return joined_by_passage(plan, room.id, other.id)
    except PlanError:
        return None


def _off(whole: Room, tag: Tag, metres_per_px: MetresPerPixel) -> float:
    """Return how far a joined room is off its printed size; 1 when it is no plain shape."""
    outline = whole.outline_px
    if outline is None or outline.area < _LEAST_FULL * outline.minimum_rotated_rectangle.area:
        return 1.0
    return misfit(outline, tag, metres_per_px)


def _doubt(room: Room, tag: Tag) -> Doubt:
    says = f"{tag.name} was read as two rooms and joined, as its printed size fits both together."
    return Doubt(
        aspect=Aspect.OUTLINE,
        room=room.id,
        says=says,
        confidence=_SURE,
        relative_error=_AREA_ERROR,
    )
