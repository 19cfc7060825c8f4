"""Drawings in manners held out from training, as many of each family."""

from collections.abc import Iterator
from itertools import count, islice

from estimator.synthesis.drawn import FAMILIES, Drawing, drawn, family

FIRST, EACH, SIDE_PX = 3_000_000_000, 60, 896


def held_out(each: int = EACH) -> Iterator[Drawing]:
    """Yield so many drawings of each family, always the same."""
    for name in FAMILIES:
        numbers = (seed for seed in count(FIRST) if family(seed, held_out=True) == name)
        for seed in islice(numbers, each):
            yield drawn(seed, side_px=SIDE_PX, held_out=True)
