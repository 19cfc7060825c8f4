"""The schedule as CSV and the whole quote as a workbook.

Only amounts of money are formulas; no name or word of anybody ever becomes one.
"""

import csv
import re
from datetime import date, datetime
from io import BytesIO, StringIO
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from openpyxl import Workbook
from openpyxl.styles import Alignment, Border, Font, PatternFill, Side
from openpyxl.utils import get_column_letter
from openpyxl.worksheet.properties import PageSetupProperties
from openpyxl.worksheet.worksheet import Worksheet

from estimator.documents.lettering import plain
from estimator.documents.palette import ACCENT, HAIRLINE, WHITE
from estimator.documents.reader import Reader
from estimator.documents.sheet import Cell, Formula, Sheet
from estimator.documents.sheets import schedule_sheet, sheets
from estimator.price.rates import Rates
from estimator.quantities import Units
from estimator.quantities.cells import guarded
from estimator.quantities.language import Language
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient

_FACE = "Calibri"
_BYTE_ORDER_MARK = "\ufeff"
"""Tells spreadsheet programs that the file is UTF-8."""

_SHEET_FILE = re.compile(r"xl/worksheets/sheet(\d+)\.xml")
_FORMULA_CELL = re.compile(rb'(<c r="([A-Z]+\d+)"[^>]*><f>[^<]*</f>)<v ?/?>(?:</v>)?</c>')
_OLDEST_ZIP_TIME = (1980, 1, 1, 0, 0, 0)


def schedule_csv(quote: Quote, units: Units, language: Language = Language.EN) -> str:
    """Return a row for every surface, to be saved as UTF-8; it begins with a byte order mark."""
    sheet = schedule_sheet(quote, Reader(language=language, units=units))
    written = StringIO()
    rows = csv.writer(written, lineterminator="\r\n")
    rows.writerow(sheet.headings)
    rows.writerows([_csv_cell(cell) for cell in row] for row in sheet.rows)
    return _BYTE_ORDER_MARK + written.getvalue()


def quote_xlsx(
    quote: Quote,
    units: Units,
    *,
    rates: Rates,
    language: Language = Language.EN,
    recipient: Recipient | None = None,
) -> bytes:
    """Return a workbook of schedule, rooms, solution, timetable, price and options.

    Parameters
    ----------
    rates
        Those that the quote was priced at.
    recipient
        Whom it is addressed to, said on a sheet of its own; nobody where it is None.
    """
    book = Workbook()
    first = book.active
    assert first is not None
    book.remove(first)
    results = []
    for sheet in sheets(quote, rates, Reader(language=language, units=units), recipient):
        results.append(_fill(book.create_sheet(sheet.name), sheet))
    book.properties.title = plain(quote.title)
    book.properties.creator = "Floor-plan surface estimator"
    book.properties.created = _day(quote.date)
    written = BytesIO()
    book.save(written)
    return _reproducible(written.getvalue(), _day(quote.date), results)


def _csv_cell(cell: Cell) -> object:
    """Return a cell that no spreadsheet program takes for a formula."""
    if isinstance(cell, float):
        return round(cell, 4)
    return guarded(cell) if isinstance(cell, str) else cell


def _fill(page: Worksheet, sheet: Sheet) -> dict[str, str]:
    """Lay a sheet down and return what its formulas come to by their cells."""
    results = {}
    for column, heading in enumerate(sheet.headings, 1):
        head = page.cell(row=1, column=column, value=heading)
        head.font = Font(name=_FACE, bold=True, color=WHITE[1:])
        head.fill = PatternFill("solid", fgColor=ACCENT[1:])
        flush = "left" if sheet.decimals[column - 1] is None else "right"
        head.alignment = Alignment(wrap_text=True, vertical="center", horizontal=flush)
    rule = Border(bottom=Side("thin", color=HAIRLINE[1:]))
    for at, row in enumerate(sheet.rows, 2):
        for column, (value, decimals) in enumerate(zip(row, sheet.decimals, strict=True), 1):
            cell = page.cell(row=at, column=column)
            cell.border = rule
            if isinstance(value, Formula):
                cell.value = f"={value.text}"
                results[cell.coordinate] = str(value.value)
            else:
                cell.value = value
            if at - 2 in sheet.strong:
                cell.font = Font(name=_FACE, bold=True)
            if isinstance(value, str):
                # Otherwise a text that begins with "=" would become a formula, at once or when
                # somebody edits it.
                cell.data_type = "s"
                cell.quotePrefix = guarded(value) != value
            elif decimals is not None:
                cell.number_format = f"#,##0.{'0' * decimals}" if decimals else "#,##0"
    page.freeze_panes = "A2"
    page.auto_filter.ref = page.dimensions
    page.row_dimensions[1].height = 32
    for column, heading in enumerate(sheet.headings, 1):
        words = [row[column - 1] for row in sheet.rows]
        longest = max((len(word) for word in words if isinstance(word, str)), default=0)
        wide = max(9, min(longest, 48), len(heading) * 0.62, *map(len, heading.split()))
        page.column_dimensions[get_column_letter(column)].width = wide + 3
    page.page_setup.orientation = "landscape"
    page.page_setup.fitToHeight = 0
    page.sheet_properties.pageSetUpPr = PageSetupProperties(fitToPage=True)
    return results


def _day(written: str) -> datetime:
    try:
        day = date.fromisoformat(written)
    except ValueError:
        return datetime(2000, 1, 1)  # noqa: DTZ001 - workbooks know no time zones
    return datetime(day.year, day.month, day.day)  # noqa: DTZ001


def _reproducible(workbook: bytes, day: datetime, results: list[dict[str, str]]) -> bytes:
    """Return the workbook without the time of writing, so that equal quotes are equal.

    What formulas come to is put beside them, for programs that show a workbook without reckoning.
    """
    modified = f"\\g<1>{day:%Y-%m-%dT%H:%M:%SZ}\\g<2>".encode()
    written = BytesIO()
    with ZipFile(BytesIO(workbook)) as old, ZipFile(written, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(
                    rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)", modified, content
                )
            elif found := _SHEET_FILE.fullmatch(name):
                content = _with_results(content, results[int(found[1]) - 1])
            entry = ZipInfo(name, _OLDEST_ZIP_TIME)
            entry.compress_type = ZIP_DEFLATED
            new.writestr(entry, content)
    return written.getvalue()


def _with_results(sheet: bytes, results: dict[str, str]) -> bytes:
    def put(cell: re.Match[bytes]) -> bytes:
        result = results[cell[2].decode()].encode()
        return cell[1] + b"<v>" + result + b"</v></c>"

    return _FORMULA_CELL.sub(put, sheet)
