"""The crew's map: every stop numbered in its room, with arrows from each to the next."""

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

import shapely
from shapely.geometry import Point
from shapely.ops import substring

from estimator.documents.caption import caption
from estimator.documents.colouring import ColourBy, colouring
from estimator.documents.drawing import room_marks
from estimator.documents.figure import Figure, Shape, fitted
from estimator.documents.lettering import legible, width
from estimator.documents.openings import gap_marks, swing_marks
from estimator.documents.palette import ACCENT, ALARM, DOUBT, INK, MUTED, WHITE, text_on
from estimator.documents.scene import Area, Mark, Scene, Words, areas, moved, strokes
from estimator.documents.stops import Stop
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.quantities import Units
from estimator.quote.quote import Quote

Place = tuple[float, float]

_WAYS = (ALARM, ACCENT, DOUBT, INK)
"""Colours of the ways of the persons who spray, in turn."""


def way_colour(person: int) -> str:
    """Return the colour of the way of a person who sprays."""
    return _WAYS[(person - 1) % len(_WAYS)]


def route_map(
    plan: Plan,
    quote: Quote,
    stops: Sequence[Stop],
    units: Units,
    storey: int,
    *,
    wide: float,
    high: float,
    text: float,
) -> Scene:
    """Return the drawing of one storey with the stops on it, numbered as in the list of stops."""
    figure = fitted(plan, storey, wide, high)
    colours = colouring(plan, quote, ColourBy.STRENGTH, storey)
    left = (wide - figure.width) / 2
    line = text / 14
    middles = {shape.room.id: _middle(shape) for shape in figure.shapes}
    persons = sorted({stop.person for stop in stops})
    path = dict(quote.timetable.path)
    outdoors = any(
        _lies_outdoors(path, one.room, other.room)
        for person in persons
        for one, other in pairwise(stop for stop in stops if stop.person == person)
        if one.room in middles and other.room in middles
    )
    below, bottom = caption(
        wide=wide - left,
        top=figure.height + 0.7 * text,
        size=0.9 * text,
        per_metre=figure.per_metre,
        units=units,
        legend=[
            *colours.legend,
            *((way_colour(person), f"way of person {person}") for person in persons),
        ],
        key=["dashed: round by the outside"] if outdoors else [],
    )
    numbered: dict[str, list[tuple[int, int]]] = {}
    for number, stop in enumerate(stops, 1):
        numbered.setdefault(stop.room, []).append((number, stop.person))
    marks = [
        *areas(figure.walls, INK),
        *gap_marks(figure, line),
        *room_marks(figure, colours.fills, line),
        *swing_marks(figure, colours.fills, line),
        *_ways(figure, quote, stops, middles, text),
        *_badges(figure, numbered, middles, colours.fills, text),
        *below,
    ]
    return Scene(width=wide, height=bottom, marks=tuple(moved(mark, left) for mark in marks))


def _middle(shape: Shape) -> Place:
    """Return the place in a room farthest from its walls."""
    centre = shapely.get_point(shapely.maximum_inscribed_circle(shape.outline), 0)
    return float(centre.x), float(centre.y)


def _ways(
    figure: Figure,
    quote: Quote,
    stops: Sequence[Stop],
    middles: Mapping[str, Place],
    text: float,
) -> Iterator[Mark]:
    """Yield each sprayer's way from stop to stop, and from the last one out."""
    path = dict(quote.timetable.path)
    shapes = {shape.room.id: shape for shape in figure.shapes}
    for person in sorted({stop.person for stop in stops}):
        rooms = [stop.room for stop in stops if stop.person == person]
        for here, there in pairwise(rooms):
            if here == there or here not in shapes or there not in shapes:
                continue
            if _lies_outdoors(path, here, there):
                ends = [middles[here], middles[there]]
                yield from _arrow(ends, way_colour(person), text, dash=0.5 * text)
                continue
            walk = [room for room in _between(path, here, there) if room in shapes]
            points = [middles[here]]
            for room, following in pairwise(walk):
                points.append(_door(shapes[room], shapes[following]))
            yield from _arrow([*points, middles[there]], way_colour(person), text)


