"""A PDF page whose walls are paths: its rooms without looking at pixels."""

from statistics import median

import shapely
from attrs import evolve
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.assembly import in_reading_order, outline_of, rooms_in_metres
from estimator.intake.drawings.choosing import Choice, chosen
from estimator.intake.drawings.fittings import fitted
from estimator.intake.drawings.hanging import hung
from estimator.intake.drawings.pdf_paths import marks_of
from estimator.intake.drawings.pdf_walls import wall_choices
from estimator.intake.sniffing import kind_of
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import scaled
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Storey
from estimator.reading.picture import Picture

_FEWEST_PATHS = 3  # a page with fewer shows a picture or nothing
_FEWEST_ROOMS = 2
_LEAST_MIDDLING = 2.5  # m² of the room of median size
_LEAST_OPEN = 0.7  # share of the floor in rooms with a way in
_MOST_LOOSE = 0.25  # share of the walls between the rooms that bound none
_LEAST_FLOOR = 0.35  # of the hull of the building
_LEAST_MISSED = 0.5  # m² without a room
_THROAT = 2.0  # metres; outdoors is reached through no narrower way
_NEAR = 0.05  # metres that lines of one wall may be apart
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
        and median(room.area for room in choice.found.rooms) >= _LEAST_MIDDLING
        and _loose_share(choice) <= _MOST_LOOSE
        and not _misses_a_room(choice)
    )


def _misses_a_room(choice: Choice) -> bool:
    """Tell whether much of a building is no room, or some of it that is hardly open to outdoors."""
    rooms = shapely.union_all(list(choice.found.rooms))
    walls = shapely.union_all([*choice.drawing.lines, choice.found.masonry]).buffer(_NEAR)
    touching = [part for part in shapely.get_parts(walls).tolist() if part.intersects(rooms)]
    buildings = _hulls(shapely.union_all([rooms, *touching])).buffer(_BESIDE)
    if rooms.area < _LEAST_FLOOR * buildings.area:
        return True
    wide = buildings.difference(rooms.union(walls)).buffer(-_THROAT / 2)
    outdoors = buildings.boundary.buffer(_THROAT / 2 + _BESIDE / 2)
    return any(
        part.area >= _LEAST_MISSED and not part.intersects(outdoors)
        for part in shapely.get_parts(wide).tolist()
    )


def _hulls(shape: BaseGeometry) -> BaseGeometry:
    """Return the hulls of buildings, those that stand beside each other on a page apart."""
    apart = shapely.get_parts(shape.buffer(_THROAT / 2)).tolist()
    return shapely.union_all([shape.intersection(part).convex_hull for part in apart])


def _loose_share(choice: Choice) -> float:
    """Return the share of wall lines among the rooms that bound none of them."""
    rooms = shapely.union_all(list(choice.found.rooms))
    walls = shapely.union_all(
        [*choice.drawing.lines, *(solid.boundary for solid in choice.drawing.solids)]
    ).intersection(_hulls(rooms).buffer(_BESIDE))
    if not walls.length:
        return 1.0
    return float(walls.difference(rooms.buffer(_BESIDE)).length / walls.length)


def _plan(choice: Choice, picture: Picture) -> Plan:
    found = choice.found
    rooms = rooms_in_metres(in_reading_order(found.rooms), found.gaps)
    rooms, _ = fitted(rooms, found.fittings)
    rooms = hung(rooms, choice.drawing.evidence.curves)
    reached = shapely.union_all([outline_of(room) for room in rooms if room.openings])
    rooms = tuple(room for room in rooms if outline_of(room).dwithin(reached, _BESIDE))
    drawn = tuple(
        _in_pixels(room, place, choice.drawing.metre) for place, room in enumerate(rooms, start=1)
    )
    doubts = tuple(
        Doubt(
            aspect=Aspect.OUTLINE,
            room=room.id,
            says=f"{room.name} has no door to be seen; it may be a shaft or a void.",
            confidence=_DOORLESS,
        )
        for room in drawn
        if not room.openings
    )
    return Plan(storeys=(Storey(source=picture.source),), rooms=drawn, doubts=doubts)


def _in_pixels(room: Room, number: int, metre: float) -> Room:
    """Return a room as it is in the picture; its size is found from the picture's scale."""

    def place(point: Point | None) -> Point | None:
        return (point[0] * metre, point[1] * metre) if point else None

    return evolve(
        room,
        name=f"Room {number}",
        outline=None,
        outline_px=scaled(outline_of(room), metre),
        confidence=_SURE if room.openings else _DOORLESS,
        basis=Basis.READ,
        openings=tuple(
            evolve(one, start=None, end=None, start_px=place(one.start), end_px=place(one.end))
            for one in room.openings
        ),
    )
