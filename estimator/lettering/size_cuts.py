"""Rooms without walls between them, parted where their own printed sizes fit best.

Cuts run along the axes of the room: on the line of a wall's end, or where a printed side would end.
"""

import math
from collections.abc import Iterator, Sequence
from statistics import median
from typing import TypeVar

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray
from shapely import affinity
from shapely.geometry import LineString, Point, Polygon

from estimator.lettering.chords import chord
from estimator.lettering.necks import Cut, cut_along
from estimator.lettering.sizes import Size
from estimator.lettering.tags import Tag
from estimator.measures import MetresPerPixel, Share

# Floor over the sum of width times depth: rooms fill a median 0.92 of it on real sheets, give or
# take about 0.15.
LEAST_FILLED: Share = 0.8
MOST_FILLED = 1.12
# How far a part may be off a side printed for it.
MOST_OFF: Share = 0.1
# Between cuts that fit alike, one through open floor alone loses to one along a wall by so much.
_OPEN: Share = 0.05
_STRIPS = 33
_LEVEL = 1.0  # degrees: walls turned by less stand upright on the page
_SCANNED = (0.1, 0.3, 0.5, 0.7, 0.9)


@frozen(kw_only=True)
class Part:
    """A part of a room and the tags that stand in it."""

    outline: Polygon
    tags: tuple[Tag, ...]


def accounts_for(outline: Polygon, tags: Sequence[Tag], metres_per_px: MetresPerPixel) -> bool:
    """Tell whether every tag prints its floor and these together make a room."""
    if not all(tag.floor for tag in tags):
        return False
    filled = outline.area * metres_per_px**2 / sum(tag.floor for tag in tags)
    return LEAST_FILLED <= filled <= MOST_FILLED


def tags_beside(cut: Cut, tags: Sequence[Tag]) -> tuple[Part, ...]:
    """Return the two parts of a cut, each with the tags that stand in it."""
    return _beside(cut, tags, [Point(tag.place_px) for tag in tags])


def misfit(outline: Polygon, tag: Tag, metres_per_px: MetresPerPixel) -> float:
    """Return how far a room is off its printed sides, the worse one, or half of that off its area.

    A printed side is the largest extent or, where recesses widen a room, the usual one.
    """
    level = _levelled(outline, -_lean(outline))
    return _misfit(level, tag, metres_per_px)


def parted_by_sizes(
    outline: Polygon, tags: Sequence[Tag], metres_per_px: MetresPerPixel
) -> tuple[Part, ...] | None:
    """Return a room in the parts its tags print, or None where no straight cuts make them."""
    if not accounts_for(outline, tags, metres_per_px):
        return None
    lean = _lean(outline)
    parts = _parted(_levelled(outline, -lean), tuple(tags), metres_per_px, -lean)
    if parts is None:
        return None
    return tuple(Part(outline=_levelled(part.outline, lean), tags=part.tags) for part in parts)


def _parted(
    outline: Polygon, tags: tuple[Tag, ...], metres_per_px: MetresPerPixel, turned: float
) -> tuple[Part, ...] | None:
    """Part a level room by its best cut, and its parts until each has one tag."""
    if len(tags) == 1:
        fits = _misfit(outline, tags[0], metres_per_px) <= MOST_OFF
        return (Part(outline=outline, tags=tags),) if fits else None
    best: tuple[float, tuple[Part, ...]] | None = None
    places = [_levelled(Point(tag.place_px), turned) for tag in tags]
    for cut in _cuts(outline, tags, places, metres_per_px):
        groups = _beside(cut, tags, places)
        if not all(group.tags for group in groups):
            continue
        off = max(_off(group, metres_per_px) for group in groups)
        score = off + _OPEN * cut.length / _reach(outline, cut)
        if off <= MOST_OFF and (best is None or score < best[0]):
            best = score, groups
    if best is None:
        return None
    found = [_parted(part.outline, part.tags, metres_per_px, turned) for part in best[1]]
    if any(parts is None for parts in found):
        return None
    return tuple(part for parts in found if parts for part in parts)


def _off(part: Part, metres_per_px: MetresPerPixel) -> float:
    """Return how far a part is off what its tags print."""
    if len(part.tags) == 1:
        return _misfit(part.outline, part.tags[0], metres_per_px)
    return 0.0 if accounts_for(part.outline, part.tags, metres_per_px) else math.inf


