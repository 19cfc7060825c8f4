"""Orders of the rooms that are worth trying, all from the far end to the exit."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import permutations

from estimator.visit.chores import Chores
from estimator.visit.route import Route
from estimator.visit.schedule import Manner
from estimator.visit.work import RoomWork

_ALL_TRIED = 4
"""Up to so many rooms everything is tried."""

_LAST = 1e9
"""A rank behind every time."""


def orders(
    work: Sequence[RoomWork], chores: Mapping[str, Chores], ways: Route
) -> Iterator[tuple[str, ...]]:
    """Yield orders of the rooms in which all that lies beyond a room comes before it.

    Every one where the rooms are few. Else branch by branch, the deepest first; by the number of
    rooms to the way out, so that several sprayers work in several branches; branches first whose
    room keeps wet and is finished the longest, so that little is left to wait for at the end; and
    by Johnson's rule for two machines in a row [1]_, here preparing before all that comes after.

    References
    ----------
    .. [1] S. M. Johnson, *Optimal two- and three-stage production schedules with setup times
       included*, Naval Research Logistics Quarterly 1 (1954), 61-68 (from memory).
    """
    if len(chores) <= _ALL_TRIED:
        for order in permutations(chores):
            place = {room: number for number, room in enumerate(order)}
            if all(
                place[room] < place[other]
                for room, chore in chores.items()
                for other in chore.path
                if other in place
            ):
                yield order
        return
    deepest_first = ways.order()
    yield deepest_first
    yield tuple(sorted(deepest_first, key=lambda room: -len(ways.path[room])))
    after = {item.room: item.hold + chores[item.room].finish for item in work}
    yield ways.order({room: -time for room, time in after.items()})
    yield ways.order(
        {
            room: chores[room].prepare if chores[room].prepare <= time else _LAST - time
            for room, time in after.items()
        }
    )


def manners(rooms: Collection[str]) -> tuple[Manner, ...]:
    """Return when it is worth trying to finish rooms."""
    return tuple(Manner) if len(rooms) <= _ALL_TRIED else (Manner.SOON, Manner.FIRST)


def gone_over_together(work: Sequence[RoomWork], rooms: Collection[str]) -> tuple[bool, ...]:
    """Return whether it is worth trying to go over several rooms together, and one by one."""
    several = any(item.passes > 1 for item in work)
    return (True, False) if several and len(rooms) < _ALL_TRIED else (True,)
