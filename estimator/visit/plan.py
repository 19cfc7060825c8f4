"""From the work in every room to a timetable for the crew."""

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import product

from estimator.errors import NoSuchEntry, QuantityError
from estimator.measures import Seconds, SquareMetres
from estimator.visit.bound import lower_bound
from estimator.visit.chores import Chores, Job
from estimator.visit.equipment import Pace, SiteTimes, Sprayer, WorkingTime
from estimator.visit.findings import findings
from estimator.visit.orders import gone_over_together, manners, orders
from estimator.visit.precautions import Precaution, called_for
from estimator.visit.reentry import airing, reentry
from estimator.visit.route import Route, route
from estimator.visit.schedule import Line, ListSchedule
from estimator.visit.sharing import Fills, full_tanks, sharings, usual_sprayers
from estimator.visit.spraying import bouts, spraying_time
from estimator.visit.timetable import Step, Task, Timetable
from estimator.visit.work import RoomWork

ANY_USE = "*"
"""The use of the pace that stands for every room without its own."""

MOST_PEOPLE = 100
"""No larger crew is planned for."""


def plan_visit(
    work: Sequence[RoomWork],
    sprayer: Sprayer,
    paces: Sequence[Pace],
    times: SiteTimes,
    rest: WorkingTime,
    *,
    crew: int,
    sprayers: int | None = None,
    fills: Fills | None = None,
    strong_first: bool = False,
    label_reentry: Seconds | None,
    precautions: Sequence[Precaution] = (),
) -> Timetable:
    """Return who does what where and when, and when each room may be used again.

    Several timetables are made, by taking branches of the building in different order and by
    finishing rooms before or after what lies on their way out is sprayed; the shortest is kept.

    Parameters
    ----------
    work
        Rooms with nothing to spray may be among it: they are only walked through.
    sprayers
        How many of the crew spray; None for one of every two.
    fills
        What is made up at once, by strength; None for full tanks.
    strong_first
        Whether the label asks to work from strong to weak.
    label_reentry
        Least time after treatment before people return, by the label; None when not known.
    precautions
        What to look for in rooms before they are sprayed.

    Raises
    ------
    QuantityError
        When there is nobody to do it, or the crew is not one that could be.
    NoSuchEntry
        When there is no pace for a room.
    """
    check_crew(crew, sprayers)
    spraying = usual_sprayers(crew) if sprayers is None else sprayers
    ways = route(work)
    real = [item for item in work if item.sprayed or item.volume]
    pace_of = _paces(real, paces)
    jobs = list(_jobs(real, ways, pace_of, sprayer, times, rest, spraying, fills, strong_first))
    made: list[tuple[Seconds, int, Job, ListSchedule]] = []
    for job in jobs:
        for manner in manners(job.chores):
            schedule = ListSchedule(job, crew, manner)
            schedule.make()
            made.append((schedule.done, len(made), job, schedule))
    done, _, job, best = min(made)
    on_site = done + times.leave
    bound = (
        times.arrive
        + times.leave
        + lower_bound(
            job.work,
            [spraying_time(item, pace_of[item.room], sprayer) for item in job.work],
            job.chores,
            sum(map(len, job.fills.values())),
            crew=crew,
            sprayers=spraying,
            sprayer=sprayer,
            times=times,
            rest=rest,
        )
    )
    airings = [airing(room, best.finishing[room][0], pace_of[room], times) for room in job.chores]
    tasks = [_task(line) for line in best.lines]
    return Timetable(
        crew=crew,
        sprayers=spraying,
        order=tuple(job.chores),
        path=tuple((room, ways.path[room]) for room in job.chores),
        tasks=(
            *_everybody(Step.ARRIVE, crew, 0.0, times.arrive),
            *sorted(tasks + airings, key=lambda task: task.start),
            *_everybody(Step.LEAVE, crew, done, on_site),
        ),
        on_site=on_site,
        person_time=crew * on_site,
        lower_bound=bound,
        reentry=tuple(
            reentry(
                aired,
                sprayed=best.sprayed[room],
                dry=best.dry[room],
                left=best.finishing[room][1],
                label=label_reentry,
            )
            for room, aired in zip(job.chores, airings, strict=True)
        ),
        findings=(*ways.findings, *findings(crew, on_site, rest)) if job.work else (),
        precautions=tuple(_precautions(job.work, precautions)),
    )


