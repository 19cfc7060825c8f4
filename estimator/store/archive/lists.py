"""Tables for people: CSV that no spreadsheet program takes for formulas."""

import csv
from collections.abc import Iterable, Sequence
from io import StringIO

from estimator.quantities.cells import guarded

_BYTE_ORDER_MARK = "\ufeff"

Cell = str | int | float | None


def csv_table(headings: Sequence[str], rows: Iterable[Sequence[Cell]]) -> bytes:
    r"""Return a table as CSV in UTF-8.

    >>> csv_table(["Name", "Area"], [["=1+1", 2.5]]).decode()
    "\ufeffName,Area\r\n'=1+1,2.5\r\n"
    """
    written = StringIO()
    table = csv.writer(written, lineterminator="\r\n")
    table.writerow(headings)
    table.writerows(
        [guarded(cell) if isinstance(cell, str) else cell for cell in row] for row in rows
    )
    return (_BYTE_ORDER_MARK + written.getvalue()).encode(errors="replace")
