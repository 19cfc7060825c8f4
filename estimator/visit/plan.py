"""From the work in every room to a timetable for the crew."""

from collections import defaultdict
from collections.abc import Mapping, Sequence

from estimator.errors import NoSuchEntry, QuantityError
from estimator.measures import Seconds, SquareMetres
from estimator.visit.bound import lower_bound
from estimator.visit.equipment import Pace, SiteTimes, Sprayer
from estimator.visit.reentry import airing, reentry
from estimator.visit.route import Route, route
from estimator.visit.schedule import Chores, ListSchedule
from estimator.visit.spraying import operations
from estimator.visit.timetable import Step, Task, Timetable
from estimator.visit.work import RoomWork

ANY_USE = "*"
"""The use of the pace that stands for every room without its own."""


def plan_visit(
    work: Sequence[RoomWork],
    sprayer: Sprayer,
    paces: Sequence[Pace],
    times: SiteTimes,
    *,
    crew: int,
    label_reentry: Seconds | None,
) -> Timetable:
    """Return who does what where and when, and when each room may be used again.

    Parameters
    ----------
    work
        Rooms with nothing to spray may be among it: they are only walked through.
    label_reentry
        Least time after treatment before people return, by the label; None when not known.

    Raises
    ------
    QuantityError
        When there is nobody to do it.
    NoSuchEntry
        When there is no pace for a room.
    """
    if crew < 1:
        raise QuantityError("crew", f"there are {crew} people", "give at least 1")
    ways = route(work)
    ordered = _ordered(work, ways)
    pace_of = _paces(ordered, paces)
    chores = _chores(ordered, pace_of, ways)
    steps = tuple(operations(ordered, pace_of, sprayer, times))
    schedule = ListSchedule(ordered, steps, chores, crew=crew, begin=times.arrive, mix=times.mix)
    done = schedule.make()
    on_site = done + times.leave
    airings = [airing(room, schedule.finishing[room][0], pace_of[room], times) for room in chores]
    return Timetable(
        crew=crew,
        order=tuple(chores),
        tasks=(
            *_everybody(Step.ARRIVE, crew, 0.0, times.arrive),
            *sorted(schedule.tasks + airings, key=lambda task: task.start),
            *_everybody(Step.LEAVE, crew, done, on_site),
        ),
        on_site=on_site,
        person_time=crew * on_site,
        lower_bound=times.arrive
        + lower_bound(ordered, steps, chores, crew=crew, mix=times.mix)
        + times.leave,
        reentry=tuple(
            reentry(
                aired,
                sprayed=schedule.sprayed[room],
                dry=schedule.dry[room],
                left=schedule.finishing[room][1],
                label=label_reentry,
            )
            for room, aired in zip(chores, airings, strict=True)
        ),
    )


def _ordered(work: Sequence[RoomWork], ways: Route) -> tuple[RoomWork, ...]:
    """Return the work from weak to strong, each strength from the far end to the exit."""
    place = {room: number for number, room in enumerate(ways.order)}
    real = [item for item in work if item.sprayed or item.volume]
    return tuple(sorted(real, key=lambda item: (item.strength, place[item.room])))


def _paces(work: Sequence[RoomWork], paces: Sequence[Pace]) -> dict[str, Pace]:
    """Return the pace of work in each room, by its use or else the pace of every use."""
    by_use = {pace.use: pace for pace in paces}
    found = {}
    for item in work:
        pace = by_use.get(item.use) or by_use.get(ANY_USE)
        if pace is None:
            raise NoSuchEntry(
                item.name, f"there is no pace for the use {item.use!r}", "add one, or one for '*'"
            )
        found[item.room] = pace
    return found


def _chores(work: Sequence[RoomWork], paces: Mapping[str, Pace], ways: Route) -> dict[str, Chores]:
    """Return what is done in each room besides spraying, in the order they are first sprayed."""
    wiped: dict[str, SquareMetres] = defaultdict(float)
    for item in work:
        wiped[item.room] += item.wiped
    chores = {}
    for item in work:
        pace = paces[item.room]
        masking = item.floor_area * pace.prepare / 2
        chores[item.room] = Chores(
            prepare=masking,
            wipe=wiped[item.room] / pace.wipe,
            unmask=masking,
            path=ways.path[item.room],
        )
    return chores


def _everybody(step: Step, crew: int, start: Seconds, end: Seconds) -> list[Task]:
    """Return a step that all of the crew do together."""
    return [
        Task(step=step, room=None, person=person, start=start, end=end)
        for person in range(1, crew + 1)
    ]