def _lies_outdoors(path: Mapping[str, tuple[str, ...]], here: str, there: str) -> bool:
    """Whether the dry way from one room to another leads out by one door and in by another."""
    known = here in path and there in path
    return known and {here, *path[here]}.isdisjoint((there, *path[there]))


def _between(path: Mapping[str, tuple[str, ...]], here: str, there: str) -> list[str]:
    """Return the rooms walked through from one to another: back to where both ways meet, and on."""
    back, forth = [here, *path.get(here, ())], [there, *path.get(there, ())]
    meeting = next((room for room in back if room in forth), None)
    if meeting is None:
        return [here, there]
    return [
        *back[: back.index(meeting) + 1],
        *reversed(forth[: forth.index(meeting)]),
    ]


def _door(room: Shape, other: Shape) -> Place:
    """Return the middle of the opening between two rooms, or of where they are nearest."""
    found = [
        (gap.line.distance(beyond.outline), gap.line.interpolate(0.5, normalized=True))
        for one, beyond in ((room, other), (other, room))
        for gap in one.gaps
        if gap.kind is not OpeningKind.WINDOW
    ]
    reach = 3 * max((gap.depth for gap in (*room.gaps, *other.gaps)), default=0.0)
    near = min(found, key=lambda pair: pair[0], default=None)
    if near is not None and near[0] <= reach:
        return float(near[1].x), float(near[1].y)
    nearest = shapely.shortest_line(room.outline, other.outline).interpolate(0.5, normalized=True)
    return float(nearest.x), float(nearest.y)


def _arrow(
    points: Sequence[Place], colour: str, text: float, *, dash: float = 0.0
) -> Iterator[Mark]:
    """Yield a line with its head just before the number it leads to."""
    line = shapely.LineString(points)
    off = min(0.85 * text, 0.3 * line.length)
    if line.length <= 0:
        return
    shaft = substring(line, off, line.length - off)
    yield from strokes(shaft, colour, text / 9, dash)
    tip = line.interpolate(line.length - off)
    before = line.interpolate(line.length - off - 0.6 * text)
    angle = math.atan2(tip.y - before.y, tip.x - before.x)
    wings = [
        (tip.x - 0.62 * text * math.cos(angle + turn), tip.y - 0.62 * text * math.sin(angle + turn))
        for turn in (-0.42, 0.42)
    ]
    yield Area(rings=(((tip.x, tip.y), *wings),), fill=colour)


def _badges(
    figure: Figure,
    numbered: Mapping[str, Sequence[tuple[int, int]]],
    middles: Mapping[str, Place],
    fills: Mapping[str, str],
    text: float,
) -> Iterator[Mark]:
    """Yield the numbers of the stops in each room, and its name where there is space."""
    for shape in figure.shapes:
        room = shape.room.id
        x, y = middles[room]
        badges = numbered.get(room, ())
        for at, (number, person) in enumerate(badges):
            centre = x + (at - (len(badges) - 1) / 2) * 1.7 * text
            yield from areas(Point(centre, y).buffer(0.82 * text), way_colour(person))
            yield Words(
                text=str(number),
                x=centre,
                y=y + 0.34 * text,
                size=(0.95 if number < 100 else 0.75) * text,
                colour=WHITE,
                bold=True,
            )
        name, size = legible(shape.room.name), 0.72 * text
        left, _, right, bottom = shape.outline.bounds
        if width(name, size) < 0.94 * (right - left) and bottom - y > 1.9 * text:
            yield Words(
                text=name,
                x=(left + right) / 2,
                y=y + (1.65 if badges else 0.3) * text,
                size=size,
                colour=text_on(fills.get(room, WHITE)) if badges else MUTED,
            )
