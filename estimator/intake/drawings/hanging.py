"""Where doors hang and which way they open, by the swings drawn from their hinges."""

import math
from collections.abc import Sequence

from attrs import evolve, frozen
from shapely import STRtree
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from estimator.plan.opening import Hinge, Opening, OpeningKind, Point
from estimator.plan.room import Room

_QUARTER = (0.88, 0.92)  # chord of a quarter circle to its length: 0.900

# In metres.
_ASIDE = 0.7  # from the line of a door to a hinge on the other face of its wall
_AT_JAMB = 0.2  # along the wall, from a jamb to the hinge or to the tip of the shut leaf


@frozen(kw_only=True, eq=False)
class _Swing:
    """A quarter of a circle about a hinge, from the tip of the shut leaf to that of the open one.

    Nobody can tell which end is which before the wall is known.
    """

    hinge: Point
    tips: tuple[Point, Point]
    swept: Polygon


def hung(rooms: Sequence[Room], curves: Sequence[LineString]) -> tuple[Room, ...]:
    """Return rooms whose doors hang and open as the swings beside them are drawn; all in metres."""
    swings = [swing for curve in curves if (swing := _swing(curve))]
    if not swings:
        return tuple(rooms)
    tree = STRtree([swing.swept for swing in swings])
    return tuple(
        evolve(room, openings=tuple(_hung(one, room, swings, tree) for one in room.openings))
        for room in rooms
    )


def _swing(curve: LineString) -> _Swing | None:
    """Return the swing that a curve draws; None when it is no quarter of a circle."""
    start, end = ((x, y) for x, y, *_ in (curve.coords[0], curve.coords[-1]))
    chord = math.dist(start, end)
    if not chord or not _QUARTER[0] <= chord / curve.length <= _QUARTER[1]:
        return None
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    top = curve.interpolate(0.5, normalized=True)
    rise = math.dist(middle, (top.x, top.y))
    share = chord / 2 / rise  # of a right angle the hinge is half a chord behind its middle
    hinge = middle[0] + share * (middle[0] - top.x), middle[1] + share * (middle[1] - top.y)
    swept = Polygon([hinge, *((x, y) for x, y, *_ in curve.coords)])
    return _Swing(hinge=hinge, tips=(start, end), swept=swept)


def _hung(opening: Opening, room: Room, swings: Sequence[_Swing], tree: STRtree) -> Opening:
    """Return a door as one swing of its width, or two of half of it, tell; else as it was."""
    if opening.kind is not OpeningKind.DOOR or not opening.start or not opening.end:
        return opening
    line = LineString([opening.start, opening.end])
    found: dict[tuple[Hinge, bool], list[_Swing]] = {}
    for at in tree.query(line, predicate="dwithin", distance=_ASIDE).tolist():
        for is_half in (False, True):
            if (hinge := _hinge(swings[at], opening.start, opening.end, is_half)) is not None:
                found.setdefault((hinge, is_half), []).append(swings[at])

    def nearest(hinge: Hinge, is_half: bool) -> _Swing | None:
        return min(
            found.get((hinge, is_half), ()),
            key=lambda swing: line.distance(Place(swing.hinge)),
            default=None,
        )

    for hinge in (Hinge.START, Hinge.END):
        if swing := nearest(hinge, False):
            return evolve(opening, hinge=hinge, opens_in=_is_within(swing, room))
    halves = [nearest(hinge, True) for hinge in (Hinge.START, Hinge.END)]
    if halves[0] and halves[1]:
        return evolve(opening, hinge=Hinge.BOTH, opens_in=_is_within(halves[0], room))
    return opening


def _hinge(swing: _Swing, start: Point, end: Point, is_half: bool) -> Hinge | None:
    """Return the jamb that a swing's leaf hangs at, when its tip then shuts the door, or half."""
    width = math.dist(start, end)
    along = (end[0] - start[0]) / width, (end[1] - start[1]) / width

    def on_line(place: Point) -> tuple[float, float]:
        away = place[0] - start[0], place[1] - start[1]
        return (
            away[0] * along[0] + away[1] * along[1],
            abs(along[0] * away[1] - along[1] * away[0]),
        )

    hinge, aside = on_line(swing.hinge)
    if aside > _ASIDE:
        return None
    for jamb, at, other in ((Hinge.START, 0.0, width), (Hinge.END, width, 0.0)):
        shut = width / 2 if is_half else other
        if abs(hinge - at) <= _AT_JAMB and any(
            abs(tip - shut) <= _AT_JAMB and abs(off - aside) <= _AT_JAMB
            for tip, off in map(on_line, swing.tips)
        ):
            return jamb
    return None


def _is_within(swing: _Swing, room: Room) -> bool:
    """Tell whether a leaf sweeps the floor of a room."""
    return bool(room.outline is not None and room.outline.contains(swing.swept.centroid))
