"""Digests that tell whether two inputs are the same."""

import hashlib
import json

from estimator.plan.exchange import plan_to_dict
from estimator.plan.plan import Plan


def plan_digest(plan: Plan) -> str:
    """Return a short digest of everything in the plan."""
    return _short(json.dumps(plan_to_dict(plan), sort_keys=True))


def value_digest(value: object) -> str:
    """Return a short digest of a frozen value, whose ``repr`` spells out all of it."""
    return _short(repr(value))


def _short(text: str) -> str:
    return hashlib.sha256(text.encode()).hexdigest()[:16]
