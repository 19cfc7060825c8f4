"""From a floor plan to surfaces, disinfectant, crew time and a price.

The four verbs below do in Python what the commands do; each is imported when it is first used, so
that ``import estimator`` stays light.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from estimator.workflow.measuring import measure
    from estimator.workflow.quoting import estimate
    from estimator.workflow.reading import read_plan
    from estimator.workflow.sketching import sketch_plan

__all__ = ["estimate", "measure", "read_plan", "sketch_plan"]

_HOME = {
    "estimate": "estimator.workflow.quoting",
    "measure": "estimator.workflow.measuring",
    "read_plan": "estimator.workflow.reading",
    "sketch_plan": "estimator.workflow.sketching",
}


def __getattr__(name: str) -> object:
    if name not in _HOME:
        raise AttributeError(f"module 'estimator' has no attribute {name!r}")
    return getattr(import_module(_HOME[name]), name)
