"""Rows as a CSV that survives a kill at any point: written row by row, mended when it is opened."""

import csv
from collections.abc import Callable, Iterable, Mapping
from decimal import Decimal, InvalidOperation
from io import StringIO
from pathlib import Path

from estimator.batch.row import Row, Status
from estimator.errors import DocumentError, EstimatorError
from estimator.price.money import Money
from estimator.quantities.cells import guarded, unguarded

_BYTE_ORDER_MARK = "\ufeff"
"""Tells spreadsheet programs that the file is UTF-8."""

_END = "\r\n"

# Litres and minutes, as people count them, of cubic metres and seconds.
_LITRES, _MINUTES = 1000.0, 60.0

Cells = Mapping[str, str]


def _figure(value: float | None, decimals: int, factor: float = 1.0) -> str:
    return "" if value is None else f"{value * factor:.{decimals}f}"


def _amount(money: Money | None) -> str:
    return "" if money is None else f"{money.amount:f}"


_COLUMNS: dict[str, Callable[[Row], str]] = {
    "file": lambda row: guarded(row.file),
    "status": lambda row: row.status,
    "says": lambda row: guarded(row.says),
    "title": lambda row: guarded(row.title),
    "storeys": lambda row: _figure(row.storeys, 0),
    "rooms": lambda row: _figure(row.rooms, 0),
    "floor m2": lambda row: _figure(row.floor, 2),
    "treated m2": lambda row: _figure(row.treated, 2),
    "litres": lambda row: _figure(row.volume, 2, _LITRES),
    "minutes on site": lambda row: _figure(row.on_site, 1, 1 / _MINUTES),
    "price": lambda row: _amount(row.price),
    "low": lambda row: _amount(row.low),
    "high": lambda row: _amount(row.high),
    "currency": lambda row: row.price.currency if row.price else "",
    "doubts": lambda row: _figure(row.doubts, 0),
    "look at first": lambda row: guarded(row.look_first),
    "content": lambda row: row.digest,
    "book and job": lambda row: row.basis,
    "version": lambda row: guarded(row.version),
}


def results_text(rows: Iterable[Row]) -> str:
    """Return a list of results as text, its heading and a byte order mark before it."""
    return _BYTE_ORDER_MARK + _lines([tuple(_COLUMNS)]) + "".join(map(row_text, rows))


def row_text(row: Row) -> str:
    """Return one row as the text to be written at the end of the list."""
    return _lines([[cell(row) for cell in _COLUMNS.values()]])


def results(path: Path) -> tuple[Row, ...]:
    """Return the rows of a list; what was cut off while it was written is left out.

    Raises
    ------
    DocumentError
        When the file is something else than a list of results, or cannot be read.
    """
    try:
        text = path.read_bytes().decode("utf-8-sig", "replace")
    except FileNotFoundError:
        return ()
    except OSError as error:
        raise DocumentError(
            str(path), f"it cannot be read ({error.strerror})", "choose another place"
        ) from error
    if not text:
        return ()
    lines = list(_records(text))
    if not lines or lines[0] != list(_COLUMNS):
        raise DocumentError(
            str(path),
            "it is no list of results, or one of another version",
            "choose another name for the results",
        )
    whole = lines[1:] if text.endswith("\n") else lines[1:-1]
    return tuple(row for row in map(_row, whole) if row)


def _records(text: str) -> Iterable[list[str]]:
    rows = csv.reader(StringIO(text, newline=""))
    try:
        yield from rows
    except csv.Error:  # nothing after a damaged place can be trusted
        return


def _lines(rows: Iterable[Iterable[str]]) -> str:
    written = StringIO()
    csv.writer(written, lineterminator=_END).writerows(rows)
    return written.getvalue()


def _row(cells: list[str]) -> Row | None:
    """Return the row that was written; None for one that is not whole."""
    if len(cells) != len(_COLUMNS):
        return None
    said = dict(zip(_COLUMNS, cells, strict=True))
    try:
        return Row(
            file=unguarded(said["file"]),
            status=Status(said["status"]),
            says=unguarded(said["says"]),
            title=unguarded(said["title"]),
            storeys=_count(said["storeys"]),
            rooms=_count(said["rooms"]),
            floor=_number(said["floor m2"]),
            treated=_number(said["treated m2"]),
            volume=_number(said["litres"], _LITRES),
            on_site=_number(said["minutes on site"], 1 / _MINUTES),
            price=_money(said, "price"),
            low=_money(said, "low"),
            high=_money(said, "high"),
            doubts=_count(said["doubts"]),
            look_first=unguarded(said["look at first"]),
            digest=said["content"],
            basis=said["book and job"],
            version=unguarded(said["version"]),
        )
    except (ValueError, InvalidOperation, EstimatorError):
        return None


def _count(text: str) -> int | None:
    return int(text) if text else None


def _number(text: str, factor: float = 1.0) -> float | None:
    return float(text) / factor if text else None


def _money(said: Cells, column: str) -> Money | None:
    return Money(Decimal(said[column]), said["currency"]) if said[column] else None
