"""The way through the building: from the far end back to the exit, over the graph of doors.

A room's path is the chain of rooms between it and the way out. Rooms are taken so that everything
beyond a room is sprayed before the room itself, upper storeys first; then nobody has to walk
through a wet room to leave. Where nobody knows the doors, rooms keep the order they were given in.
"""

from collections import deque
from collections.abc import Sequence

from attrs import frozen

from estimator.visit.work import RoomWork


@frozen
class Route:
    """The rooms in the order they are taken, and each one's way out."""

    order: tuple[str, ...]
    path: dict[str, tuple[str, ...]]


def route(work: Sequence[RoomWork]) -> Route:
    """Return the order that leads from the far end back to the exit."""
    storey = {item.room: item.storey for item in work}
    doors = _doors(work)
    exits = dict.fromkeys(item.room for item in work if item.leads_out)
    beyond, path = _walk(doors, list(exits))
    order = _far_end_first(beyond, [room for room in doors if not path[room]])
    return Route(tuple(sorted(order, key=lambda room: -storey[room])), path)


def _doors(work: Sequence[RoomWork]) -> dict[str, dict[str, None]]:
    """Return the rooms next to each room, in the order given, whichever side named the door."""
    doors: dict[str, dict[str, None]] = {item.room: {} for item in work}
    for item in work:
        for other in item.leads_to:
            if other in doors and other != item.room:
                doors[item.room][other] = None
                doors[other][item.room] = None
    return doors


def _walk(
    doors: dict[str, dict[str, None]], exits: list[str]
) -> tuple[dict[str, list[str]], dict[str, tuple[str, ...]]]:
    """Return the rooms just beyond each room, and the way out of each, nearest exit first.

    A part of the building without an exit is entered by the room with the most doors.
    """
    beyond: dict[str, list[str]] = {room: [] for room in doors}
    path: dict[str, tuple[str, ...]] = {}
    by_doors = sorted(doors, key=lambda room: -len(doors[room]))
    for entrances in (exits, *([room] for room in by_doors)):
        queue = deque(room for room in entrances if room not in path)
        path.update((room, ()) for room in queue)
        while queue:
            room = queue.popleft()
            for other in doors[room]:
                if other not in path:
                    path[other] = (room, *path[room])
                    beyond[room].append(other)
                    queue.append(other)
    return beyond, path


def _far_end_first(beyond: dict[str, list[str]], entrances: list[str]) -> list[str]:
    """Return every room after all that lie beyond it, the deepest branch first."""
    outwards = list(entrances)
    for room in outwards:
        outwards.extend(beyond[room])
    depth: dict[str, int] = {}
    for room in reversed(outwards):
        depth[room] = 1 + max((depth[other] for other in beyond[room]), default=0)
    order: list[str] = []
    for entrance in entrances:
        visits = [(entrance, False)]
        while visits:
            room, seen = visits.pop()
            if seen:
                order.append(room)
                continue
            visits.append((room, True))
            deepest_first = sorted(beyond[room], key=depth.__getitem__, reverse=True)
            visits.extend((other, False) for other in reversed(deepest_first))
    return order
