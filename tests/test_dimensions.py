"""Every public formula, fed quantities built from its own hints, answers in the unit it promises.

A formula is a public function all of whose parameters are measures or counts, and which does not
answer in words. Constants of its module that are annotated with a unit become quantities too. Add a
module to the list and all of its formulas are checked.
"""

import importlib
import inspect
import typing
from collections.abc import Callable
from types import ModuleType

import pint
import pytest

from estimator.measures import Unit, unit_of

MODULES = (
    "estimator.treatment.dilution",
    "estimator.treatment.wetting",
    "estimator.visit.clearing",
)
QUANTITY = pint.UnitRegistry().Quantity


def hints_of(thing: Callable | ModuleType) -> dict[str, typing.Any]:
    return typing.get_type_hints(thing, include_extras=True)


def is_formula(function: Callable) -> bool:
    hints = hints_of(function)
    if hints.pop("return", None) is str:
        return False
    parameters = list(hints.values())
    return bool(parameters) and all(unit_of(hint) or hint is int for hint in parameters)


def formulas() -> list[Callable]:
    return [
        function
        for module in map(importlib.import_module, MODULES)
        for name, function in inspect.getmembers(module, inspect.isfunction)
        if function.__module__ == module.__name__
        and not name.startswith("_")
        and is_formula(function)
    ]


def quantity(unit: Unit, magnitude: float = 0.5) -> pint.Quantity:
    return QUANTITY(magnitude, unit.symbol)


def test_formulas_are_found_in_every_module():
    assert {function.__module__ for function in formulas()} == set(MODULES)


@pytest.mark.parametrize("formula", formulas(), ids=lambda formula: formula.__qualname__)
def test_the_answer_has_the_dimension_promised(formula, monkeypatch):
    module = importlib.import_module(formula.__module__)
    for name, hint in hints_of(module).items():
        if unit := unit_of(hint):
            monkeypatch.setattr(module, name, quantity(unit, getattr(module, name)))
    hints = hints_of(formula)
    promised = hints.pop("return")
    arguments = {
        name: quantity(unit) if (unit := unit_of(hint)) else 2 for name, hint in hints.items()
    }

    answer = formula(**arguments)

    if promised is int:
        assert isinstance(answer, int)
    else:
        unit = unit_of(promised)
        assert unit is not None
        assert QUANTITY(answer).is_compatible_with(unit.symbol)
