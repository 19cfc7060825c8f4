"""Adds flights of stairs to the furniture of halls and living rooms."""

from collections.abc import Mapping

import numpy as np

from estimator.synthesis.floors import Floor
from estimator.synthesis.furnishing import Recipe
from estimator.synthesis.groups import one

_KINDS = ("stair_flight", "stair_flight", "stair_return", "stair_turn", "stair_spiral")
_USES = ("hall", "corridor", "living_room", "lobby", "open_office")


def with_flights(recipes: Mapping[str, Recipe], rng: np.random.Generator) -> dict[str, Recipe]:
    """Return recipes by which one kind of flight stands where people come and go."""
    kind = _KINDS[int(rng.integers(len(_KINDS)))]
    return {**recipes, **{use: _climbed(recipes.get(use), kind) for use in _USES}}


def _climbed(recipe: Recipe | None, kind: str) -> Recipe:
    def put(floor: Floor) -> None:
        if floor.rng.random() < 0.7:
            floor.against_wall(one(kind), corner=1.0)
        else:
            floor.in_middle(one(kind))
        if recipe is not None:
            recipe(floor)

    return put
