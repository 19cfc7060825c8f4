"""Read one picture by its strokes, step by step."""

import numpy as np
from attrs import evolve, frozen

from estimator.errors import NoClosedRoom, NoWalls
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.reading.frame import Frame, frame
from estimator.reading.ink import Ink, ink_on
from estimator.reading.picture import Picture
from estimator.reading.refusals import REMEDY, refuse_tiny, refuse_what_is_no_drawing
from estimator.reading.settings import Settings
from estimator.reading.strokes.attempts import Attempt, best_attempt
from estimator.reading.strokes.confidence import doubts_about
from estimator.reading.strokes.faces import Faces
from estimator.reading.strokes.rooms import rooms_of
from estimator.reading.strokes.walls import Strokes, line_around


@frozen(kw_only=True, eq=False)
class StrokeReading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    frame: Frame
    ink: Ink
    strokes: Strokes
    faces: Faces
    plan: Plan


def read_by_strokes(picture: Picture, settings: Settings = Settings()) -> StrokeReading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    NoWalls
        When the picture is too small, or a photograph, text or a blank page.
    NoClosedRoom
        When what is drawn encloses nothing that could be a room.
    """
    refuse_tiny(picture, settings)
    return follow(picture, frame(picture, settings), settings)


def follow(picture: Picture, framed: Frame, settings: Settings) -> StrokeReading:
    """Do the same with the working picture at hand."""
    ink = ink_on(framed.grey, settings)
    refuse_what_is_no_drawing(picture.file, ink.dark, settings)
    attempt = best_attempt(ink, settings)
    if not attempt:
        raise NoWalls(picture.file, "no strokes in it look like walls", REMEDY)
    _refuse_what_is_no_plan(picture.file, attempt, settings)
    strokes, faces = attempt.strokes, attempt.faces
    if not strokes.line:
        strokes = evolve(strokes, line=line_around(framed.grey, strokes, settings))
    rooms = rooms_of(faces, framed, strokes, settings)
    plan = Plan(
        storeys=(Storey(source=picture.source, sheet=framed.sheet),),
        rooms=tuple(rooms.values()),
        doubts=doubts_about(rooms, faces, framed, strokes, settings),
    )
    return StrokeReading(
        picture=picture, frame=framed, ink=ink, strokes=strokes, faces=faces, plan=plan
    )


def _refuse_what_is_no_plan(file: str, attempt: Attempt, settings: Settings) -> None:
    """Refuse a drawing none of whose faces could be a room."""
    faces = attempt.faces
    if not faces.count:
        raise NoClosedRoom(file, "no walls in it enclose a room", REMEDY)
    covered = float(np.count_nonzero(faces.label)) / faces.label.size
    if covered < settings.covered_least:
        raise NoClosedRoom(file, f"walls enclose only {covered:.1%} of it", REMEDY)
    if not attempt.room_like and (faces.count > 2 or covered < settings.doorless_least):
        raise NoClosedRoom(file, "none of the spaces drawn in it has a door", REMEDY)
