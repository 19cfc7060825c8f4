"""Digests that tell whether two inputs are the same."""

import hashlib
import json
from functools import lru_cache

from attrs import evolve

from estimator.plan.exchange import plan_to_dict
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Storey


def plan_digest(plan: Plan) -> str:
    """Return a short digest of everything in the plan.

    Rooms are digested one by one and remembered, so that a corrected plan costs one room.
    """
    frame = json.dumps(plan_to_dict(evolve(plan, rooms=())), sort_keys=True)
    return _short(frame + "".join(map(_room_digest, plan.rooms)))


def value_digest(value: object) -> str:
    """Return a short digest of a frozen value, whose ``repr`` spells out all of it."""
    return _short(repr(value))


@lru_cache(maxsize=100_000)
def _room_digest(room: Room) -> str:
    alone = Plan(storeys=(Storey(number=room.storey),), rooms=(room,))
    return _short(json.dumps(plan_to_dict(alone)["rooms"], sort_keys=True))


def _short(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:16]
