"""How the rooms are shared among the sprayers, and what is mixed for them."""

import heapq
import math
from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise, product

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.work import RoomWork

_ALL_TRIED = 3
"""Up to so many rooms every way to share them is tried."""

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


def sharings(
    work: Sequence[RoomWork], durations: Sequence[Seconds], sprayers: int
) -> Iterator[tuple[tuple[int, ...], ...]]:
    """Yield the numbers of the work each sprayer takes: every way where the rooms are few."""
    yield shared(work, durations, sprayers)
    starts = [
        number
        for number, item in enumerate(work)
        if not number
        or (item.room, item.strength) != (work[number - 1].room, work[number - 1].strength)
    ]
    if sprayers > 1 and len(starts) <= _ALL_TRIED:
        pieces = [range(start, end) for start, end in pairwise([*starts, len(work)])]
        for persons in product(range(sprayers), repeat=len(pieces) - 1):
            shares: list[list[int]] = [[] for _ in range(sprayers)]
            for piece, person in zip(pieces, (0, *persons), strict=True):
                shares[person].extend(piece)
            yield tuple(map(tuple, shares))


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
