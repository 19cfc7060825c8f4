"""Read one picture into a plan, step by step."""

import numpy as np
from attrs import evolve, frozen

from estimator.errors import NoClosedRoom, NoWalls
from estimator.plan.plan import Plan
from estimator.plan.storey import Storey
from estimator.reading.arrays import Mask
from estimator.reading.attempts import Attempt, best_attempt
from estimator.reading.confidence import doubts_about
from estimator.reading.faces import Faces
from estimator.reading.frame import Frame, frame
from estimator.reading.ink import Ink, ink_on
from estimator.reading.picture import Picture
from estimator.reading.rooms import rooms_of
from estimator.reading.settings import Settings
from estimator.reading.walls import Strokes, line_around, straight_runs

_REMEDY = "send a floor plan, or type the rooms and their sizes"


@frozen(kw_only=True, eq=False)
class Reading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    frame: Frame
    ink: Ink
    strokes: Strokes
    faces: Faces
    plan: Plan


def read(picture: Picture, settings: Settings = Settings()) -> Reading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    NoWalls
        When the picture is too small, or a photograph, text or a blank page.
    NoClosedRoom
        When what is drawn encloses nothing that could be a room.
    """
    _refuse_tiny(picture, settings)
    framed = frame(picture, settings)
    ink = ink_on(framed.grey, settings)
    _refuse_what_is_no_drawing(picture.file, ink.dark, settings)
    attempt = best_attempt(ink, settings)
    if not attempt:
        raise NoWalls(picture.file, "no strokes in it look like walls", _REMEDY)
    _refuse_what_is_no_plan(picture.file, attempt, settings)
    strokes, faces = attempt.strokes, attempt.faces
    if not strokes.line:
        strokes = evolve(strokes, line=line_around(framed.grey, strokes, settings))
    rooms = rooms_of(faces, framed, strokes, settings)
    plan = Plan(
        storeys=(Storey(source=picture.source),),
        rooms=tuple(rooms.values()),
        doubts=doubts_about(rooms, faces, framed, strokes, settings),
    )
    return Reading(picture=picture, frame=framed, ink=ink, strokes=strokes, faces=faces, plan=plan)


def _refuse_tiny(picture: Picture, settings: Settings) -> None:
    if min(picture.width_px, picture.height_px) < settings.picture_least:
        raise NoWalls(
            picture.file,
            f"it is only {picture.width_px} × {picture.height_px} pixels",
            f"send a picture of at least {settings.work_least} pixels along its longer side",
        )


def _refuse_what_is_no_drawing(file: str, ink: Mask, settings: Settings) -> None:
    """Refuse a blank page, a photograph and a page of text."""
    inked = float(ink.mean())
    if not inked:
        raise NoWalls(file, "the page is blank", _REMEDY)
    if inked > settings.ink_most:
        raise NoWalls(file, "it looks like a photograph, not like a drawing", _REMEDY)
    straight = np.count_nonzero(straight_runs(ink, settings) & ink) / np.count_nonzero(ink)
    if straight < settings.straight_ink_least:
        raise NoWalls(file, "there are hardly any straight strokes on it, as of walls", _REMEDY)


def _refuse_what_is_no_plan(file: str, attempt: Attempt, settings: Settings) -> None:
    """Refuse a drawing none of whose faces could be a room."""
    faces = attempt.faces
    if not faces.count:
        raise NoClosedRoom(file, "no walls in it enclose a room", _REMEDY)
    covered = float(np.count_nonzero(faces.label)) / faces.label.size
    if covered < settings.covered_least:
        raise NoClosedRoom(file, f"walls enclose only {covered:.1%} of it", _REMEDY)
    if not attempt.room_like and (faces.count > 2 or covered < settings.doorless_least):
        raise NoClosedRoom(file, "none of the spaces drawn in it has a door", _REMEDY)
