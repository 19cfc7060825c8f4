"""Which of several sets of lines are the walls."""

from collections.abc import Iterable

import shapely
from attrs import frozen

from estimator.intake.drawings.linework import Enclosed, Linework, enclosed

_DOORLESS = 0.3  # what a room without an opening counts, against one with
_ON_WALL = 0.03  # metres


@frozen(kw_only=True, eq=False)
class Choice:
    """What walls may be, and the rooms they would enclose.

    Parameters
    ----------
    score
        Enclosed floor in m², rooms without any opening counting less: furniture, frames and
        hatching enclose floor too, but no one gets in.
    """

    drawing: Linework
    found: Enclosed
    score: float

    @property
    def open_share(self) -> float:
        """Share of the floor in rooms that have an opening."""
        floor = sum(room.area for room in self.found.rooms) / self.drawing.metre**2
        return (self.score / floor - _DOORLESS) / (1 - _DOORLESS) if floor else 0.0


def chosen(drawings: Iterable[Linework]) -> Choice | None:
    """Return the walls that enclose the most rooms with ways in; None when none enclose any."""
    best: Choice | None = None
    for drawing in drawings:
        found = enclosed(drawing)
        choice = Choice(drawing=drawing, found=found, score=_score(drawing, found))
        if found.rooms and (best is None or choice.score > best.score):
            best = choice
    return best


def _score(drawing: Linework, found: Enclosed) -> float:
    metre = drawing.metre
    places = shapely.MultiPoint(
        [
            ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            for gap in found.gaps
            for start, end in gap.sides
        ]
    )
    floor = 0.0
    for room in found.rooms:
        has_way_in = room.boundary.dwithin(places, _ON_WALL * metre)
        floor += room.area * (1.0 if has_way_in else _DOORLESS)
    return float(floor / metre**2)
