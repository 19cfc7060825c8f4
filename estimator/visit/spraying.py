"""The sprayer's own work, in order: spray, refill when the tank is empty, change the battery."""

from collections.abc import Iterator, Mapping, Sequence

from attrs import frozen

from estimator.measures import Seconds
from estimator.visit.equipment import Pace, SiteTimes, Sprayer
from estimator.visit.timetable import Step
from estimator.visit.work import RoomWork

_NOTHING = 1e-9
"""Share of a tank, battery or pass below which rounding alone left it."""


@frozen
class Operation:
    """One uninterrupted piece of the sprayer's work.

    Parameters
    ----------
    work
        Number of the room's work it belongs to, in the order sprayed.
    turn
        Number of the pass over the room, from 0.
    begins, ends
        Whether the pass begins or ends with it.
    """

    step: Step
    duration: Seconds
    work: int
    turn: int = 0
    begins: bool = False
    ends: bool = False


def spraying_time(work: RoomWork, pace: Pace, sprayer: Sprayer) -> Seconds:
    """Return how long all passes over a room take: the slower of the pace and the nozzle's flow."""
    return max(work.sprayed / pace.spray, work.volume / sprayer.flow)


def operations(
    work: Sequence[RoomWork],
    paces: Mapping[str, Pace],
    sprayer: Sprayer,
    times: SiteTimes,
) -> Iterator[Operation]:
    """Yield the sprayer's work room by room; the tank is changed with the strength."""
    tank, battery, strength, fills = 0.0, sprayer.battery, None, 0
    for number, item in enumerate(work):
        if item.strength != strength:
            tank, strength = 0.0, item.strength
        each = spraying_time(item, paces[item.room], sprayer) / item.passes
        use = item.volume / item.passes / each
        for turn in range(item.passes):
            left = each
            while left > _NOTHING * each:
                if tank <= _NOTHING * sprayer.tank:
                    yield Operation(Step.REFILL, times.refill if fills else 0.0, number)
                    tank, fills = sprayer.tank, fills + 1
                if battery <= _NOTHING * sprayer.battery:
                    yield Operation(Step.BATTERY, times.battery_change, number)
                    battery = sprayer.battery
                time = min(left, battery, tank / use if use else left)
                yield Operation(
                    Step.SPRAY,
                    time,
                    number,
                    turn,
                    begins=left == each,
                    ends=left - time <= _NOTHING * each,
                )
                left, tank, battery = left - time, tank - time * use, battery - time
