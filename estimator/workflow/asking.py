"""The one question that sizes a plan whose scale nothing tells, or only a guess."""

from attrs import frozen

from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.workflow.sheet_scales import is_sized


@frozen(kw_only=True)
class Question:
    """How long a room is between two points of its picture.

    Parameters
    ----------
    storey
        Number of the storey that the answer sizes, with all others on its picture.
    """

    says: str
    storey: int
    start_px: Point
    end_px: Point


def scale_question(plan: Plan) -> Question | None:
    """Return what to ask about the first picture without a sure scale; None when all have one.

    The largest of the rooms surely read is asked about: the errors of its ends matter least.
    """
    for storey in plan.storeys:
        if storey.source is None or is_sized(storey):
            continue
        if question := length_question(plan, storey.number):
            return question
    return None


def length_question(plan: Plan, storey: int) -> Question | None:
    """Return what to ask about the picture of a storey; None when no room was read from it."""
    rooms = [room for room in plan.rooms if room.storey == storey and room.outline_px]
    return _question(max(rooms, key=_worth)) if rooms else None


def _worth(room: Room) -> float:
    return room.confidence * room.outline_px.area if room.outline_px else 0.0


def _question(room: Room) -> Question:
    assert room.outline_px is not None
    left, top, right, bottom = room.outline_px.bounds
    across, down = (left + right) / 2, (top + bottom) / 2
    if right - left >= bottom - top:
        way, start, end = "from left to right", (left, down), (right, down)
    else:
        way, start, end = "from top to bottom", (across, top), (across, bottom)
    return Question(
        says=f"How long is {room.name} {way}, from wall to wall at its longest?",
        storey=room.storey,
        start_px=(round(start[0], 1), round(start[1], 1)),
        end_px=(round(end[0], 1), round(end[1], 1)),
    )
