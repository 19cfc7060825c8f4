"""Which outlines of a DXF are rooms, and which strokes may be its walls."""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from typing import TypeVar

import shapely
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.dxf_contents import Contents
from estimator.intake.drawings.dxf_shapes import Stroke, evenly
from estimator.intake.drawings.gaps import Evidence
from estimator.intake.drawings.layer_words import is_room_layer, is_wall_layer, opening_kind
from estimator.intake.drawings.linework import Linework
from estimator.measures import Metres
from estimator.plan.opening import OpeningKind

Shape = TypeVar("Shape", bound=BaseGeometry)

_LEAST_ROOM = 0.3  # m²
_SAME = 0.95  # two outlines of one room share so much
_FILLED = 0.85  # an outline filled so far by two others or more is that of the whole
_SWING = (0.5, 1.3)  # radius of a door's swing in metres
_MOST_LAYERS = 12  # tried as walls


def room_outlines(contents: Contents) -> list[Polygon]:
    """Return closed outlines and areas on layers that hold rooms by their name."""
    found = []
    for layer, many in contents.strokes.items():
        if is_room_layer(layer):
            for stroke in many:
                if stroke.closed:
                    found += evenly([[(x, y) for x, y in stroke.line.coords]])
    for layer, areas in contents.areas.items():
        if is_room_layer(layer):
            found += areas
    return found


def distinct(outlines: Sequence[Polygon]) -> list[Polygon]:
    """Return outlines in metres without repetitions, scraps, and those around whole flats."""
    kept: list[Polygon] = []
    for outline in sorted(outlines, key=lambda one: one.area):
        if outline.area < _LEAST_ROOM:
            continue
        within = [other for other in kept if outline.contains(other.representative_point())]
        shared = [outline.intersection(other).area for other in within]
        is_again = any(
            part >= _SAME * outline.area and other.area >= _SAME * outline.area
            for part, other in zip(shared, within, strict=True)
        )
        is_whole = len(within) > 1 and sum(shared) >= _FILLED * outline.area
        if not is_again and not is_whole:
            kept.append(outline)
    return kept


def in_metres(shape: Shape, metres: Metres) -> Shape:
    """Return a shape when a unit is so many metres."""
    return shapely.transform(shape, lambda points: points * metres)


def wall_choices(
    contents: Contents, metres: Metres, objects: tuple[tuple[OpeningKind, Polygon], ...]
) -> Iterator[Linework]:
    """Yield what may be the walls, in metres: layers called so, or else each layer and all."""
    drawn = {layer for layer, many in contents.strokes.items() if many}
    drawn |= {layer for layer, many in contents.areas.items() if many}
    if walls := {layer for layer in drawn if is_wall_layer(layer)}:
        yield _linework(contents, walls, metres, objects)
        return
    drawn = {layer for layer in drawn if not opening_kind(layer)}
    longest = sorted(drawn, key=lambda layer: (-_length(contents, layer), layer))
    for layer in longest[:_MOST_LAYERS]:
        yield _linework(contents, {layer}, metres, objects)
    if len(drawn) > 1:
        yield _linework(contents, drawn, metres, objects)


def swings(contents: Contents, metres: Metres) -> list[LineString]:
    """Return curves in metres that may be swings of doors."""
    return _swings((one for many in contents.strokes.values() for one in many), metres)


def swings_in_blocks(contents: Contents, metres: Metres) -> list[LineString]:
    """Return the same of blocks that are doors."""
    doors = (piece for piece in contents.pieces if piece.kind is OpeningKind.DOOR)
    return _swings((stroke for door in doors for stroke in door.curves), metres)


def _swings(strokes: Iterable[Stroke], metres: Metres) -> list[LineString]:
    curves = [(stroke, in_metres(stroke.line, metres)) for stroke in strokes]
    return [line for stroke, line in curves if _is_swing(stroke, line)]


def _length(contents: Contents, layer: str) -> float:
    return sum(stroke.line.length for stroke in contents.strokes.get(layer, ()))


def _linework(
    contents: Contents,
    walls: set[str],
    metres: Metres,
    objects: tuple[tuple[OpeningKind, Polygon], ...],
) -> Linework:
    lines, curves, straight = [], [], []
    for layer, many in contents.strokes.items():
        for stroke in many:
            line = in_metres(stroke.line, metres)
            if _is_swing(stroke, line):
                curves.append(line)
            elif layer in walls:
                lines.append(line)
            else:
                straight += _segments(line)
    solids = [in_metres(area, metres) for layer in walls for area in contents.areas.get(layer, ())]
    return Linework(
        lines=tuple(lines),
        solids=tuple(solids),
        evidence=Evidence(curves=tuple(curves), strokes=tuple(straight), objects=objects),
    )


def _is_swing(stroke: Stroke, line: LineString) -> bool:
    """Tell whether a stroke may be the swing of a door: a quarter circle or less of its size."""
    if not stroke.curved or stroke.closed:
        return False
    chord = math.dist(line.coords[0], line.coords[-1])
    return _SWING[0] <= chord / math.sqrt(2) <= _SWING[1] and line.length < 1.3 * chord


def _segments(line: LineString) -> list[LineString]:
    points = list(line.coords)
    return [LineString(pair) for pair in pairwise(points)]
