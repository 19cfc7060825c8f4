"""Read one picture into a plan.

A network sees the rooms (``sight``). Where it sees none, or hardly any that opens, the picture is
no plan. ``tests/benchmarks/bench_plans.py`` compares it with two textbook ways.
"""

from attrs import frozen

from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Storey
from estimator.reading.frame import Frame, frame
from estimator.reading.picture import Picture
from estimator.reading.refusals import refuse_tiny, refuse_what_is_no_plan
from estimator.reading.settings import Settings
from estimator.reading.sight.furniture import furniture_doubts
from estimator.reading.sight.mending import mended
from estimator.reading.sight.network import Sight, look
from estimator.reading.sight.rooms import rooms_seen
from estimator.reading.sight.spaces import spaces_in

# Below this a room is put before the client as doubtful.
SURE = 0.8


@frozen(kw_only=True, eq=False)
class Reading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    frame: Frame
    sight: Sight
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
    refuse_tiny(picture, settings)
    framed = frame(picture, settings)
    sight = mended(look(framed.colour, settings.side_px))
    seen = rooms_seen(spaces_in(sight, settings), sight, framed, settings)
    refuse_what_is_no_plan(picture.file, framed.grey, (*seen.rooms, *seen.shut), settings)
    plan = Plan(
        storeys=(Storey(source=picture.source, sheet=framed.sheet),),
        rooms=seen.rooms,
        doubts=_doubts(seen.rooms),
    )
    return Reading(picture=picture, frame=framed, sight=sight, plan=plan)


def _doubts(rooms: tuple[Room, ...]) -> tuple[Doubt, ...]:
    doubts = []
    for room in rooms:
        if room.confidence < SURE:
            says = f"{room.name} was read weakly; check whether it is there and shaped like this."
            doubts.append((room, says, room.confidence))
        if not any(opening.kind is not OpeningKind.WINDOW for opening in room.openings):
            says = f"{room.name} has no door to be seen; it may be a shaft or a part of another."
            doubts.append((room, says, 0.6))
    about_rooms = (
        Doubt(aspect=Aspect.OUTLINE, room=room.id, says=says, confidence=confidence)
        for room, says, confidence in doubts
    )
    return (*about_rooms, *furniture_doubts(rooms))
