"""The liquid of a visit while its schedule is made: what is mixed, what was drawn, what lacks."""

import math
from bisect import bisect_left
from collections import defaultdict
from collections.abc import Mapping, Sequence
from operator import itemgetter

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.spraying import Bout
from estimator.visit.timetable import Step

_ROUNDING = 1e-9
_mixed_so_far = itemgetter(1)


class Liquid:
    """Mixes made up one after the other, and refills drawn from them by the sprayers.

    Parameters
    ----------
    fills
        Liquid of every mix to be made up, by strength.
    bouts
        Each sprayer's own work.
    """

    def __init__(
        self,
        fills: Mapping[KilogramsPerCubicMetre, Sequence[CubicMetres]],
        bouts: Sequence[Sequence[Bout]],
    ) -> None:
        self._fills = fills
        self._refills = [[bout for bout in own if bout.step is Step.REFILL] for own in bouts]
        self._refilled = [0] * len(bouts)
        self._drawn: dict[KilogramsPerCubicMetre, CubicMetres] = dict.fromkeys(fills, 0.0)
        self._mixed: dict[KilogramsPerCubicMetre, list[tuple[Seconds, CubicMetres]]] = {
            strength: [] for strength in fills
        }

    def ready_for(self, refill: Bout) -> Seconds:
        """Return when there is liquid enough for a refill, infinite while nobody has mixed it."""
        mixed = self._mixed[refill.strength]
        wanted = (self._drawn[refill.strength] + refill.volume) * (1 - _ROUNDING)
        enough = bisect_left(mixed, wanted, key=_mixed_so_far)
        if enough < len(mixed):
            return mixed[enough][0]
        complete = len(mixed) == len(self._fills[refill.strength])
        return mixed[-1][0] if complete else math.inf

    def draw(self, person: int, refill: Bout) -> None:
        """Let a person fill their tank."""
        self._drawn[refill.strength] += refill.volume
        self._refilled[person] += 1

    def short(self) -> KilogramsPerCubicMetre | None:
        """Return the strength that the next refill of every sprayer still lacks."""
        wanted: dict[KilogramsPerCubicMetre, CubicMetres] = defaultdict(float)
        for refills, at in zip(self._refills, self._refilled, strict=True):
            if at < len(refills):
                wanted[refills[at].strength] += refills[at].volume
        for strength, volume in wanted.items():
            mixed = self._mixed[strength]
            have = mixed[-1][1] if mixed else 0.0
            lacks = have < (self._drawn[strength] + volume) * (1 - _ROUNDING)
            if lacks and len(mixed) < len(self._fills[strength]):
                return strength
        return None

    def next_mix(self, strength: KilogramsPerCubicMetre) -> CubicMetres:
        """Return how much the next mix of a strength is."""
        return self._fills[strength][len(self._mixed[strength])]

    def add(self, strength: KilogramsPerCubicMetre, ready: Seconds) -> None:
        """Let the next mix of a strength be ready at a time."""
        mixed = self._mixed[strength]
        volume = self.next_mix(strength)
        mixed.append((ready, volume + (mixed[-1][1] if mixed else 0.0)))
