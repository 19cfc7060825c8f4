"""Which of several sets of lines are the walls."""

from collections.abc import Iterable

import shapely
from attrs import frozen
from shapely.geometry import LineString

from estimator.intake.drawings.linework import Enclosed, Linework, enclosed

_DOORLESS = 0.15  # what a room without an opening counts, against one with
_PARTED = 0.75
_ON_WALL = 0.03  # metres between a gap and the outline it lies on
_BY_WALL = 0.4  # metres between a door drawn in a wall and the room by it


@frozen(kw_only=True, eq=False)
class Choice:
    """What walls may be, and the rooms they would enclose.

    Parameters
    ----------
    score
        Enclosed floor, each room for less than all of its area, so that it is better to part two
        rooms than to miss the wall between them; a room without any opening counts little, since
        furniture, frames and hatching enclose floor too.
    open_share
        Share of the floor in rooms that have an opening, or of the rooms if that is less.
    """

    drawing: Linework
    found: Enclosed
    score: float
    open_share: float


def chosen(drawings: Iterable[Linework]) -> Choice | None:
    """Return the walls that enclose the most rooms with ways in; None when none enclose any."""
    best: Choice | None = None
    for drawing in drawings:
        choice = _rated(drawing, enclosed(drawing))
        if choice.found.rooms and (best is None or choice.score > best.score):
            best = choice
    return best


def _rated(drawing: Linework, found: Enclosed) -> Choice:
    ways_in = shapely.union_all(
        [LineString(side).centroid for gap in found.gaps for side in gap.sides]
    )
    fittings = shapely.union_all([shapely.Point(fitting.at) for fitting in found.fittings])
    score = floor = open_floor = 0.0
    open_rooms = 0
    for room in found.rooms:
        is_open = room.boundary.dwithin(ways_in, _ON_WALL) or room.boundary.dwithin(
            fittings, _BY_WALL
        )
        score += room.area**_PARTED * (1.0 if is_open else _DOORLESS)
        floor += room.area
        open_floor += room.area if is_open else 0.0
        open_rooms += is_open
    share = min(open_floor / floor, open_rooms / len(found.rooms)) if floor else 0.0
    return Choice(drawing=drawing, found=found, score=score, open_share=share)
