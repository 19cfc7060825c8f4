"""Furniture put down, moved, turned and resized by hand, on the ground of its storey."""

import math
from itertools import pairwise

import shapely
from attrs import evolve
from shapely import affinity
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.measures import Metres
from estimator.plan.drawing import room_at
from estimator.plan.edits import changed
from estimator.plan.furnishing import Furnishing
from estimator.plan.ground import Ground, ground_of
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.reshaping import named
from estimator.plan.room import Room

_SIZES: tuple[Metres, Metres] = (0.05, 20.0)


def piece_placed(
    plan: Plan,
    storey: int,
    kind: str,
    at: Point,
    *,
    length: Metres,
    depth: Metres,
    degrees: float = 0.0,
) -> Plan:
    """Return the plan with a piece of furniture standing with its middle at a place.

    Parameters
    ----------
    degrees
        How far its length is turned from the x axis towards the y axis.

    Raises
    ------
    PlanError
        When no room is there, or no piece is so large.
    """
    ground = ground_of(plan, storey)
    footprint = _footprint(kind, ground, at, length, depth, degrees)
    room = _room_around(plan, storey, kind, footprint)
    piece = ground.with_footprint(Furnishing(kind=kind), footprint)
    return changed(plan, room.id, lambda room: _with(room, piece))


def piece_moved(plan: Plan, room_id: str, place: int, by: Point) -> Plan:
    """Return the plan with a piece of furniture moved, into another room where it comes to stand.

    Parameters
    ----------
    place
        Which of the room's furnishings it is.

    Raises
    ------
    PlanError
        When it is not there, or would stand in no room.
    """
    _, _, footprint = _piece(plan, room_id, place)
    return _put(plan, room_id, place, affinity.translate(footprint, *by))


def piece_turned(plan: Plan, room_id: str, place: int, degrees: float) -> Plan:
    """Return the plan with a piece of furniture turned further about its middle."""
    _, _, footprint = _piece(plan, room_id, place)
    return _put(plan, room_id, place, affinity.rotate(footprint, degrees, origin="centroid"))


def piece_resized(plan: Plan, room_id: str, place: int, *, length: Metres, depth: Metres) -> Plan:
    """Return the plan with a piece of furniture of another size about its middle.

    Raises
    ------
    PlanError
        When it is not there, or no piece is so large.
    """
    ground, piece, footprint = _piece(plan, room_id, place)
    middle = footprint.centroid
    degrees = turned(footprint)
    new = _footprint(piece.kind, ground, (middle.x, middle.y), length, depth, degrees)
    return _put(plan, room_id, place, new)


def piece_removed(plan: Plan, room_id: str, place: int) -> Plan:
    """Return the plan without a piece of furniture."""
    _piece(plan, room_id, place)
    return changed(plan, room_id, lambda room: _without(room, place))


def turned(footprint: Polygon) -> float:
    """Return how far the longest side of a footprint is turned from the x axis, in degrees.

    >>> turned(shapely.box(0, 0, 2, 1))
    0.0
    """
    corners = footprint.exterior.coords
    sides = [(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(corners)]
    longest = max(sides, key=lambda side: round(math.hypot(*side), 9))
    return math.degrees(math.atan2(longest[1], longest[0])) % 180.0


def _footprint(
    kind: str, ground: Ground, at: Point, length: Metres, depth: Metres, degrees: float
) -> Polygon:
    least, most = _SIZES
    if not (least <= length <= most and least <= depth <= most and math.isfinite(degrees)):
        raise PlanError(kind, "no piece of furniture has such a size", "give one up to 20 m")
    half = ground.units(length) / 2, ground.units(depth) / 2
    upright = shapely.box(at[0] - half[0], at[1] - half[1], at[0] + half[0], at[1] + half[1])
    return affinity.rotate(upright, degrees, origin=at)


def _put(plan: Plan, room_id: str, place: int, footprint: Polygon) -> Plan:
    room = plan.room(room_id)
    ground, piece, _ = _piece(plan, room_id, place)
    put = ground.with_footprint(piece, footprint)
    there = _room_around(plan, room.storey, piece.kind, footprint)
    if there.id == room_id:
        pieces = (*room.furnishings[:place], put, *room.furnishings[place + 1 :])
        return changed(plan, room_id, lambda room: evolve(room, furnishings=pieces))
    plan = changed(plan, room_id, lambda room: _without(room, place))
    return changed(plan, there.id, lambda room: _with(room, put))


def _room_around(plan: Plan, storey: int, kind: str, footprint: Polygon) -> Room:
    middle = footprint.centroid
    room = room_at(plan, storey, (middle.x, middle.y))
    if room is None:
        raise PlanError(kind, "it would stand in no room", "put it down inside a room")
    return room


def _piece(plan: Plan, room_id: str, place: int) -> tuple[Ground, Furnishing, Polygon]:
    room = plan.room(room_id)
    ground = ground_of(plan, room.storey)
    piece = room.furnishings[place] if 0 <= place < len(room.furnishings) else None
    footprint = ground.footprint(piece) if piece else None
    if piece is None or footprint is None:
        raise PlanError(named(room), "this piece is no longer there", "point at it again")
    return ground, piece, footprint


def _with(room: Room, piece: Furnishing) -> Room:
    return evolve(room, furnishings=(*room.furnishings, piece), empty=False)


def _without(room: Room, place: int) -> Room:
    left = room.furnishings[:place] + room.furnishings[place + 1 :]
    return evolve(room, furnishings=left)
