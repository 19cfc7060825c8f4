"""A sprayer's own work in order: fill, spray, refill when empty, change the battery.

A room that takes several passes is gone over again just when the pass before would dry. Where one
pass takes longer than that, the room is sprayed in sections; where it takes less, the next rooms
are sprayed meanwhile, pass by pass.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from attrs import evolve, field, frozen

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.equipment import Pace, SiteTimes, Sprayer
from estimator.visit.timetable import Step
from estimator.visit.work import RoomWork

_NOTHING = 1e-9
"""Share of a tank, battery or room below which rounding alone left it."""


@frozen
class Pass:
    """One uninterrupted piece of spraying.

    Parameters
    ----------
    work
        Number of the room's work it belongs to, in the order of the whole visit.
    after
        From the start of the bout.
    first, last
        Whether the room's work begins or ends with it.
    """

    work: int
    after: Seconds
    duration: Seconds
    volume: CubicMetres
    first: bool = False
    last: bool = False


@frozen(kw_only=True)
class Bout:
    """What a sprayer does without a pause: filling, changing the battery, or passes over rooms.

    Parameters
    ----------
    work
        Number of the room's work it is done for.
    volume, strength
        Liquid filled in or sprayed.
    """

    step: Step
    duration: Seconds
    work: int
    volume: CubicMetres = 0.0
    strength: KilogramsPerCubicMetre
    passes: tuple[Pass, ...] = field(default=())


def spraying_time(work: RoomWork, pace: Pace, sprayer: Sprayer) -> Seconds:
    """Return how long all passes over a room take: the slower of the pace and the nozzle's flow."""
    return max(work.sprayed / pace.spray, work.volume / sprayer.flow)


def bouts(
    numbers: Sequence[int],
    work: Sequence[RoomWork],
    durations: Sequence[Seconds],
    ways: Mapping[str, Sequence[str]],
    sprayer: Sprayer,
    times: SiteTimes,
    *,
    together: bool = True,
) -> Iterator[Bout]:
    """Yield one sprayer's work; the tank is emptied and filled anew when the strength changes.

    Parameters
    ----------
    numbers
        Which of the work it sprays, in order.
    durations
        Time to spray each of the work, all passes together.
    ways
        Each room's way out: rooms gone over together must not lie on each other's.
    together
        Whether rooms of several passes are gone over together where they can be.
    """
    to_come: dict[KilogramsPerCubicMetre, CubicMetres] = {}
    for number in numbers:
        item = work[number]
        to_come[item.strength] = to_come.get(item.strength, 0.0) + item.volume
    tank, charge, strength, filled = 0.0, sprayer.battery, -1.0, False
    for bout in _unfilled(numbers, work, durations, ways, sprayer, together):
        if bout.strength != strength:
            tank, strength = 0.0, bout.strength
        for part in _parts(bout, sprayer.tank, tank, charge, sprayer.battery):
            if part.volume > tank * (1 + _NOTHING) + _NOTHING * sprayer.tank:
                load = min(sprayer.tank, to_come[strength]) - tank
                pause = times.refill if filled else 0.0
                tank, filled = tank + load, True
                yield Bout(
                    step=Step.REFILL,
                    duration=pause,
                    work=part.work,
                    volume=load,
                    strength=strength,
                )
            busy = sum(each.duration for each in part.passes)
            if busy > charge * (1 + _NOTHING):
                charge = sprayer.battery
                yield Bout(
                    step=Step.BATTERY,
                    duration=times.battery_change,
                    work=part.work,
                    strength=strength,
                )
            yield part
            tank, charge = tank - part.volume, charge - busy
            to_come[strength] -= part.volume


def _unfilled(
    numbers: Sequence[int],
    work: Sequence[RoomWork],
    durations: Sequence[Seconds],
    ways: Mapping[str, Sequence[str]],
    sprayer: Sprayer,
    together: bool,
) -> Iterator[Bout]:
    """Yield the passes over the rooms, as if tank and battery had no end."""
    waiting: list[Bout] = []
    for number in numbers:
        for section in _sections(number, work[number], durations[number], sprayer):
            if waiting and not (together and _fits(section, waiting, work, ways, sprayer)):
                yield _together(waiting)
                waiting = []
            waiting.append(section)
            if len(section.passes) == 1:
                yield waiting.pop()
    if waiting:
        yield _together(waiting)


def _sections(number: int, item: RoomWork, duration: Seconds, sprayer: Sprayer) -> Iterator[Bout]:
    """Yield a room whole where one pass wets it, else in sections small enough to return to."""
    passes = item.passes if item.hold else 1
    count = 1
    if passes > 1:
        needs = (duration / passes / item.hold, item.volume / sprayer.tank)
        count = max(1, *(math.ceil(need * (1 - _NOTHING)) for need in needs))
    time, volume = duration / count / passes, item.volume / count / passes
    for section in range(count):
        yield Bout(
            step=Step.SPRAY,
            duration=(passes - 1) * item.hold + time,
            work=number,
            volume=volume * passes,
            strength=item.strength,
            passes=tuple(
                Pass(
                    work=number,
                    after=turn * item.hold,
                    duration=time,
                    volume=volume,
                    first=section == turn == 0,
                    last=section == count - 1 and turn == passes - 1,
                )
                for turn in range(passes)
            ),
        )


def _fits(
    section: Bout,
    waiting: Sequence[Bout],
    work: Sequence[RoomWork],
    ways: Mapping[str, Sequence[str]],
    sprayer: Sprayer,
) -> bool:
    """Whether a section can be gone over together with others, between their passes."""
    item, first = work[section.work], work[waiting[0].work]
    if (item.strength, item.passes, item.hold) != (first.strength, first.passes, first.hold):
        return False
    rooms = {work[other.work].room for other in waiting} - {item.room}
    crossed = rooms & {*ways[item.room]} or any(item.room in ways[room] for room in rooms)
    return (
        not crossed
        and sum(bout.passes[0].duration for bout in (*waiting, section)) <= item.hold
        and sum(bout.volume for bout in (*waiting, section)) <= sprayer.tank
    )


def _together(sections: Sequence[Bout]) -> Bout:
    """Return sections gone over together: the first pass over each, then the second."""
    first = sections[0]
    begun, passes = 0.0, []
    for section in sections:
        passes += [evolve(each, after=each.after + begun) for each in section.passes]
        begun += section.passes[0].duration
    passes.sort(key=lambda each: each.after)
    end = passes[-1].after + passes[-1].duration
    return evolve(
        first,
        duration=end,
        volume=sum(section.volume for section in sections),
        passes=tuple(passes),
    )


def _parts(
    bout: Bout, size: CubicMetres, tank: CubicMetres, charge: Seconds, battery: Seconds
) -> Iterator[Bout]:
    """Yield a bout cut where tank or battery run empty; several passes are never cut."""
    if len(bout.passes) > 1:
        yield bout
        return
    (whole,) = bout.passes
    flow = whole.volume / whole.duration if whole.duration else 0.0
    left = whole.duration
    while left > 0:
        if tank <= _NOTHING * size:
            tank = size
        if charge <= _NOTHING * battery:
            charge = battery
        time = min(left, charge, tank / flow if flow else left)
        last = left - time <= _NOTHING * whole.duration
        part = evolve(
            whole,
            duration=time,
            volume=time * flow,
            first=whole.first and left == whole.duration,
            last=whole.last and last,
        )
        yield evolve(bout, duration=time, volume=part.volume, passes=(part,))
        tank, charge = tank - time * flow, charge - time
        left = 0.0 if last else left - time
