"""The way through the building: from the far end back to the exit, over the graph of doors.

A room's path is the chain of rooms between it and the way out. Rooms are taken so that everything
beyond a room is sprayed before the room itself, upper storeys first; then nobody has to walk
through a wet room to leave. What the plan does not say about doors is guessed, and the route says
so.
"""

from collections.abc import Iterable, Mapping, Sequence

import networkx as nx
from attrs import frozen

from estimator.visit.work import RoomWork

_OUTSIDE = ""
"""The node that stands for the open air."""

_NAMED = 6
"""No more rooms than these are named in a sentence."""


@frozen
class Route:
    """The way out of each room.

    Parameters
    ----------
    path
        The rooms between each room and the way out, the nearest first.
    storey
        The storey of each room.
    findings
        What had to be assumed about doors and exits, one sentence each.
    """

    path: dict[str, tuple[str, ...]]
    storey: dict[str, int]
    findings: tuple[str, ...] = ()

    @property
    def beyond(self) -> dict[str, list[str]]:
        """The rooms next beyond each room, away from the way out; those at it under no name."""
        beyond: dict[str, list[str]] = {room: [] for room in (*self.path, _OUTSIDE)}
        for room, path in self.path.items():
            beyond[path[0] if path else _OUTSIDE].append(room)
        return beyond

    def order(self, rank: Mapping[str, float] | None = None) -> tuple[str, ...]:
        """Return every room after all that lie beyond it, branch by branch.

        Branches to upper storeys come first, then those of least rank, then the deepest.
        """
        return _far_end_first(self.beyond, self.storey, rank or {})


def route(work: Sequence[RoomWork]) -> Route:
    """Return the way out of every room: the one through the fewest rooms."""
    rooms = {item.room: item for item in work}
    doors = _doors(rooms)
    exits = [room for room, item in rooms.items() if item.leads_out]
    unsure = [room for room, item in rooms.items() if item.leads_on]
    names = {room: item.name or room for room, item in rooms.items()}
    findings = []
    if not exits:
        exits = unsure or [room for room in _entrances(doors) if len(rooms) > 1]
        if not doors.number_of_edges() and not unsure and exits:
            exits = list(rooms)
            findings.append("No door is known, so the rooms keep their order: mark the doors.")
        elif exits:
            findings.append(
                "No door is known to lead out of the building; the crew is taken to leave by "
                f"{_listed(names[room] for room in exits)}: mark the way out."
            )
    path = _paths(doors, exits)
    if cut_off := [room for room in rooms if room not in path and len(rooms) > 1]:
        findings.append(
            f"No door is known between the way out and {_listed(names[room] for room in cut_off)}; "
            "whether the crew gets there dry is not known: mark the doors."
        )
        rest = doors.subgraph(cut_off)
        path |= _paths(rest, _entrances(rest))
    return Route(
        path={room: path.get(room, ()) for room in rooms},
        storey={room: item.storey for room, item in rooms.items()},
        findings=tuple(findings),
    )


def _doors(rooms: Mapping[str, RoomWork]) -> "nx.Graph[str]":
    """Return the graph of doors, whichever side named them, in the order given."""
    doors: nx.Graph[str] = nx.Graph()
    doors.add_nodes_from(rooms)
    doors.add_edges_from(
        (room, other)
        for room, item in rooms.items()
        for other in item.leads_to
        if other in rooms and other != room
    )
    return doors


def _entrances(doors: "nx.Graph[str]") -> list[str]:
    """Return the room with the most doors of each part of the building."""
    place = {room: number for number, room in enumerate(doors)}
    return sorted(
        (
            max(part, key=lambda room: (doors.degree[room], -place[room]))
            for part in nx.connected_components(doors)
        ),
        key=place.__getitem__,
    )


def _paths(doors: "nx.Graph[str]", exits: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Return the way out of each room that has one, breadth first from all exits at once."""
    ways = nx.Graph(doors)
    ways.add_edges_from((_OUTSIDE, room) for room in exits)
    path: dict[str, tuple[str, ...]] = {}
    for room, before in nx.bfs_predecessors(ways, _OUTSIDE) if _OUTSIDE in ways else ():
        path[room] = () if before == _OUTSIDE else (before, *path[before])
    return path


def _far_end_first(
    beyond: Mapping[str, Sequence[str]], storey: Mapping[str, int], rank: Mapping[str, float]
) -> tuple[str, ...]:
    """Return every room after all that lie beyond it, one branch after the other."""
    outwards = [_OUTSIDE]
    for room in outwards:
        outwards.extend(beyond[room])
    depth: dict[str, int] = {}
    top: dict[str, int] = dict(storey)
    for room in reversed(outwards[1:]):
        depth[room] = 1 + max((depth[other] for other in beyond[room]), default=0)
        top[room] = max([storey[room], *(top[other] for other in beyond[room])])
    order: list[str] = []
    visits = [(_OUTSIDE, False)]
    while visits:
        room, seen = visits.pop()
        if seen:
            order.append(room)
            continue
        visits.append((room, True))
        branches = sorted(
            beyond[room], key=lambda other: (-top[other], rank.get(other, 0.0), -depth[other])
        )
        visits.extend((other, False) for other in reversed(branches))
    return tuple(order[:-1])


def _listed(names: Iterable[str]) -> str:
    """Return names as words, the first few of many.

    >>> _listed(["Hall", "Shop", "Yard"])
    'Hall, Shop and Yard'
    """
    named = list(dict.fromkeys(names))
    if len(named) > _NAMED:
        return f"{', '.join(named[:_NAMED])} and {len(named) - _NAMED} others"
    return " and ".join(filter(None, (", ".join(named[:-1]), named[-1])))
