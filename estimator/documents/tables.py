"""The schedule as CSV and the whole quote as a workbook; no cell of them is ever a formula."""

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

from estimator.documents.palette import ACCENT, HAIRLINE, WHITE
from estimator.documents.sheets import Cell, Sheet, schedule_sheet, sheets
from estimator.quantities import Units
from estimator.quote.quote import Quote

_BYTE_ORDER_MARK = "\ufeff"
"""Tells spreadsheet programs that the file is UTF-8."""

_FORMULA_SIGNS = ("=", "+", "-", "@")
_OLDEST_ZIP_TIME = (1980, 1, 1, 0, 0, 0)


def schedule_csv(quote: Quote, units: Units) -> str:
    """Return a row for every surface, to be saved as UTF-8; it begins with a byte order mark."""
    sheet = schedule_sheet(quote, units)
    written = StringIO()
    rows = csv.writer(written, lineterminator="\r\n")
    rows.writerow(sheet.headings)
    rows.writerows([_csv_cell(cell) for cell in row] for row in sheet.rows)
    return _BYTE_ORDER_MARK + written.getvalue()


def quote_xlsx(quote: Quote, units: Units) -> bytes:
    """Return a workbook of schedule, rooms, solution, timetable and price."""
    book = Workbook()
    first = book.active
    assert first is not None
    book.remove(first)
    for sheet in sheets(quote, units):
        _fill(book.create_sheet(sheet.name), sheet)
    book.properties.title = quote.title
    book.properties.creator = "Floor-plan surface estimator"
    book.properties.created = _day(quote.date)
    written = BytesIO()
    book.save(written)
    return _reproducible(written.getvalue(), _day(quote.date))


def _csv_cell(cell: Cell) -> Cell:
    """Return a cell that no spreadsheet program takes for a formula."""
    if isinstance(cell, float):
        return round(cell, 4)
    if isinstance(cell, str) and cell.startswith(_FORMULA_SIGNS):
        return f"'{cell}"
    return cell


def _fill(page: Worksheet, sheet: Sheet) -> None:
    for column, heading in enumerate(sheet.headings, 1):
        head = page.cell(row=1, column=column, value=heading)
        head.font = Font(bold=True, color=WHITE[1:])
        head.fill = PatternFill("solid", fgColor=ACCENT[1:])
        head.alignment = Alignment(wrap_text=True, vertical="center")
    rule = Border(bottom=Side("thin", color=HAIRLINE[1:]))
    for at, row in enumerate(sheet.rows, 2):
        for column, (value, decimals) in enumerate(zip(row, sheet.decimals, strict=True), 1):
            cell = page.cell(row=at, column=column)
            cell.value = value
            cell.border = rule
            if isinstance(value, str):
                # Otherwise a text that begins with "=" would become a formula.
                cell.data_type = "s"
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


def _day(written: str) -> datetime:
    try:
        day = date.fromisoformat(written)
    except ValueError:
        return datetime(2000, 1, 1)  # noqa: DTZ001 - workbooks know no time zones
    return datetime(day.year, day.month, day.day)  # noqa: DTZ001


def _reproducible(workbook: bytes, day: datetime) -> bytes:
    """Return the workbook with the time of writing taken out, so that equal quotes are equal."""
    modified = f"\\g<1>{day:%Y-%m-%dT%H:%M:%SZ}\\g<2>".encode()
    written = BytesIO()
    with ZipFile(BytesIO(workbook)) as old, ZipFile(written, "w", ZIP_DEFLATED) as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(
                    rb"(<dcterms:modified[^>]*>)[^<]*(</dcterms:modified>)", modified, content
                )
            entry = ZipInfo(name, _OLDEST_ZIP_TIME)
            entry.compress_type = ZIP_DEFLATED
            new.writestr(entry, content)
    return written.getvalue()
