"""A price as rows of a sheet whose amounts are formulas, so that they follow what they rest on.

Amounts round as the reckoning does. ROUND of spreadsheet programs takes halves away from zero,
which is roundTiesToAway of IEEE 754-2019; halves to even are written out, since no spreadsheet
program has a function for them. Programs reckon in binary, so a product is first rounded to some
digits more, which brings halves back that binary fractions miss.
"""

from collections.abc import Sequence
from decimal import Decimal

from attrs import field, frozen

from estimator.documents.lettering import plain
from estimator.documents.reader import Reader
from estimator.documents.sheet import Formula, Row
from estimator.price.build_up import LineKind, Price, PriceLine
from estimator.price.money import coin
from estimator.price.rates import Rates
from estimator.price.rounding import Halves, Rounded

_QUANTITY, _RATE, _AMOUNT = "B", "D", "E"
_SPARE = 6
"""Digits beyond those wanted that a product is rounded to first."""


@frozen(kw_only=True, eq=False)
class BuildUp:
    """The build-up of a price from a row of a sheet on: line, quantity, unit, rate, amount.

    Parameters
    ----------
    first
        Number of the first row.
    sums
        Rows, counted from the first, that are sums; known once the rows are made.
    """

    price: Price
    rates: Rates
    reader: Reader
    first: int
    sums: list[int] = field(factory=list, init=False)
    _rows: list[Row] = field(factory=list, init=False)

    def rows(self) -> tuple[Row, ...]:
        """Return the rows; the last is the total."""
        self._rows.clear()
        self.sums.clear()
        price, say = self.price, self.reader.say
        for line in price.costs:
            self._line(line, line.quantity)
        for line in price.additions:
            if line.kind not in (LineKind.MINIMUM, LineKind.ROUNDING):
                self._share(line, f"SUM({self._amounts(self.first)})")
        self._minimum()
        if self.rates.rounding_of is Rounded.CHARGE:
            self._step(self.first, price.additions)
        charge = self._sum(say("sheets", "charge"), self.first, price.charge.amount)
        for line in price.taxes:
            base = f"{_AMOUNT}{charge}"
            if line.quantity != price.charge.amount:
                base = f"SUM({self._amounts(charge)})"
            self._share(line, base)
        if self.rates.rounding_of is Rounded.TOTAL:
            self._step(charge, price.rounding)
        self._sum(say("sheets", "total"), charge, price.total.amount)
        return tuple(self._rows)

    @property
    def total(self) -> str:
        """The cell of the total, once the rows are made."""
        return f"{_AMOUNT}{self._next - 1}"

    @property
    def _next(self) -> int:
        return self.first + len(self._rows)

    def _amounts(self, start: int) -> str:
        return f"{_AMOUNT}{start}:{_AMOUNT}{self._next - 1}"

    def _line(self, line: PriceLine, quantity: Decimal | Formula) -> None:
        product = f"{_QUANTITY}{self._next}*{_RATE}{self._next}"
        self._rows.append(
            (
                plain(self.reader.line(line.label)),
                quantity,
                plain(self.reader.label(line.unit)),
                line.rate,
                Formula(self._rounded(product), line.amount.amount),
            )
        )

    def _share(self, line: PriceLine, base: str) -> None:
        self._line(line, Formula(base, line.quantity))

    def _minimum(self) -> None:
        """Add what lifts the charge to the minimum, nothing where it is above."""
        lifted = _amount(self.price.additions, LineKind.MINIMUM)
        missing = f"MAX(0,{_RATE}{self._next}-SUM({self._amounts(self.first)}))"
        self._rows.append(
            (
                plain(self.reader.line("Up to the minimum charge")),
                1,
                self.reader.label("visit"),
                self.rates.minimum_charge,
                Formula(self._rounded(missing), lifted),
            )
        )

    def _step(self, start: int, lines: Sequence[PriceLine]) -> None:
        """Add what brings the sum from a row on to the step, where there is one."""
        step = self.rates.rounding_step
        if not step:
            return
        cell, running = f"{_RATE}{self._next}", f"SUM({self._amounts(start)})"
        steps = _halved(f"{running}/{cell}", 0, self.rates.rounding_halves)
        self._rows.append(
            (
                plain(self.reader.line(f"Rounding to {step.normalize():f}")),
                1,
                self.reader.label("visit"),
                step,
                Formula(
                    self._rounded(f"{steps}*{cell}-{running}"), _amount(lines, LineKind.ROUNDING)
                ),
            )
        )

    def _sum(self, label: str, start: int, value: Decimal) -> int:
        at = self._next
        self.sums.append(len(self._rows))
        self._rows.append((label, None, None, None, Formula(f"SUM({self._amounts(start)})", value)))
        return at

    def _rounded(self, value: str) -> str:
        return rounding(value, self.rates)


def rounding(value: str, rates: Rates) -> str:
    """Return a formula that rounds a value to a coin by the rule of the rates."""
    exponent = coin(rates.currency).as_tuple().exponent
    return _halved(value, -int(exponent), rates.rounding_halves)


def _halved(value: str, digits: int, halves: Halves) -> str:
    """Return a formula that rounds a value to so many digits, halves by the rule."""
    clean = f"ROUND({value},{digits + _SPARE})"
    if halves is Halves.UP:
        return f"ROUND({clean},{digits})"
    coins = f"{clean}*10^{digits}" if digits else clean
    is_half = f"ABS(ABS({coins})-INT(ABS({coins}))-0.5)<10^-{_SPARE - 1}"
    return f"IF({is_half},2*ROUND({coins}/2,0)/10^{digits},ROUND({clean},{digits}))"


def _amount(lines: Sequence[PriceLine], kind: LineKind) -> Decimal:
    return sum((line.amount.amount for line in lines if line.kind is kind), Decimal(0))