def _precautions(
    work: Sequence[RoomWork], precautions: Sequence[Precaution]
) -> Iterator[tuple[Precaution, tuple[str, ...]]]:
    """Yield each precaution that is called for, with the rooms it is called for in."""
    rooms: dict[str, dict[str, None]] = defaultdict(dict)
    for item in work:
        for one in called_for(precautions, item.use, item.holds, item.strength):
            rooms[one.slug][item.room] = None
    for one in precautions:
        if one.slug in rooms:
            yield one, tuple(rooms[one.slug])


def check_crew(crew: int, sprayers: int | None) -> None:
    """Refuse a crew that could not be.

    Raises
    ------
    QuantityError
        When there is nobody, a crowd, or more or fewer spray than can.
    """
    if crew < 1:
        raise QuantityError("crew", f"there are {crew} people", "give at least 1")
    if crew > MOST_PEOPLE:
        raise QuantityError("crew", f"there are {crew} people", f"give at most {MOST_PEOPLE}")
    if sprayers is not None and not 1 <= sprayers <= crew:
        raise QuantityError(
            "sprayers",
            f"there are {sprayers} for a crew of {crew}",
            "give at least 1 and no more than people",
        )


def _jobs(
    work: Sequence[RoomWork],
    ways: Route,
    paces: Mapping[str, Pace],
    sprayer: Sprayer,
    times: SiteTimes,
    rest: WorkingTime,
    sprayers: int,
    fills: Fills | None,
    strong_first: bool,
) -> Iterator[Job]:
    """Yield the job with the rooms in each order worth trying, strength by strength."""
    chores = _chores(work, paces, ways)
    made_up = full_tanks(work, sprayer.tank)
    tried = set()
    for order in orders(work, chores, ways):
        ordered = _ordered(work, order, strong_first)
        rooms = tuple(item.room for item in ordered)
        if rooms in tried:
            continue
        tried.add(rooms)
        durations = [spraying_time(item, paces[item.room], sprayer) for item in ordered]
        for sharing, together in product(
            [*sharings(ordered, durations, sprayers)],
            gone_over_together(work, chores),
        ):
            yield Job(
                work=ordered,
                bouts=[
                    tuple(
                        bouts(
                            numbers,
                            ordered,
                            durations,
                            ways.path,
                            sprayer,
                            times,
                            together=together,
                        )
                    )
                    for numbers in sharing
                ],
                chores={room: chores[room] for room in rooms},
                fills={at: (fills or {}).get(at) or full for at, full in made_up.items()},
                begin=times.arrive,
                mix=times.mix,
                break_after=max(0.0, rest.break_after - times.leave),
                break_length=rest.break_length,
            )


def _ordered(
    work: Sequence[RoomWork], order: Sequence[str], strong_first: bool
) -> tuple[RoomWork, ...]:
    """Return the work strength by strength, each from the far end to the exit."""
    place = {room: number for number, room in enumerate(order)}
    sign = -1 if strong_first else 1
    return tuple(sorted(work, key=lambda item: (sign * item.strength, place[item.room])))


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
    """Return what is done in each room besides spraying."""
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


def _task(line: Line) -> Task:
    start, end, step, room, person, volume, strength = line
    return Task(
        step=step,
        room=room,
        person=person,
        start=start,
        end=end,
        volume=volume,
        strength=strength,
    )


def _everybody(step: Step, crew: int, start: Seconds, end: Seconds) -> list[Task]:
    """Return a step that all of the crew do together."""
    return [
        Task(step=step, room=None, person=person, start=start, end=end)
        for person in range(1, crew + 1)
    ]
