"""A PDF page whose walls are paths: its rooms without looking at pixels."""

import shapely

from estimator.intake.drawings.assembly import in_reading_order, openings_of
from estimator.intake.drawings.choosing import Choice, chosen
from estimator.intake.drawings.pdf_paths import marks_of
from estimator.intake.drawings.pdf_walls import wall_choices
from estimator.intake.sniffing import kind_of
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Storey
from estimator.reading.picture import Picture

_FEWEST_PATHS = 8  # a page with fewer shows a picture or nothing
_FEWEST_ROOMS = 2
_LEAST_OPEN = 0.7  # share of the floor in rooms with a way in
_MOST_LOOSE = 0.25  # share of the walls between the rooms that bound none
_BESIDE = 0.8  # metres from a wall's faces to its room, at most
_SURE, _DOORLESS = 0.97, 0.75


def vector_plan(data: bytes, picture: Picture) -> Plan | None:
    """Return the plan of the page that a picture shows, in its pixels; None when it is no PDF.

    None as well when its paths do not make a whole plan, as on a scan: then only the pixels tell.

    Raises
    ------
    SourceError
        When the document is damaged.
    """
    if kind_of(data, picture.file) != "pdf":
        return None
    marks = marks_of(data, picture)
    if len(marks) < _FEWEST_PATHS:
        return None
    choice = chosen(wall_choices(marks, picture))
    if choice is None or not _is_whole(choice):
        return None
    return _plan(choice, picture)


def _is_whole(choice: Choice) -> bool:
    """Tell whether the rooms are those of a plan, not of some of it or of furniture."""
    return (
        len(choice.found.rooms) >= _FEWEST_ROOMS
        and choice.open_share >= _LEAST_OPEN
        and _loose_share(choice) <= _MOST_LOOSE
    )


def _loose_share(choice: Choice) -> float:
    """Return the share of wall lines among the rooms that bound none of them."""
    metre = choice.drawing.metre
    rooms = shapely.union_all(list(choice.found.rooms))
    walls = shapely.union_all(
        [*choice.drawing.lines, *(solid.boundary for solid in choice.drawing.solids)]
    ).intersection(rooms.convex_hull.buffer(_BESIDE * metre))
    if not walls.length:
        return 1.0
    return float(walls.difference(rooms.buffer(_BESIDE * metre)).length / walls.length)


def _plan(choice: Choice, picture: Picture) -> Plan:
    outlines = in_reading_order(choice.found.rooms)
    by_id = {f"room-{place}": outline for place, outline in enumerate(outlines, start=1)}
    openings = openings_of(by_id, choice.found.gaps, choice.drawing.metre)
    rooms = tuple(
        Room(
            id=room_id,
            name=f"Room {place}",
            outline_px=outline,
            confidence=_SURE if openings[room_id] else _DOORLESS,
            basis=Basis.READ,
            openings=tuple(openings[room_id]),
        )
        for place, (room_id, outline) in enumerate(by_id.items(), start=1)
    )
    doubts = tuple(
        Doubt(
            aspect=Aspect.OUTLINE,
            room=room.id,
            says=f"{room.name} has no door to be seen; it may be a shaft or a void.",
            confidence=_DOORLESS,
        )
        for room in rooms
        if not room.openings
    )
    return Plan(storeys=(Storey(source=picture.source),), rooms=rooms, doubts=doubts)
