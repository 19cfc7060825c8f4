"""Big tablets in weak zones: a stock of whole tablets, of which every tank takes a measured part.

It is offered only where it is exact: the tablets dissolve in one jug, every part lies on a mark of
the cylinder, the strength is the one wanted, and the last tank is no fuller than it needs to be.
"""

from fractions import Fraction

from estimator.measures import CubicMetres, KilogramsPerCubicMetre
from estimator.treatment.dilution import (
    rounded_down,
    rounded_up,
    strength_obtained,
    tablets_needed,
)
from estimator.treatment.measuring import Measuring
from estimator.treatment.product import Form, Product
from estimator.treatment.solution import Mix, Stock, TankFill

STRONGEST: KilogramsPerCubicMetre = 10.0
"""A stock is made no stronger than 1 %, as that of the cholera field guide, Appendix 14."""

WORTH_WHILE = 1.25
"""A stock is offered where whole tablets in the tank make the solution, or the litres made up, more
than so much times what is wanted (our own choice)."""

_PICO = 10**12


def stock_for(mix: Mix, product: Product, tank: CubicMetres, measuring: Measuring) -> Stock | None:
    """Return a stock that makes the mix exactly; None where there is none or it is not needed."""
    per_tablet = product.available_per_tablet
    if product.form is not Form.TABLET or not per_tablet or not mix.needed:
        return None
    if mix.strength <= WORTH_WHILE * mix.wanted and mix.made <= WORTH_WHILE * mix.needed:
        return None
    volumes = _tanks(mix.needed, tank, measuring)
    whole = _exact(sum(volumes))
    tablets = tablets_needed(sum(volumes), mix.wanted, per_tablet)
    for marks in range(rounded_down(measuring.jug / measuring.mark), 0, -1):
        water = marks * measuring.mark
        strength = strength_obtained(tablets * per_tablet, water)
        if strength > STRONGEST:
            return None
        share = _exact(mix.wanted) * _exact(water) / (tablets * _exact(per_tablet))
        steps = [_exact(volume) * share / _exact(measuring.cylinder) for volume in volumes]
        if strength > mix.wanted and all(step.denominator == 1 for step in steps):
            return Stock(
                tablets=tablets,
                water=water,
                strength=strength,
                left_over=max(0.0, float(_exact(water) - whole * share)),
                fills=tuple(
                    TankFill(
                        volume=volume,
                        concentrate=(part := float(step) * measuring.cylinder),
                        water=volume - part,
                        strength=mix.wanted,
                    )
                    for volume, step in zip(volumes, steps, strict=True)
                ),
            )
    return None


def _tanks(needed: CubicMetres, tank: CubicMetres, measuring: Measuring) -> list[CubicMetres]:
    """Return full tanks and a smaller last one, in whole marks of the jug."""
    full = rounded_down(tank / measuring.mark)
    marks = rounded_up(needed / measuring.mark)
    tanks, rest = divmod(marks, full)
    return [count * measuring.mark for count in (*[full] * tanks, rest) if count]


def _exact(value: float) -> Fraction:
    """Return a measure free of the noise of binary fractions."""
    return Fraction(round(value * _PICO), _PICO)
