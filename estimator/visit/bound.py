"""The shortest that any timetable of the work could be."""

from collections.abc import Mapping, Sequence

from estimator.measures import Seconds
from estimator.visit.schedule import Chores
from estimator.visit.spraying import Operation
from estimator.visit.timetable import Step
from estimator.visit.work import RoomWork


def lower_bound(
    work: Sequence[RoomWork],
    operations: Sequence[Operation],
    chores: Mapping[str, Chores],
    *,
    crew: int,
    mix: Seconds,
) -> Seconds:
    """Return a time that no timetable can beat, between arriving and leaving.

    It is the longest of three: all work shared evenly by the crew; the chain of the one sprayer,
    from the first room prepared to the last room wiped; and the longest chain of any one room.
    """
    if not work:
        return 0.0
    fills = sum(operation.step is Step.REFILL for operation in operations)
    spraying = sum(operation.duration for operation in operations)
    around = {room: chore.prepare + chore.wipe + chore.unmask for room, chore in chores.items()}
    after = [_after_spraying(item, chores[item.room]) for item in work]
    before = max(mix, min(chore.prepare for chore in chores.values()))
    in_room = [0.0] * len(work)
    for operation in operations:
        if operation.step is Step.SPRAY:
            in_room[operation.work] += operation.duration
    return max(
        (fills * mix + spraying + sum(around.values())) / crew,
        before + spraying + min(after),
        max(
            chores[item.room].prepare + time + rest
            for item, time, rest in zip(work, in_room, after, strict=True)
        ),
    )


def _after_spraying(item: RoomWork, chores: Chores) -> Seconds:
    """Return what follows the end of spraying: the last pass keeps wet, then wipe and unmask."""
    return item.contact_time / item.passes + chores.wipe + chores.unmask
