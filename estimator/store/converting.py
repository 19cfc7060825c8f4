"""Values as JSON text and back."""

import json
from base64 import b64decode, b64encode
from decimal import Decimal
from functools import cache
from typing import Any, TypeVar

import cattrs
from cattrs.strategies import configure_tagged_union

from estimator.errors import EstimatorError
from estimator.surfaces.solids import Solid

Value = TypeVar("Value")

MISREAD = (
    EstimatorError,
    cattrs.BaseValidationError,
    ArithmeticError,
    LookupError,
    TypeError,
    ValueError,
    RecursionError,
)
"""What comes of data that were damaged or made by another version."""


@cache
def converter() -> cattrs.Converter:
    """Return what turns values into plain data and back; amounts stay exact."""
    made = cattrs.Converter()
    made.register_unstructure_hook(Decimal, str)
    made.register_structure_hook(Decimal, lambda given, _: Decimal(given))
    made.register_unstructure_hook(bytes, lambda given: b64encode(given).decode())
    made.register_structure_hook(bytes, lambda given, _: b64decode(given, validate=True))
    configure_tagged_union(Solid, made)
    return made


def json_of(value: Any, kind: Any = None) -> str:
    """Return a value as JSON text that any database takes."""
    return json.dumps(converter().unstructure(value, kind), allow_nan=False)


def value_of(text: str | bytes, kind: type[Value]) -> Value:
    """Return the value that JSON text tells; one of ``MISREAD`` where it tells none."""
    return converter().structure(json.loads(text), kind)
