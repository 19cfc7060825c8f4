"""One sheet of a workbook: headings, and rows of words, numbers and formulas."""

from decimal import Decimal

from attrs import frozen


@frozen
class Formula:
    """A formula without its sign of equality, and what it comes to."""

    text: str
    value: Decimal


Cell = str | int | float | Decimal | Formula | None
Row = tuple[Cell, ...]


@frozen(kw_only=True)
class Sheet:
    """A table under its name.

    Parameters
    ----------
    decimals
        Decimals shown in each column; None for words.
    strong
        Rows, counted from 0, that are sums or titles.
    """

    name: str
    headings: tuple[str, ...]
    decimals: tuple[int | None, ...]
    rows: tuple[Row, ...]
    strong: frozenset[int] = frozenset()
