"""Furnishes a layout: each room gets what its use calls for, against walls and clear of doors."""

from collections.abc import Callable, Mapping

import attrs
import numpy as np

from estimator.plan.opening import OpeningKind
from estimator.synthesis.floors import Box, Floor
from estimator.synthesis.layouts import Layout, Piece, Space

Recipe = Callable[[Floor], None]
"""Puts on a floor what a room of its use holds."""


def furnished(
    layout: Layout,
    rng: np.random.Generator,
    recipes: Mapping[str, Recipe],
    *,
    tries: int | None = None,
) -> Layout:
    """Return the layout with every room furnished by the recipe for its use.

    ``tries`` bounds how many places are looked at for each group of furniture.
    """
    pieces: list[Piece] = list(layout.pieces)
    for space in layout.spaces:
        recipe = recipes.get(space.use)
        if recipe is None or not space.is_room:
            continue
        clear, glazed = _kept_clear(layout, space)
        floor = Floor(space, layout.inside(space), rng, clear, glazed, tries)
        recipe(floor)
        pieces += floor.pieces
    return attrs.evolve(layout, pieces=tuple(pieces))


def _kept_clear(layout: Layout, space: Space) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """Return the floor before a room's doors and passages, and that before its windows."""
    doors: list[Box] = []
    windows: list[Box] = []
    for gap in layout.gaps:
        if space.name not in (gap.room, gap.other):
            continue
        side = 1 if gap.room == space.name else -1
        depth = 0.3 if gap.kind is OpeningKind.WINDOW else max(0.8, min(gap.width, 1.1))
        reach = side * ((gap.front if side > 0 else gap.back) + depth)
        xs, ys = zip(gap.place(0, 0), gap.place(gap.width, 0), gap.place(0, reach), strict=True)
        box = (min(xs), min(ys), max(xs), max(ys))
        (windows if gap.kind is OpeningKind.WINDOW else doors).append(box)
    return tuple(doors), tuple(windows)
