"""Storeys that look like one drawn twice: the same rooms furnished, wired or coloured otherwise."""

from collections.abc import Iterator
from itertools import combinations

from estimator.measures import Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.plan import Plan

_SAME: Share = 0.04  # by which a room read twice differs in area, at most
_MAYBE = 0.5


def doubts_of_repeats(plan: Plan) -> Iterator[Doubt]:
    """Yield which storeys have the same rooms by their areas; floors may well be alike."""
    areas = {
        storey.number: sorted(
            room.outline.area
            for room in plan.rooms
            if room.storey == storey.number and room.outline
        )
        for storey in plan.storeys
    }
    for one, other in combinations(plan.storeys, 2):
        pair = areas[one.number], areas[other.number]
        if not pair[0] or len(pair[0]) != len(pair[1]):
            continue
        if all(abs(a - b) <= _SAME * max(a, b) for a, b in zip(*pair, strict=True)):
            says = (
                f"{one.name} and {other.name} have the same rooms; where one is the other drawn "
                "again, remove it."
            )
            yield Doubt(aspect=Aspect.OTHER, says=says, confidence=_MAYBE)
