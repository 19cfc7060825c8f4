"""Writes down a building room by room: rectangles, then doors and windows by name."""

import math
from collections.abc import Iterable

import numpy as np
import shapely
from attrs import frozen
from shapely.geometry.base import BaseGeometry

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.synthesis.layouts import Gap, Layout, Space, directed

Segment = tuple[Point, Point]
SIDES = {"north": (0.0, -1.0), "south": (0.0, 1.0), "west": (-1.0, 0.0), "east": (1.0, 0.0)}
_TOUCH = 1e-6


@frozen(kw_only=True)
class Ask:
    """An opening asked for by room name; its place is found on the wall concerned.

    Parameters
    ----------
    towards
        Name of the neighbouring room, or the side of the building: north, south, west, east.
    at
        Share of the way along the wall, from the left or from above; 0 is tight in the corner.
    """

    kind: OpeningKind
    room: str
    towards: str
    at: float
    width: Metres
    manner: str = ""
    hinge_at_start: bool = True
    opens_inward: bool = True
    height: Metres
    sill: Metres = 0.0


def room(
    name: str,
    use: str,
    left: Metres,
    top: Metres,
    width: Metres,
    depth: Metres,
    *,
    height: Metres = 2.4,
    less: tuple[Metres, Metres, Metres, Metres] | None = None,
) -> Space:
    """Return a rectangle on wall centre lines, less another (left, top, width, depth)."""
    shape: BaseGeometry = shapely.box(left, top, left + width, top + depth)
    if less is not None:
        shape = shape - shapely.box(less[0], less[1], less[0] + less[2], less[1] + less[3])
    return Space(name=name, use=use, corners=_corners(shape), height=height)


def door(
    of: str,
    towards: str,
    at: float = 0.5,
    *,
    width: Metres = 0.8,
    manner: str = "leaf",
    hinge: str = "start",
    opens: str = "in",
) -> Ask:
    """Ask for a door of a room that hangs at the start or end of its gap and opens in or out."""
    return Ask(
        kind=OpeningKind.DOOR,
        room=of,
        towards=towards,
        at=at,
        width=width,
        manner=manner,
        hinge_at_start=hinge == "start",
        opens_inward=opens == "in",
        height=2.04,
    )


def window(of: str, side: str, at: float = 0.5, *, width: Metres = 1.2, sill: Metres = 0.9) -> Ask:
    """Ask for a window of a room on one side of the building; its head stands at 2.1 m."""
    return Ask(
        kind=OpeningKind.WINDOW,
        room=of,
        towards=side,
        at=at,
        width=width,
        height=2.1 - sill,
        sill=sill,
    )


def passage(of: str, towards: str, at: float = 0.5, *, width: Metres = 1.2) -> Ask:
    """Ask for an opening without a door."""
    return Ask(kind=OpeningKind.PASSAGE, room=of, towards=towards, at=at, width=width, height=2.1)


def building(
    title: str,
    spaces: Iterable[Space],
    openings: Iterable[Ask],
    *,
    inner_wall: Metres = 0.1,
    outer_wall: Metres = 0.3,
) -> Layout:
    """Return the layout with every opening asked for put in its wall."""
    spaces = tuple(spaces)
    whole = shapely.unary_union(
        [shapely.Polygon(space.corners) for space in spaces], grid_size=_TOUCH
    )
    empty = Layout(
        title=title,
        spaces=spaces,
        footprint=_corners(whole.simplify(_TOUCH)),
        inner_wall=inner_wall,
        outer_wall=outer_wall,
    )
    return Layout(
        title=title,
        spaces=spaces,
        footprint=empty.footprint,
        gaps=tuple(_placed(ask, empty) for ask in openings),
        inner_wall=inner_wall,
        outer_wall=outer_wall,
    )


def _corners(shape: BaseGeometry) -> tuple[Point, ...]:
    return tuple((round(x, 6), round(y, 6)) for x, y in shape.boundary.coords[:-1])


def _placed(ask: Ask, layout: Layout) -> Gap:
    """Return the gap where it was asked for, on the longest wall that fits the words."""
    of = next(space for space in layout.spaces if space.name == ask.room)
    if ask.towards in SIDES:
        other = None
        walls = [wall for wall in _walls(layout.footprint) if wall[1] == SIDES[ask.towards]]
    else:
        other = next(space for space in layout.spaces if space.name == ask.towards)
        walls = _walls(other.corners)
    (start, end), outward = max(
        (
            (shared, outward)
            for wall, outward in _walls(of.corners)
            for their_wall, _ in walls
            if (shared := _overlap(wall, their_wall))
        ),
        key=lambda found: math.dist(*found[0]),
    )
    length = math.dist(start, end)
    margin = layout.inner_wall / 2 + 0.06
    if ask.width > length - 2 * margin:
        raise ValueError(f"{ask.room}: an opening {ask.width} m wide on {length:.2f} m of wall")
    middle = margin + ask.width / 2 + ask.at * (length - 2 * margin - ask.width)
    step = np.subtract(end, start) / length
    first, last = (np.add(start, step * (middle + side * ask.width / 2)) for side in (-1, 1))
    half = layout.inner_wall / 2
    return Gap(
        kind=ask.kind,
        manner=ask.manner,
        start=(float(first[0]), float(first[1])),
        end=(float(last[0]), float(last[1])),
        inward=(-outward[0], -outward[1]),
        room=of.name,
        other=other.name if other else None,
        front=half,
        back=half if other else layout.outer_wall - half,
        hinge_at_start=ask.hinge_at_start,
        opens_inward=ask.opens_inward,
        height=ask.height,
        sill=ask.sill,
    )


def _walls(corners: tuple[Point, ...]) -> list[tuple[Segment, Point]]:
    """Return each wall of a ring with the unit vector pointing out of it."""
    ring = directed(np.array(corners))
    walls = []
    for start, end in zip(ring, np.roll(ring, -1, axis=0), strict=True):
        step = (end - start) / np.linalg.norm(end - start)
        outward = (round(float(step[1]), 9) + 0.0, round(float(-step[0]), 9) + 0.0)
        walls.append(
            (((float(start[0]), float(start[1])), (float(end[0]), float(end[1]))), outward)
        )
    return walls


def _overlap(one: Segment, other: Segment) -> Segment | None:
    """Return the stretch two walls share, from its left or upper end; None when they do not."""
    start = np.array(one[0])
    length = math.dist(*one)
    step = (np.array(one[1]) - start) / length
    across = np.array([-step[1], step[0]])
    offsets = [np.array(end) - start for end in other]
    if any(abs(float(offset @ across)) > _TOUCH for offset in offsets):
        return None
    low, high = sorted(float(offset @ step) for offset in offsets)
    low, high = max(low, 0.0), min(high, length)
    if high - low < _TOUCH:
        return None
    ends = sorted(
        (round(float(point[0]), 9), round(float(point[1]), 9))
        for point in (start + step * low, start + step * high)
    )
    return ends[0], ends[1]
