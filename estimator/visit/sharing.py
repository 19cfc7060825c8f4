"""How the rooms are shared among the sprayers, and what is mixed for them."""

import heapq
import math
from collections import defaultdict
from collections.abc import Mapping, Sequence

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.work import RoomWork

Fills = Mapping[KilogramsPerCubicMetre, Sequence[CubicMetres]]


def usual_sprayers(crew: int) -> int:
    """Return how many of a crew spray where nobody chose: one of every two (common practice)."""
    return max(1, crew // 2)


def shared(
    work: Sequence[RoomWork], durations: Sequence[Seconds], sprayers: int
) -> tuple[tuple[int, ...], ...]:
    """Return the numbers of the work each sprayer takes, in order.

    Each room goes to whoever has least to spray so far, so that all move through the building side
    by side; what is sprayed in a room at one strength stays in one hand.
    """
    loads = [(0.0, person) for person in range(sprayers)]
    shares: list[list[int]] = [[] for _ in range(sprayers)]
    before = None
    for number, (item, duration) in enumerate(zip(work, durations, strict=True)):
        here = item.room, item.strength
        if here != before:
            load, person = heapq.heappop(loads)
        else:
            loads.remove((load, person))
            heapq.heapify(loads)
        shares[person].append(number)
        load += duration
        heapq.heappush(loads, (load, person))
        before = here
    return tuple(map(tuple, shares))


def full_tanks(work: Sequence[RoomWork], tank: CubicMetres) -> Fills:
    """Return mixes of a full tank each and what is left of every strength."""
    volumes: dict[KilogramsPerCubicMetre, CubicMetres] = defaultdict(float)
    for item in work:
        volumes[item.strength] += item.volume
    fills = {}
    for strength, volume in volumes.items():
        count = max(1, math.ceil(volume / tank * (1 - 1e-9)))
        fills[strength] = [min(tank, volume - at * tank) for at in range(count)]
    return fills
