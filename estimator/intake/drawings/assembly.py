"""Outlines, gaps and lettering of a drawing become rooms."""

import re
from collections.abc import Mapping, Sequence

import shapely
from attrs import evolve, frozen
from shapely import affinity
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from estimator.intake.drawings.gaps import WIDEST_PLAIN_GAP, Gap
from estimator.intake.room_names import numbered, use_of
from estimator.plan.opening import Opening, OpeningKind, Point
from estimator.plan.room import Basis, Room
from estimator.reading.placing import reading_order

UNKNOWN_USE = "room"

_ON_WALL = 0.03  # metres between a gap's line and the outline it lies on
_LONGEST_NAME = 80
_SIZE = re.compile(r"\d+(?:[.,]\d+)?\s*(?:m|cm|mm|sq|ft|qm|['\"′″²x×])", re.IGNORECASE)
_LETTERS = re.compile(r"[^\W\d_]{2,}")
_NUMBER = re.compile(r"[A-Z]?\d{1,4}[A-Za-z]?")

_SURE = {OpeningKind.DOOR: 0.95, OpeningKind.WINDOW: 0.9, OpeningKind.PASSAGE: 0.7}


@frozen(kw_only=True)
class Lettering:
    """A piece of text and where it stands; ``height`` of its letters."""

    text: str
    at: Point
    height: float = 0.0


def at_origin(rooms: Sequence[Room]) -> tuple[Room, ...]:
    """Return rooms in metres moved so that the upper left corner of them all is at 0, 0."""
    left, top, _, _ = shapely.total_bounds([outline_of(room) for room in rooms]).tolist()

    def place(point: Point | None) -> Point | None:
        return (point[0] - left, point[1] - top) if point else None

    def shape(outline: Polygon | None) -> Polygon | None:
        return affinity.translate(outline, -left, -top) if outline else None

    return tuple(
        evolve(
            room,
            outline=shape(room.outline),
            openings=tuple(
                evolve(one, start=place(one.start), end=place(one.end)) for one in room.openings
            ),
            furnishings=tuple(
                evolve(one, footprint=shape(one.footprint)) for one in room.furnishings
            ),
        )
        for room in rooms
    )


def in_reading_order(outlines: Sequence[Polygon]) -> list[Polygon]:
    """Return outlines line by line from the top, each line from the left."""
    return [outlines[at] for at in reading_order(dict(enumerate(outlines)))]


def openings_of(outlines: Mapping[str, Polygon], gaps: Sequence[Gap]) -> dict[str, list[Opening]]:
    """Return the openings in each outline, their ends in the unit of the outlines as pixels."""
    found: dict[str, list[Opening]] = {room_id: [] for room_id in outlines}
    for gap in gaps:
        placed = [
            (room_id, side)
            for side in gap.sides
            for room_id, outline in outlines.items()
            if _lies_on(side, outline, _ON_WALL)
        ]
        kind, confidence = _kind(gap, len(placed))
        for room_id, (start, end) in placed:
            others = [other for other, _ in placed if other != room_id]
            found[room_id].append(
                Opening(
                    id=f"{room_id}-{kind.value}-{len(found[room_id]) + 1}",
                    kind=kind,
                    start_px=start,
                    end_px=end,
                    leads_to=others[0] if others else None,
                    confidence=confidence,
                )
            )
    return found


def _lies_on(side: tuple[Point, Point], outline: Polygon, tolerance: float) -> bool:
    line = LineString(side)
    boundary = outline.boundary
    return all(
        boundary.distance(line.interpolate(share, normalized=True)) <= tolerance
        for share in (0.1, 0.5, 0.9)
    )


def _kind(gap: Gap, sides: int) -> tuple[OpeningKind, float]:
    """Return what a gap is, and how sure that is: what is drawn in it, or else what it joins."""
    if gap.kind is OpeningKind.PASSAGE and sides == 1:
        return OpeningKind.WINDOW, 0.8
    if gap.kind is OpeningKind.WINDOW and sides > 1:
        return OpeningKind.DOOR, 0.7  # a line across it, but inside
    if gap.kind is not None:
        return gap.kind, _SURE[gap.kind]
    if sides > 1:
        return OpeningKind.PASSAGE, _SURE[OpeningKind.PASSAGE]
    narrow = gap.width <= WIDEST_PLAIN_GAP
    return (OpeningKind.DOOR if narrow else OpeningKind.WINDOW), 0.5


def named(
    rooms: Sequence[Room], letterings: Sequence[Lettering], uses: Mapping[str, str]
) -> tuple[Room, ...]:
    """Return rooms called and used as the text in them says; numbered where there is none."""
    within: dict[str, list[Lettering]] = {room.id: [] for room in rooms}
    smallest_first = sorted(rooms, key=lambda room: outline_of(room).area)
    tree = shapely.STRtree([outline_of(room) for room in smallest_first])
    for lettering in letterings:
        inside = tree.query(Place(lettering.at), predicate="intersects").tolist()
        if inside:
            within[smallest_first[min(inside)].id].append(lettering)
    named_rooms = [_named(room, within[room.id], uses) for room in rooms]
    names = numbered(room.name for room in named_rooms)
    return tuple(evolve(room, name=name) for room, name in zip(named_rooms, names, strict=True))


def _named(room: Room, letterings: Sequence[Lettering], uses: Mapping[str, str]) -> Room:
    lines = [
        (line.strip()[:_LONGEST_NAME], lettering.height)
        for lettering in letterings
        for line in lettering.text.splitlines()
    ]
    words = [
        (line, height) for line, height in lines if _LETTERS.search(line) and not _SIZE.search(line)
    ]
    known = [line for line, _ in words if use_of(line, uses)]
    if known:
        return evolve(room, name=known[0], use=use_of(known[0], uses) or UNKNOWN_USE)
    if words:
        return evolve(room, name=max(words, key=lambda word: word[1])[0])
    number = next((line for line, _ in lines if _NUMBER.fullmatch(line)), None)
    return evolve(room, name=f"Room {number}") if number else room


def outline_of(room: Room) -> Polygon:
    """Return a room's outline in metres, or else in pixels."""
    outline = room.outline or room.outline_px
    assert outline is not None
    return outline


def rooms_in_metres(outlines: Sequence[Polygon], gaps: Sequence[Gap]) -> tuple[Room, ...]:
    """Return measured rooms of outlines in metres, with openings where gaps lie in their walls."""
    ids = {f"room-{place}": outline for place, outline in enumerate(outlines, start=1)}
    openings = openings_of(ids, gaps)
    return tuple(
        Room(
            id=room_id,
            name="Room",
            outline=outline,
            basis=Basis.MEASURED,
            openings=tuple(
                evolve(one, start=one.start_px, end=one.end_px, start_px=None, end_px=None)
                for one in openings[room_id]
            ),
        )
        for room_id, outline in ids.items()
    )
