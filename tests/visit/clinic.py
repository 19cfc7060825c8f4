"""The ground floor of the outpatient clinic among the reference buildings, with doors put in.

U.S. Department of Energy Commercial Reference Building Models of the National Building Stock, Deru
et al. (2010). Credit: DOE, NREL, PNNL and LBNL. The models have no inside doors: ours stand where a
room shares a wall with a hall, halls among themselves first, else with any other room. People come
and go through the vestibule. Names are those of the model; uses and the town are ours.
"""

import json
from itertools import combinations
from pathlib import Path

import networkx as nx
from attrs import evolve
from shapely.geometry import LineString
from shapely.ops import linemerge

from estimator.plan.geometry import polygon
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

FACTS = json.loads(
    (Path(__file__).parents[1] / "surfaces" / "data" / "reference_buildings.json").read_text(
        "utf-8"
    )
)["buildings"]["outpatient_clinic_floor_1"]["rooms"]

DOOR = 0.9
ENTRANCE = "Vestibule"
USES = {  # the first word found in the name decides
    "hall": "corridor",
    "vestibule": "lobby",
    "toilet": "toilet",
    "lobby": "lobby",
    "reception": "reception",
    "locker": "bathroom",
    "dressing": "bathroom",
    "cafe": "restaurant_dining",
    "nourishment": "kitchen",
    "lounge": "staff_room",
    "it room": "server_room",
    "office": "office",
    "dictation": "office",
    "scheduling": "office",
    "control": "office",
    "station": "office",
    "storage": "storage",
    "electrical": "utility_room",
    "elevator": "utility_room",
    "humid": "utility_room",
    "gas": "utility_room",
    "janitor": "utility_room",
    "utility": "utility_room",
}


def clinic() -> Plan:
    """Return the 55 rooms with their uses, doors and the way out."""
    rooms = {str(number): _room(str(number), facts) for number, facts in enumerate(FACTS, 1)}
    for one, other in _doors(rooms):
        wall = _shared(rooms[one], rooms[other])
        for room, beyond in ((one, other), (other, one)):
            rooms[room] = _opened(rooms[room], wall, beyond)
    entrance = next(room for room in rooms.values() if room.name == ENTRANCE)
    rooms[entrance.id] = _opened(entrance, _free_wall(entrance, rooms), None)
    return Plan(title="Larkfield Outpatient Clinic", rooms=tuple(rooms.values()))


def _room(slug: str, facts: dict) -> Room:
    name = facts["name"].removeprefix("Floor 1 ")
    use = next((use for word, use in USES.items() if word in name.lower()), "treatment_room")
    return Room(
        id=slug,
        name=name,
        use=use,
        outline=polygon(facts["outline"]),
        ceiling_height=facts["height"],
    )


def _shared(one: Room, other: Room) -> LineString:
    """Return the longest straight piece of wall that two rooms share, empty where there is none."""
    met = one.outline.boundary.intersection(other.outline.boundary)
    lines = [part for part in getattr(met, "geoms", [met]) if part.geom_type == "LineString"]
    merged = linemerge(lines) if len(lines) > 1 else lines[0] if lines else LineString()
    pieces = [
        LineString(pair)
        for line in getattr(merged, "geoms", [merged])
        for pair in zip(line.coords, line.coords[1:], strict=False)
    ]
    return max(pieces, key=lambda piece: piece.length, default=LineString())


def _doors(rooms: dict[str, Room]) -> list[tuple[str, str]]:
    """Return one door to every room: the spanning tree that prefers halls, then long walls."""
    ways = nx.Graph()
    ways.add_nodes_from(rooms)
    for one, other in combinations(rooms, 2):
        wall = _shared(rooms[one], rooms[other])
        halls = sum(rooms[room].use in ("corridor", "lobby") for room in (one, other))
        if wall.length > DOOR + 0.1:
            ways.add_edge(one, other, weight=1000 * (2 - halls) - wall.length)
    return sorted(nx.minimum_spanning_tree(ways).edges)


def _free_wall(room: Room, rooms: dict[str, Room]) -> LineString:
    """Return the longest piece of a room's walls that no other room shares."""
    free = room.outline.boundary
    for other in rooms.values():
        if other.id != room.id:
            free = free.difference(other.outline.buffer(1e-6))
    pieces = [
        LineString(pair)
        for line in getattr(free, "geoms", [free])
        for pair in zip(line.coords, line.coords[1:], strict=False)
    ]
    return max(pieces, key=lambda piece: piece.length)


def _opened(room: Room, wall: LineString, leads_to: str | None) -> Room:
    """Return a room with a door in the middle of a wall."""
    start, end = (wall.interpolate(wall.length / 2 + side * DOOR / 2) for side in (-1, 1))
    door = Opening(
        id=f"{room.id}-{len(room.openings) + 1}",
        kind=OpeningKind.DOOR,
        start=(start.x, start.y),
        end=(end.x, end.y),
        leads_to=leads_to,
    )
    return evolve(room, openings=(*room.openings, door))
