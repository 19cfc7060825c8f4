"""The shortest that any timetable of the work could be."""

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.chores import Chores
from estimator.visit.equipment import SiteTimes, Sprayer, WorkingTime
from estimator.visit.work import RoomWork


def lower_bound(
    work: Sequence[RoomWork],
    spraying: Sequence[Seconds],
    chores: Mapping[str, Chores],
    mixes: int,
    *,
    crew: int,
    sprayers: int,
    sprayer: Sprayer,
    times: SiteTimes,
    rest: WorkingTime,
) -> Seconds:
    """Return a time that no timetable can beat, between arriving and leaving.

    It is the longest of three: all work shared evenly by the crew, with its breaks; the chain of
    the sprayers, from the first room prepared to the last room wiped; and, since a room is sprayed
    after all that lies beyond it, the same chain as far as each room.

    Parameters
    ----------
    work
        In an order that any timetable keeps: everything beyond a room before it at each strength.
    spraying
        Time to spray each of the work.
    mixes
        How many mixes are made up.
    """
    if not work:
        return 0.0
    refills = max(0, _fewest_fills(work, sprayer) - sprayers) * times.refill
    around = sum(chore.prepare + chore.finish for chore in chores.values())
    each = (mixes * times.mix + refills + sum(spraying) + around) / crew
    each += _breaks(times.arrive + each + times.leave, rest)
    by_sprayer = (sum(spraying) + refills) / sprayers
    by_sprayer += _breaks(by_sprayer, rest)
    first_prepared = min(chore.prepare for chore in chores.values())
    before = times.mix + first_prepared if crew == 1 else max(times.mix, first_prepared)
    beyond: dict[str, Seconds] = defaultdict(float)
    chain = 0.0
    for item, time in zip(work, spraying, strict=True):
        chore = chores[item.room]
        rest_of_it = time + _waiting(item, time) + item.hold + chore.finish
        chain = max(
            chain, before + beyond[item.room] / sprayers + rest_of_it, chore.prepare + rest_of_it
        )
        for other in chore.path:
            beyond[other] += time
    last = before + by_sprayer + _shortest_end(work, chores)
    return max(each, chain, last)


def _fewest_fills(work: Sequence[RoomWork], sprayer: Sprayer) -> int:
    volumes: dict[KilogramsPerCubicMetre, CubicMetres] = defaultdict(float)
    for item in work:
        volumes[item.strength] += item.volume
    return sum(math.ceil(volume / sprayer.tank * (1 - 1e-9)) for volume in volumes.values())


def _shortest_end(work: Sequence[RoomWork], chores: Mapping[str, Chores]) -> Seconds:
    """Return the least that follows the last spraying, which is in no room beyond a later one."""
    later: set[str] = set()
    ends = []
    for item in reversed(work):
        if later.isdisjoint(chores[item.room].path):
            ends.append(item.hold + chores[item.room].finish)
        later.add(item.room)
    return min(ends)


def _waiting(item: RoomWork, time: Seconds) -> Seconds:
    """Return how long a room must wait between its passes besides being sprayed."""
    if item.passes < 2 or not item.hold:
        return 0.0
    return max(0.0, (item.passes - 1) * (item.hold - time / item.passes))


def _breaks(work: Seconds, rest: WorkingTime) -> Seconds:
    """Return the breaks that so much work of one person takes."""
    spells = math.ceil(work / rest.break_after * (1 - 1e-9))
    return max(0, spells - 1) * rest.break_length
