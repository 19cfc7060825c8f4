"""Rooms read as one but lettered as several, parted where the sizes or the drawing say.

What prints its own size is cut to that size; what does not, only at a clear neck. An open room that
shows neither stays one.
"""

from collections.abc import Sequence

from attrs import evolve
from shapely.geometry import Polygon

from estimator.lettering.division import divided
from estimator.lettering.naming import Placed
from estimator.lettering.necks import neck
from estimator.lettering.size_cuts import Part, misfit, parted_by_sizes, tags_beside
from estimator.lettering.tags import Tag, tags_of
from estimator.lettering.vocabulary import ANY
from estimator.measures import MetresPerPixel, Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# How sure a part is as a share of the whole, and how far its area may be off.
_SURE: Share = 0.9
_PART_ERROR: Share = 0.08
# A size within this of the whole room is printed for all of it.
_FITS_ALL: Share = 0.06


def parted(plan: Plan, found: Placed, metres_per_px: MetresPerPixel | None) -> Plan:
    """Return the plan with rooms that hold the names of several parted, each parting a doubt.

    Parameters
    ----------
    metres_per_px
        As the sheet's figures say; None when none does, and printed sizes cannot part.
    """
    for room in plan.rooms:
        tags = tuple(
            tag for tag in tags_of(found.in_rooms.get(room.id, ())) if tag.use not in (None, ANY)
        )
        if room.outline_px is None or len(tags) < 2:
            continue
        parts = _parts(room.outline_px, tags, metres_per_px)
        if len(parts) > 1:
            plan = divided(plan, room, [part.outline for part in parts], sure=_SURE)
            plan = evolve(plan, doubts=(*plan.doubts, _doubt(room, parts)))
    return plan


def _parts(
    outline: Polygon, tags: tuple[Tag, ...], metres_per_px: MetresPerPixel | None
) -> tuple[Part, ...]:
    whole = (Part(outline=outline, tags=tags),)
    if len(tags) < 2:
        return whole
    if metres_per_px is not None:
        if by_sizes := parted_by_sizes(outline, tags, metres_per_px):
            return by_sizes
        if any(misfit(outline, tag, metres_per_px) <= _FITS_ALL for tag in tags):
            return whole
    cut = neck(outline, [tag.place_px for tag in tags])
    if cut is None:
        return whole
    return tuple(
        part
        for side in tags_beside(cut, tags)
        for part in _parts(side.outline, side.tags, metres_per_px)
    )


def _doubt(room: Room, parts: Sequence[Part]) -> Doubt:
    names = [" / ".join(dict.fromkeys(tag.name for tag in part.tags)) for part in parts]
    listed = f"{', '.join(names[:-1])} and {names[-1]}"
    says = f"{listed} were read as one room and parted where their lettering asks for it."
    return Doubt(
        aspect=Aspect.OUTLINE,
        room=room.id,
        says=says,
        confidence=_SURE,
        relative_error=_PART_ERROR,
    )
