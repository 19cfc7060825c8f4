"""Read one picture into a plan, step by step."""

import math

import cv2
import numpy as np
from attrs import evolve, frozen
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
from estimator.reading.gaps import gaps_in
from estimator.reading.ink import Mask, Strokes, faint_of, ink_of, thicknesses, wall_strokes
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


def read(picture: Picture, settings: Settings = Settings()) -> Reading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    ReadingError
        NoWalls or NoClosedRoom when the picture shows no plan.
    """
    framed = frame(picture, settings)
    ink = ink_of(framed.grey, settings)
    strokes = wall_strokes(thicknesses(ink, settings), settings)
    faint = faint_of(framed.grey, 2.0, settings)
    strokes = evolve(strokes, thin=(strokes.thin | faint) & ~strokes.walls)
    gaps = gaps_in(strokes, settings)
    broad = cv2.dilate(strokes.thin.view(np.uint8), np.ones((3, 3), np.uint8)) > 0
    evidence = [evidence_for(gap, strokes.thin, broad) for gap in gaps]
    sound = [at for at, gap in enumerate(gaps) if gap.firm or evidence[at].supports(settings)]
    gaps, evidence = [gaps[at] for at in sound], [evidence[at] for at in sound]
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
