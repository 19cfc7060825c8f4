"""Read one picture into a plan, step by step."""

import cv2
import numpy as np
from attrs import evolve, frozen

from estimator.errors import NoClosedRoom
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.reading.confidence import doubts_about
from estimator.reading.evidence import evidence_for
from estimator.reading.faces import Faces, faces_of
from estimator.reading.frame import Frame, frame
from estimator.reading.gaps import gaps_in
from estimator.reading.ink import Mask, Strokes, faint_of, ink_of, thicknesses, wall_strokes
from estimator.reading.picture import Picture
from estimator.reading.rooms import rooms_of
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
    rooms = rooms_of(faces, framed, strokes.thickness[0], settings)
    if not rooms:
        raise NoClosedRoom(
            picture.file, "no walls in it enclose a room", "send a floor plan, or type the rooms"
        )
    plan = Plan(
        storeys=(Storey(source=picture.source),),
        rooms=tuple(rooms.values()),
        doubts=doubts_about(rooms, faces, framed, strokes, settings),
    )
    return Reading(picture=picture, frame=framed, ink=ink, strokes=strokes, faces=faces, plan=plan)
