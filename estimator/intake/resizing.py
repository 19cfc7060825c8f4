"""A room whose sizes are told after it was laid out."""

from collections.abc import Sequence

import shapely
from attrs import evolve

from estimator.errors import ScaleUnknown
from estimator.intake.laying import laid_out
from estimator.measures import Metres
from estimator.plan.beside import Joint, Link
from estimator.plan.doubt import Aspect
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.reshaping import reshaped
from estimator.plan.room import Basis, Room

_JOINTS = {OpeningKind.PASSAGE: Joint.PASSAGE, OpeningKind.DOOR: Joint.DOOR}


def resized(plan: Plan, room_id: str, width: Metres, depth: Metres) -> Plan:
    """Return the plan with a room made a rectangle of those sizes, and doubts about it settled.

    A storey of nothing but typed rooms is laid out anew, its rooms joined as before; elsewhere the
    room keeps its corner nearest the origin.

    Raises
    ------
    ScaleUnknown
        When the room has no size that could change.
    PlanError
        When nothing usable would be left of a room beside it.
    """
    room = plan.room(room_id)
    if room.outline is None:
        raise ScaleUnknown(room.name or room_id, "it has no size yet", "set the scale first")
    left, top = room.outline.bounds[:2]
    sized = rectangle(width, depth, left=left, top=top)
    rooms = [one for one in plan.rooms if one.storey == room.storey]
    if not all(map(_is_typed, rooms)):
        return reshaped(plan, room.storey, {room_id: sized})
    known = evolve(
        room, outline=sized, basis=Basis.MEASURED, openings=_stretched(room, width, depth)
    )
    laid, doubts = laid_out(
        [_without_joints(known if one is room else one) for one in rooms],
        {one.id: _links(one) for one in rooms},
    )
    moved = {one.id: one for one in laid}
    settled = (
        doubt
        for doubt in plan.doubts
        if not (doubt.room == room_id and doubt.aspect is Aspect.OUTLINE)
    )
    return evolve(
        plan,
        rooms=tuple(moved.get(one.id, one) for one in plan.rooms),
        doubts=(*settled, *doubts),
    )


def _is_typed(room: Room) -> bool:
    outline = room.outline
    return (
        outline is not None
        and room.outline_px is None
        and outline.equals_exact(shapely.normalize(shapely.envelope(outline)), 1e-9)
        and all(gap.start and gap.end for gap in room.openings)
        and all(piece.footprint is None for piece in room.furnishings)
    )


def _links(room: Room) -> Sequence[Link]:
    return [
        Link(gap.leads_to, _JOINTS[gap.kind])
        for gap in room.openings
        if gap.leads_to and gap.kind in _JOINTS
    ]


def _without_joints(room: Room) -> Room:
    own = (gap for gap in room.openings if not (gap.leads_to and gap.kind in _JOINTS))
    return evolve(room, openings=tuple(own))


def _stretched(room: Room, width: Metres, depth: Metres) -> tuple[Opening, ...]:
    """Return the openings in the walls of the room as it will be, as wide as before or the wall."""
    assert room.outline is not None
    left, top, right, bottom = room.outline.bounds
    across, down = width / (right - left), depth / (bottom - top)

    def there(gap: Opening) -> Opening:
        assert gap.start
        assert gap.end
        (x0, y0), (x1, y1) = gap.start, gap.end
        middle = (x0 + x1) / 2, (y0 + y1) / 2
        half = min(1.0, across) * (x1 - x0) / 2, min(1.0, down) * (y1 - y0) / 2
        x, y = left + across * (middle[0] - left), top + down * (middle[1] - top)
        return evolve(gap, start=(x - half[0], y - half[1]), end=(x + half[0], y + half[1]))

    return tuple(map(there, room.openings))
