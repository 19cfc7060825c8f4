"""Corrections: functions from one plan to another, so that undo comes free."""

from collections.abc import Callable, Sequence

import shapely
from attrs import evolve
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.flat import laid_flat
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import scaled
from estimator.plan.opening import Opening, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Scale, Storey
from estimator.plan.walls import THICKEST_WALL

# A scale this sure is not worth a line among the assumptions.
SURE_SCALE = 0.01


def changed(plan: Plan, room_id: str, change: Callable[[Room], Room]) -> Plan:
    """Return the plan with one room replaced by what ``change`` makes of it."""
    plan.room(room_id)
    return evolve(
        plan, rooms=tuple(change(room) if room.id == room_id else room for room in plan.rooms)
    )


def renamed(plan: Plan, room_id: str, name: str) -> Plan:
    """Return the plan with a room called ``name``."""
    return changed(plan, room_id, lambda room: evolve(room, name=name))


def with_use(plan: Plan, room_id: str, use: str) -> Plan:
    """Return the plan with a room put to another use, and doubts about its use settled."""
    settled = _without(plan, lambda doubt: doubt.aspect is Aspect.USE and doubt.room == room_id)
    return changed(settled, room_id, lambda room: evolve(room, use=use))


def with_height(plan: Plan, room_id: str, height: Metres | None) -> Plan:
    """Return the plan with a room's ceiling at ``height``, and doubts about it settled."""
    settled = _without(plan, lambda doubt: doubt.aspect is Aspect.HEIGHT and doubt.room == room_id)
    return changed(settled, room_id, lambda room: evolve(room, ceiling_height=height))


def added(plan: Plan, room: Room) -> Plan:
    """Return the plan with one more room."""
    return evolve(plan, rooms=(*plan.rooms, room))


def removed(plan: Plan, room_id: str) -> Plan:
    """Return the plan without a room, its doubts, and the doors that led to it."""
    plan.room(room_id)
    rooms = (_leading_to(room, room_id, None) for room in plan.rooms if room.id != room_id)
    return evolve(
        _without(plan, lambda doubt: doubt.room == room_id),
        rooms=tuple(rooms),
    )


def merged(plan: Plan, room_ids: Sequence[str]) -> Plan:
    """Return the plan with several rooms made one, the wall between them taken as floor.

    The first room keeps its id, name, use and height; doors between the rooms vanish.

    Raises
    ------
    PlanError
        When fewer than two rooms are given, or they lie apart or on different storeys.
    """
    rooms = [plan.room(room_id) for room_id in dict.fromkeys(room_ids)]
    if len(rooms) < 2:
        raise PlanError("merge", "fewer than two rooms are chosen", "choose at least two")
    first, gone = rooms[0], {room.id for room in rooms[1:]}
    if {room.storey for room in rooms} != {first.storey}:
        raise PlanError(first.name, "the rooms lie on different storeys", "merge rooms of one")
    scale = plan.storey(first.storey).scale
    thickest_px = THICKEST_WALL / scale.metres_per_px if scale else _guessed_wall_px(rooms)
    whole = evolve(
        first,
        outline=_joined_outline(first.name, [room.outline for room in rooms], THICKEST_WALL),
        outline_px=_joined_outline(first.name, [room.outline_px for room in rooms], thickest_px),
        confidence=min(room.confidence for room in rooms),
        openings=tuple(
            opening
            for room in rooms
            for opening in room.openings
            if opening.leads_to not in {first.id, *gone}
        ),
        furnishings=tuple(piece for room in rooms for piece in room.furnishings),
    )
    kept = [whole if room.id == first.id else room for room in plan.rooms if room.id not in gone]
    for room_id in gone:
        kept = [_leading_to(room, room_id, first.id) for room in kept]
    return evolve(_without(plan, lambda doubt: doubt.room in gone), rooms=tuple(kept))


def rescaled(plan: Plan, scale: Scale, storey: int = 0) -> Plan:
    """Return the plan with every room of a storey's picture sized anew from its outline in pixels.

    Storeys that stand beside each other on one picture have one scale.
    """
    factor = scale.metres_per_px
    numbers = {level.number for level in of_one_picture(plan, storey)}
    others = [_scale_doubt(level.scale) for level in plan.storeys if level.number not in numbers]
    kept = _without(plan, lambda doubt: doubt.aspect is Aspect.SCALE and doubt not in others)
    found = _scale_doubt(scale)
    return evolve(
        kept,
        doubts=kept.doubts if found is None or found in others else (*kept.doubts, found),
        storeys=tuple(
            evolve(level, scale=scale) if level.number in numbers else level
            for level in plan.storeys
        ),
        rooms=tuple(
            _sized(room, flat, factor) if room.storey in numbers and room.outline_px else room
            for room, flat in zip(plan.rooms, laid_flat(plan).rooms, strict=True)
        ),
    )


def of_one_picture(plan: Plan, storey: int) -> tuple[Storey, ...]:
    """Return the storeys that were read from the same picture as a storey, itself among them."""
    source = plan.storey(storey).source
    return tuple(
        level
        for level in plan.storeys
        if level.number == storey or (source is not None and level.source == source)
    )


