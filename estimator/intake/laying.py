"""Lay typed rooms out: those that are joined beside each other, the rest in rows."""

from collections.abc import Mapping, Sequence

import numpy as np
import shapely
from attrs import evolve

from estimator.intake.rows import in_rows
from estimator.plan.beside import Link, beside
from estimator.plan.doubt import Doubt
from estimator.plan.ground import Ground
from estimator.plan.opening import Opening
from estimator.plan.room import Room

Links = Mapping[str, Sequence[Link]]
"""The joints of each room by its id, said of either of both."""


def laid_out(rooms: Sequence[Room], links: Links) -> tuple[tuple[Room, ...], tuple[Doubt, ...]]:
    """Return the rooms in order, moved so that none overlaps, with doors where they are joined."""
    known = {room.id: room for room in rooms}
    doubts: list[Doubt] = []
    groups: list[dict[str, Room]] = []
    placed: set[str] = set()
    for room in rooms:
        if room.id not in placed:
            group = _group(room.id, known, links, doubts)
            placed |= group.keys()
            groups.append(group)
    boxes = [
        shapely.total_bounds([one.outline for one in group.values()]).tolist() for group in groups
    ]
    places = in_rows([(box[2] - box[0], box[3] - box[1]) for box in boxes])
    moved = {
        room.id: _shifted(room, place.bounds[0] - box[0], place.bounds[1] - box[1])
        for group, box, place in zip(groups, boxes, places, strict=True)
        for room in group.values()
    }
    return tuple(moved[room.id] for room in rooms), tuple(doubts)


def _group(
    first: str, known: Mapping[str, Room], links: Links, doubts: list[Doubt]
) -> dict[str, Room]:
    """Return the rooms joined with a room, directly or through others, beside each other.

    The room with most joints is laid down first, then always one that is joined with a room that
    lies already.
    """
    members = {first: None}
    waiting = [first]
    for name in waiting:
        new = [link.room for link in links.get(name, ()) if link.room not in members]
        members |= dict.fromkeys(new)
        waiting += new
    start = max(members, key=lambda name: len(links.get(name, ())))
    laid = {start: known[start]}
    waiting = [start]
    for name in waiting:
        for follower in (link.room for link in links.get(name, ())):
            if follower in laid:
                continue
            there = [link for link in links.get(follower, ()) if link.room in laid]
            made, said = beside(laid, known[follower], there, Ground())
            laid |= {room.id: room for room in made}
            doubts += said
            waiting.append(follower)
    return laid


def _shifted(room: Room, across: float, down: float) -> Room:
    assert room.outline is not None

    def shifted(opening: Opening) -> Opening:
        assert opening.start
        assert opening.end
        (x0, y0), (x1, y1) = opening.start, opening.end
        return evolve(opening, start=(x0 + across, y0 + down), end=(x1 + across, y1 + down))

    outline = shapely.transform(room.outline, lambda places: np.add(places, (across, down)))
    return evolve(room, outline=outline, openings=tuple(map(shifted, room.openings)))
