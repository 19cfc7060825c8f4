"""One room of a plan replaced by its parts, in pixels."""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations

import shapely
from attrs import evolve
from shapely.geometry import LineString, Point, Polygon

from estimator.measures import Share
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

# Parts that were cut apart touch within this.
_TOUCHING_PX = 0.5
_NARROWEST_PX = 2.0


def divided(plan: Plan, room: Room, outlines: Sequence[Polygon], *, sure: Share) -> Plan:
    """Return the plan with a room replaced by parts of it, open to each other where they touch.

    The largest part keeps the room's id and name. Openings and furnishings go to the part they
    are nearest to, and so do those of other rooms that led to the whole.

    Parameters
    ----------
    sure
        How sure the parts are, as a share of how sure the room is.
    """
    ordered = sorted(outlines, key=lambda outline: -outline.area)
    ids = [room.id, *(f"{room.id}-{at}" for at in range(2, len(ordered) + 1))]
    passages = tuple(_passages(room, ordered, ids))
    parts = [
        evolve(
            room,
            id=part_id,
            name=room.name if at == 0 else f"{room.name} (part {at + 1})",
            outline_px=outline,
            confidence=sure * room.confidence,
            openings=(
                *(o for o in room.openings if _nearest(ordered, _middle(o)) == at),
                *(opening for owner, opening in passages if owner == at),
            ),
            furnishings=tuple(
                piece
                for piece in room.furnishings
                if at == (_nearest(ordered, piece.footprint_px) if piece.footprint_px else 0)
            ),
        )
        for at, (part_id, outline) in enumerate(zip(ids, ordered, strict=True))
    ]
    rooms = (
        new
        for other in plan.rooms
        for new in (parts if other.id == room.id else [_led_on(other, room.id, ids, ordered)])
    )
    return evolve(plan, rooms=tuple(rooms))


def _nearest(outlines: Sequence[Polygon], shape: shapely.Geometry) -> int:
    middle = shapely.centroid(shape)
    gaps = [outline.distance(middle) for outline in outlines]
    return gaps.index(min(gaps))


def _middle(opening: Opening) -> shapely.Geometry:
    if opening.start_px is None or opening.end_px is None:
        return Point(0, 0)
    return LineString([opening.start_px, opening.end_px]).centroid


def _led_on(other: Room, old: str, ids: Sequence[str], parts: Sequence[Polygon]) -> Room:
    """Return another room with its openings to the whole leading to the part behind them."""
    if all(opening.leads_to != old for opening in other.openings):
        return other
    return evolve(
        other,
        openings=tuple(
            evolve(opening, leads_to=ids[_nearest(parts, _middle(opening))])
            if opening.leads_to == old
            else opening
            for opening in other.openings
        ),
    )


def _passages(
    room: Room, outlines: Sequence[Polygon], ids: Sequence[str]
) -> Iterator[tuple[int, Opening]]:
    """Yield the passage between every two parts that touch, once for each of them."""
    for one, other in combinations(range(len(outlines)), 2):
        line = outlines[one].boundary.intersection(outlines[other].buffer(_TOUCHING_PX))
        corners = shapely.get_coordinates(line)
        if len(corners) < 2:
            continue
        ends = max(combinations(corners.tolist(), 2), key=lambda pair: math.dist(*pair))
        if math.dist(*ends) < _NARROWEST_PX:
            continue
        for owner, beyond in ((one, other), (other, one)):
            yield (
                owner,
                Opening(
                    id=f"{ids[owner]}-to-{ids[beyond]}",
                    kind=OpeningKind.PASSAGE,
                    start_px=tuple(ends[0]),
                    end_px=tuple(ends[1]),
                    leads_to=ids[beyond],
                    confidence=room.confidence,
                ),
            )