def _misfit(level: Polygon, tag: Tag, metres_per_px: MetresPerPixel) -> float:
    if tag.area is not None:
        return abs(math.log(level.area * metres_per_px**2 / tag.area.area)) / 2
    if tag.printed is None:
        return math.inf
    sides = _sides(level, lies_across=True), _sides(level, lies_across=False)
    printed = tag.printed.width, tag.printed.depth
    return min(
        max(
            min(abs(math.log(way * metres_per_px / said)) for way in ways)
            for ways, said in zip(sides, order, strict=True)
        )
        for order in (printed, printed[::-1])
    )


def _sides(level: Polygon, *, lies_across: bool) -> tuple[float, float]:
    """Return the full and the usual extent of an outline across the page or down it."""
    left, top, right, bottom = level.bounds
    low, high = (top, bottom) if lies_across else (left, right)
    usual = median(chord(level, low + at * (high - low), lies_across) for at in _SCANNED)
    return (right - left if lies_across else bottom - top), max(usual, 1e-6)


def _beside(cut: Cut, tags: Sequence[Tag], places: Sequence[Point]) -> tuple[Part, ...]:
    one, other = cut.parts
    is_in_one = [one.distance(place) <= other.distance(place) for place in places]
    return tuple(
        Part(
            outline=part,
            tags=tuple(tag for tag, is_in in zip(tags, is_in_one, strict=True) if is_in == wanted),
        )
        for part, wanted in ((one, True), (other, False))
    )


def _reach(level: Polygon, cut: Cut) -> float:
    """Return how far an outline reaches in the direction of a cut along an axis."""
    left, top, right, bottom = level.bounds
    return right - left if cut.start[1] == cut.end[1] else bottom - top


def _cuts(
    level: Polygon, tags: Sequence[Tag], places: Sequence[Point], metres_per_px: MetresPerPixel
) -> Iterator[Cut]:
    """Yield cuts between the tags of a level outline, down the page and across it."""
    left, top, right, bottom = level.bounds
    corners = shapely.get_coordinates(level)
    sides = np.array([side for tag in tags if tag.printed for side in _both(tag.printed)])
    for axis, low, high in ((0, left, right), (1, top, bottom)):
        order = np.argsort([place.coords[0][axis] for place in places])
        at = [places[place].coords[0][axis] for place in order]
        floors = np.cumsum([tags[place].floor for place in order])
        wanted = {
            *corners[:, axis],
            *(low + sides / metres_per_px),
            *(high - sides / metres_per_px),
            *_places_by_floor(level, axis, floors[:-1] / floors[-1]),
        }
        for place in sorted(wanted):
            if at[0] < place < at[-1]:
                yield from _cuts_at(level, float(place), axis)


def _both(size: Size) -> tuple[float, float]:
    return size.width, size.depth


def _places_by_floor(level: Polygon, axis: int, shares: NDArray[np.float64]) -> list[float]:
    """Return where an axis is to be cut so that these shares of the floor lie before the cuts."""
    left, top, right, bottom = level.bounds
    low, high = (left, right) if axis == 0 else (top, bottom)
    at = np.linspace(low, high, _STRIPS)
    before = [
        level.intersection(
            shapely.box(left, top, place, bottom)
            if axis == 0
            else shapely.box(left, top, right, place)
        ).area
        for place in at
    ]
    return [float(place) for place in np.interp(shares * level.area, before, at)]


def _cuts_at(level: Polygon, place: float, axis: int) -> Iterator[Cut]:
    left, top, right, bottom = level.bounds
    ends = [(place, top), (place, bottom)] if axis == 0 else [(left, place), (right, place)]
    for piece in shapely.get_parts(level.intersection(LineString(ends))).tolist():
        if isinstance(piece, LineString):
            start, end = piece.coords[0], piece.coords[-1]
            cut = cut_along(level, (start[0], start[1]), (end[0], end[1]))
            if cut is not None:
                yield cut


def _lean(outline: Polygon) -> float:
    """Return by how many degrees the walls of a room are turned from the page's upright, within 45.

    Every edge counts by its length; four times its angle takes the right angles out.
    """
    edges = np.diff(np.array(outline.exterior.coords), axis=0)
    angles, lengths = np.arctan2(edges[:, 1], edges[:, 0]), np.hypot(edges[:, 0], edges[:, 1])
    turn = math.degrees(float(np.angle(np.sum(lengths * np.exp(4j * angles)))) / 4)
    return turn if abs(turn) > _LEVEL else 0.0


_Shape = TypeVar("_Shape", Polygon, Point)


def _levelled(shape: _Shape, degrees: float) -> _Shape:
    """Return a shape turned about the origin."""
    if degrees == 0:
        return shape
    return affinity.rotate(shape, degrees, origin=(0, 0))