def without_storey(plan: Plan, storey: int) -> Plan:
    """Return the plan without a storey and its rooms, such as one that was drawn twice.

    The storeys above it are numbered anew.

    Raises
    ------
    PlanError
        When it is the only one.
    """
    gone = plan.storey(storey)
    if len(plan.storeys) == 1:
        raise PlanError(gone.name or "plan", "it is the only storey", "open another plan instead")
    left = {room.id for room in plan.rooms if room.storey == storey}
    kept = [level for level in plan.storeys if level is not gone]
    number = {level.number: at for at, level in enumerate(kept)}
    return evolve(
        _without(plan, lambda doubt: doubt.room in left),
        storeys=tuple(evolve(level, number=number[level.number]) for level in kept),
        rooms=tuple(
            evolve(room, storey=number[room.storey]) for room in plan.rooms if room.id not in left
        ),
    )


def stacked(plans: Sequence[Plan]) -> Plan:
    """Return one plan whose storeys are those of the given plans, in order.

    Room ids are kept apart by the number of the storey when they would collide.

    >>> from estimator.plan.geometry import rectangle
    >>> floor = Plan(title="House", rooms=[Room(id="a", name="Hall", outline=rectangle(2, 3))])
    >>> [(room.id, room.storey) for room in stacked([floor, floor]).rooms]
    [('a', 0), ('1-a', 1)]
    """
    storeys: list[Storey] = []
    rooms: list[Room] = []
    doubts: list[Doubt] = []
    for plan in plans:
        shift = len(storeys)
        number = {storey.number: shift + at for at, storey in enumerate(plan.storeys)}
        taken = {room.id for room in rooms}
        new_id = {
            room.id: f"{shift}-{room.id}" if room.id in taken else room.id for room in plan.rooms
        }
        storeys += [evolve(storey, number=number[storey.number]) for storey in plan.storeys]
        rooms += [
            evolve(
                room,
                id=new_id[room.id],
                storey=number[room.storey],
                openings=tuple(
                    evolve(opening, leads_to=new_id.get(opening.leads_to or ""))
                    for opening in room.openings
                ),
            )
            for room in plan.rooms
        ]
        doubts += [
            evolve(doubt, room=new_id.get(doubt.room)) if doubt.room else doubt
            for doubt in plan.doubts
        ]
    title = next((plan.title for plan in plans if plan.title), "")
    return Plan(title=title, storeys=tuple(storeys), rooms=tuple(rooms), doubts=tuple(doubts))


def _scale_doubt(scale: Scale | None) -> Doubt | None:
    """Return the doubt about a scale that is not sure."""
    if scale is None or scale.relative_error <= SURE_SCALE:
        return None
    error = scale.relative_error
    return Doubt(
        aspect=Aspect.SCALE,
        says=f"The scale was found from {scale.basis}; lengths may be off by {error:.0%}.",
        confidence=1 - error,
        relative_error=error,
    )


def _without(plan: Plan, settled: Callable[[Doubt], bool]) -> Plan:
    return evolve(plan, doubts=tuple(doubt for doubt in plan.doubts if not settled(doubt)))


def _leading_to(room: Room, old: str, new: str | None) -> Room:
    if all(opening.leads_to != old for opening in room.openings):
        return room
    return evolve(
        room,
        openings=tuple(
            evolve(opening, leads_to=new) if opening.leads_to == old else opening
            for opening in room.openings
        ),
    )


def _guessed_wall_px(rooms: Sequence[Room]) -> float:
    """Guess a wall's thickness without a scale: a tenth of the smallest room's side."""
    areas = [room.outline_px.area for room in rooms if room.outline_px]
    return float(min(areas, default=0.0) ** 0.5 / 10)


def _joined_outline(
    where: str, outlines: Sequence[Polygon | None], thickest: float
) -> Polygon | None:
    shapes = [outline for outline in outlines if outline is not None]
    if len(shapes) < len(outlines):
        return None
    union = shapely.union_all(shapes)
    if not isinstance(union, Polygon):
        union = shapely.union_all([union, _bridged(union, thickest / 2)])
    if not isinstance(union, Polygon):
        raise PlanError(where, "the rooms do not touch", "merge rooms that share a wall")
    return union


def _bridged(shapes: shapely.Geometry, reach: float) -> shapely.Geometry:
    """Close gaps of twice the reach between shapes, square at the corners."""
    grown = shapely.buffer(shapes, reach, join_style="mitre")
    return shapely.buffer(grown, -reach, join_style="mitre")


def _sized(room: Room, flat: Room, factor: float) -> Room:
    """Return the room in metres, so many to a pixel of the same room on its sheet laid flat."""

    def metres(point: Point | None) -> Point | None:
        return (point[0] * factor, point[1] * factor) if point else None

    def opening(one: Opening, on_flat: Opening) -> Opening:
        return evolve(one, start=metres(on_flat.start_px), end=metres(on_flat.end_px))

    def furnishing(one: Furnishing, on_flat: Furnishing) -> Furnishing:
        outline = scaled(on_flat.footprint_px, factor) if on_flat.footprint_px else one.footprint
        return evolve(one, footprint=outline)

    return evolve(
        room,
        outline=scaled(flat.outline_px, factor) if flat.outline_px else room.outline,
        basis=Basis.READ if room.basis is Basis.ASSUMED else room.basis,
        openings=tuple(
            opening(one, on_flat) if one.start_px else one
            for one, on_flat in zip(room.openings, flat.openings, strict=True)
        ),
        furnishings=tuple(map(furnishing, room.furnishings, flat.furnishings)),
    )
