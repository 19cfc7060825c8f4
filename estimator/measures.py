"""The unit of every number, written in its type.

Inside the estimator every measure is a plain float in SI units; the annotation says which. A value
class made with ``field_transformer=checked`` refuses a negative, infinite or NaN measure in one
sentence that names the field.

>>> from attrs import frozen
>>> @frozen(kw_only=True, field_transformer=checked)
... class Pace:
...     rate: SquareMetresPerSecond
>>> Pace(rate=0.5)
Pace(rate=0.5)
>>> Pace(rate=float("nan"))
Traceback (most recent call last):
    ...
estimator.errors.QuantityError: Pace.rate: must be at least 0 m^2/s (got nan); give one in m^2/s.
"""

import math
from typing import Annotated, Any, get_args, get_origin

import attrs

from estimator.errors import QuantityError


@attrs.frozen
class Unit:
    """The unit a number is in, as pint spells it, and the largest value that makes sense."""

    symbol: str
    most: float = math.inf


Metres = Annotated[float, Unit("m")]
SquareMetres = Annotated[float, Unit("m^2")]
CubicMetres = Annotated[float, Unit("m^3")]
Kilograms = Annotated[float, Unit("kg")]
Seconds = Annotated[float, Unit("s")]
MetresPerPixel = Annotated[float, Unit("m/pixel")]
SquareMetresPerSecond = Annotated[float, Unit("m^2/s")]
CubicMetresPerSecond = Annotated[float, Unit("m^3/s")]
CubicMetresPerSquareMetre = Annotated[float, Unit("m^3/m^2")]
CubicMetresPerSquareMetreSecond = Annotated[float, Unit("m^3/m^2/s")]
KilogramsPerCubicMetre = Annotated[float, Unit("kg/m^3")]
KilogramsPerMole = Annotated[float, Unit("kg/mol")]
PerSecond = Annotated[float, Unit("1/s")]
MetresPerSecond = Annotated[float, Unit("m/s")]
Kelvins = Annotated[float, Unit("K")]
Pascals = Annotated[float, Unit("Pa")]
PerSquareMetre = Annotated[float, Unit("1/m^2")]
SecondsPerSquareMetre = Annotated[float, Unit("s/m^2")]
Ratio = Annotated[float, Unit("dimensionless")]
Share = Annotated[float, Unit("dimensionless", most=1.0)]


def unit_of(hint: object) -> Unit | None:
    """Return the unit written in a type hint, looking through ``| None``."""
    if get_origin(hint) is Annotated:
        return next((mark for mark in get_args(hint)[1:] if isinstance(mark, Unit)), None)
    units = [unit for arg in get_args(hint) if arg is not type(None) and (unit := unit_of(arg))]
    return units[0] if len(units) == 1 and type(None) in get_args(hint) else None


@attrs.frozen
class _InUnit:
    """Refuse a number that cannot be a measure in the unit."""

    unit: Unit

    def __call__(self, instance: object, attribute: "attrs.Attribute[Any]", value: Any) -> None:
        if value is None:
            return
        if isinstance(value, int | float) and 0.0 <= value <= self.unit.most and value < math.inf:
            return
        name = "" if self.unit.symbol == "dimensionless" else f" {self.unit.symbol}"
        bound = f" and at most {self.unit.most:g}{name}" if self.unit.most < math.inf else ""
        raise QuantityError(
            f"{type(instance).__name__}.{attribute.name}",
            f"must be at least 0{name}{bound} (got {value!r})",
            f"give one in{name}" if name else "give a number",
        )


def checked(_cls: type, attributes: "list[attrs.Attribute[Any]]") -> "list[attrs.Attribute[Any]]":
    """Give every attribute whose type names a unit a check of its value (attrs hook)."""
    return [
        attribute.evolve(validator=_InUnit(unit))
        if attribute.validator is None and (unit := unit_of(attribute.type))
        else attribute
        for attribute in attributes
    ]
