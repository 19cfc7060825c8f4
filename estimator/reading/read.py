"""Read one picture into a plan, step by step."""

import math

import cv2
import numpy as np
from attrs import frozen
from shapely.geometry import Polygon

from estimator.errors import NoClosedRoom, NoWalls
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Storey
from estimator.reading.evidence import evidence_for
from estimator.reading.faces import Faces, faces_of
from estimator.reading.frame import Frame, frame
from estimator.reading.gaps import gaps_along
from estimator.reading.ink import Mask, Strokes, ink_of, limits_of, part_strokes
from estimator.reading.outlines import outline_of
from estimator.reading.picture import Picture
from estimator.reading.settings import Settings


@frozen(kw_only=True, eq=False)
class Reading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    frame: Frame
    ink: Mask
    strokes: Strokes
    faces: Faces
    plan: Plan


def _directions(strokes: Strokes) -> list[float]:
    """Return the directions walls run in, in radians."""
    return [0.0, math.pi / 2]


def read(picture: Picture, settings: Settings = Settings()) -> Reading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    ReadingError
        NoWalls or NoClosedRoom when the picture shows no plan.
    """
    framed = frame(picture, settings)
    ink = ink_of(framed.grey, settings)
    limit = limits_of(ink, settings)[0]
    strokes = part_strokes(ink, limit, settings)
    gaps = [
        gap
        for angle in _directions(strokes)
        for gap in gaps_along(strokes.walls, angle, strokes.thickness, settings)
    ]
    broad = cv2.dilate(strokes.thin.view(np.uint8), np.ones((3, 3), np.uint8)) > 0
    evidence = [evidence_for(gap, strokes.thin, broad) for gap in gaps]
    faces = faces_of(strokes, gaps, evidence, settings)
    rooms = _rooms(faces, framed, strokes.thickness[0], settings)
    if not rooms:
        raise NoClosedRoom(picture.file, "no walls enclose a room", "try another picture")
    plan = Plan(storeys=(Storey(source=picture.source),), rooms=tuple(rooms))
    return Reading(
        picture=picture, frame=framed, ink=ink, strokes=strokes, faces=faces, plan=plan
    )


def _rooms(faces: Faces, framed: Frame, thickness: float, settings: Settings) -> list[Room]:
    rooms = []
    for number in range(1, faces.count + 1):
        face = faces.label == number
        left, top, wide, tall = cv2.boundingRect(face.view(np.uint8))
        outline = outline_of(face[top : top + tall, left : left + wide], thickness, settings)
        if outline is None:
            continue
        moved = [framed.back(np.array(ring.coords) + (left, top)) for ring in (outline.exterior, *outline.interiors)]
        rooms.append(
            Room(
                id=f"room-{number}",
                name=f"Room {number}",
                outline_px=Polygon(moved[0], moved[1:]),
                basis=Basis.READ,
                openings=(),
            )
        )
    return rooms
