"""Rooms and their doors, windows and passages, in pixels of the picture as given."""

import numpy as np
from attrs import evolve
from shapely.geometry import Polygon

from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.room import Basis, Room
from estimator.reading.frame import Frame
from estimator.reading.outlines import outline_of
from estimator.reading.placing import on_wall, reading_order
from estimator.reading.settings import Settings
from estimator.reading.strokes.confidence import room_confidence
from estimator.reading.strokes.faces import Closure, Faces
from estimator.reading.strokes.walls import Strokes


def rooms_of(faces: Faces, framed: Frame, strokes: Strokes, settings: Settings) -> dict[int, Room]:
    """Return the room of each face, in reading order, each with its openings."""
    outlines = {}
    for number in range(1, faces.count + 1):
        if outline := _outline(faces, number, framed, strokes, settings):
            outlines[number] = outline
    order = reading_order(outlines)
    ids = {number: f"room-{place}" for place, number in enumerate(order, start=1)}
    rooms = {}
    for place, number in enumerate(order, start=1):
        room = Room(
            id=ids[number],
            name=f"Room {place}",
            outline_px=outlines[number],
            confidence=room_confidence(faces, number, outlines[number], framed.zoom, settings),
            basis=Basis.READ,
        )
        rooms[number] = evolve(room, openings=_openings(room, number, faces, ids, framed, settings))
    return rooms


def _outline(
    faces: Faces, number: int, framed: Frame, strokes: Strokes, settings: Settings
) -> Polygon | None:
    left, top, right, bottom = faces.boxes[number - 1]
    face = faces.label[top:bottom, left:right] == number
    outline = outline_of(face, strokes.thickness[0], strokes.line / 2, settings)
    if outline is None:
        return None
    rings = [
        framed.back(np.array(ring.coords) + np.array([left, top]))
        for ring in (outline.exterior, *outline.interiors)
    ]
    return Polygon(rings[0], rings[1:])


def _openings(
    room: Room,
    number: int,
    faces: Faces,
    ids: dict[int, str],
    framed: Frame,
    settings: Settings,
) -> tuple[Opening, ...]:
    openings: list[Opening] = []
    assert room.outline_px is not None
    for closure in faces.closures:
        if number not in closure.sides:
            continue
        side = closure.sides.index(number)
        corners = framed.back(closure.gap.corners)
        ends = (corners[0], corners[1]) if side == 0 else (corners[3], corners[2])
        placed = on_wall(room.outline_px, ends)
        if placed is None:
            continue
        other = closure.sides[1 - side]
        kind, confidence = _kind(closure, faces, settings)
        openings.append(
            Opening(
                id=f"{room.id}-{kind.value}-{len(openings) + 1}",
                kind=kind,
                start_px=placed[0],
                end_px=placed[1],
                leads_to=ids.get(other),
                confidence=confidence,
            )
        )
    return tuple(openings)


def _kind(closure: Closure, faces: Faces, settings: Settings) -> tuple[OpeningKind, float]:
    """Tell what fills a gap, and how sure that is."""
    seen, outdoors = closure.evidence, 0 in closure.sides
    if seen.is_door(settings):
        return OpeningKind.DOOR, 0.95
    narrow = closure.gap.width_px <= settings.door_spread * faces.door / 1.5
    if seen.line >= settings.line_share:
        if outdoors:
            return OpeningKind.WINDOW, 0.9
        return OpeningKind.DOOR, 0.7
    if outdoors:
        return (OpeningKind.DOOR if narrow else OpeningKind.WINDOW), 0.5
    return (OpeningKind.PASSAGE, 0.7) if narrow else (OpeningKind.PASSAGE, 0.5)
