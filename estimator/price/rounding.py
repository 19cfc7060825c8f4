"""Rounding by one rule, to a coin or a coarser step.

Decimal arithmetic throughout, as IEEE 754-2019 [1]_ defines it: a half goes to the larger amount
(roundTiesToAway, rule B of ISO 80000-1 [2]_) or to the even multiple of the step (roundTiesToEven,
rule A).

References
----------
.. [1] IEEE 754-2019, section 4.3.1.
.. [2] ISO 80000-1:2009, annex B.
"""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal, localcontext
from enum import StrEnum


class Halves(StrEnum):
    """Where an amount goes that lies halfway between two."""

    UP = "up"
    EVEN = "to even"


class Rounded(StrEnum):
    """Which sum is rounded to the step: the charge before tax, or the total with it."""

    CHARGE = "charge"
    TOTAL = "total"


_MODES = {Halves.UP: ROUND_HALF_UP, Halves.EVEN: ROUND_HALF_EVEN}
_DIGITS = 100
"""Enough that no division rounds before the rounding asked for."""


def to_step(amount: Decimal, step: Decimal, halves: Halves = Halves.UP) -> Decimal:
    """Return the multiple of a step nearest to an amount.

    >>> to_step(Decimal("12.275"), Decimal("0.1"))
    Decimal('12.3')
    >>> to_step(Decimal("1225"), Decimal(10), Halves.EVEN)
    Decimal('1220')
    """
    with localcontext(prec=_DIGITS):
        return (amount / step).quantize(Decimal(1), rounding=_MODES[halves]) * step
