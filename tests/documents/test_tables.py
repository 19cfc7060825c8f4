import csv
from io import BytesIO, StringIO

import pytest
from attrs import evolve
from openpyxl import load_workbook

from estimator.catalogue.loader import packaged_book
from estimator.documents.tables import quote_xlsx, schedule_csv
from estimator.quantities import Units
from estimator.quote.recipient import Recipient

RATES = packaged_book().rates
FORMULAS = ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1+1", "\r=1+1", " =1+1", '=HYPERLINK("x")']


def _rows(text):
    return list(csv.DictReader(StringIO(text.removeprefix("\ufeff"), newline="")))


def _named(quote, name):
    rooms = tuple(evolve(room, name=name, use_label=name) for room in quote.schedule.rooms)
    return evolve(quote, title=name, schedule=evolve(quote.schedule, rooms=rooms))


def _column(sheet, heading):
    headings = [cell.value for cell in sheet[1]]
    at = headings.index(heading)
    return [row[at].value for row in sheet.iter_rows(min_row=2)]


def test_the_csv_sums_to_the_schedule(quote):
    rows = _rows(schedule_csv(quote, Units.METRIC))

    assert len(rows) == sum(len(room.surfaces) for room in quote.schedule.rooms)
    treated = sum(float(row["Treated (m²)"]) for row in rows)
    assert treated == pytest.approx(quote.schedule.treated, abs=1e-3)


def test_the_csv_in_us_units_sums_to_the_same_area(quote):
    rows = _rows(schedule_csv(quote, Units.US))

    # 1 ft² = 0.09290304 m² exactly (NIST SP 811, appendix B).
    treated = sum(float(row["Treated (ft²)"]) for row in rows) * 0.09290304
    assert treated == pytest.approx(quote.schedule.treated, abs=1e-3)


def test_the_csv_says_that_it_is_utf_8(quote):
    assert schedule_csv(quote, Units.METRIC).encode().startswith(b"\xef\xbb\xbf")


@pytest.mark.parametrize("name", FORMULAS)
def test_no_name_becomes_a_formula_in_the_csv(quote, name):
    for row in _rows(schedule_csv(_named(quote, name), Units.METRIC)):
        assert not row["Room"].startswith(("=", "+", "-", "@", "\t", "\r"))


@pytest.mark.parametrize("name", FORMULAS)
def test_no_name_becomes_a_formula_in_the_workbook(quote, name):
    book = load_workbook(BytesIO(quote_xlsx(_named(quote, name), Units.METRIC, rates=RATES)))

    kinds = {cell.data_type for sheet in book for row in sheet.iter_rows() for cell in row}
    assert kinds <= {"s", "n", "f"}
    words = [
        cell
        for sheet in book
        for row in sheet.iter_rows(min_row=2)
        for cell in row
        if isinstance(cell.value, str) and name.strip() in cell.value and cell.data_type == "f"
    ]
    assert not [cell.value for cell in words if cell.column_letter not in "BE"]


def test_the_workbook_holds_numbers_and_its_sums_agree_with_the_quote(quote):
    book = load_workbook(BytesIO(quote_xlsx(quote, Units.METRIC, rates=RATES)))

    assert book.sheetnames == ["Schedule", "Rooms", "Solution", "Timetable", "Price"]
    assert sum(_column(book["Schedule"], "Treated (m²)")) == pytest.approx(quote.schedule.treated)
    assert sum(_column(book["Rooms"], "Floor (m²)")) == pytest.approx(quote.schedule.floor_area)
    litres = quote.solution.volume * 1000
    assert sum(_column(book["Rooms"], "Solution (L)")) == pytest.approx(litres)
    assert sum(_column(book["Solution"], "Tablets")) == sum(
        mix.tablets for mix in quote.solution.mixes
    )
    assert len(_column(book["Timetable"], "Step")) == len(quote.timetable.tasks)
    price = load_workbook(BytesIO(quote_xlsx(quote, Units.METRIC, rates=RATES)), data_only=True)[
        "Price"
    ]
    amounts = dict(zip(_column(price, "Line"), _column(price, "Amount (USD)"), strict=True))
    assert amounts["Total"] == pytest.approx(float(quote.price.total.amount))


def test_the_heading_of_every_sheet_stays_in_sight(quote):
    book = load_workbook(BytesIO(quote_xlsx(quote, Units.US, rates=RATES)))

    assert {sheet.freeze_panes for sheet in book} == {"A2"}
    assert "Treated (ft²)" in [cell.value for cell in book["Schedule"][1]]


def test_equal_quotes_give_equal_workbooks(quote):
    once = quote_xlsx(quote, Units.METRIC, rates=RATES)

    assert once == quote_xlsx(quote, Units.METRIC, rates=RATES)
    assert b"openpyxl" not in quote_xlsx(quote, Units.METRIC, rates=RATES)


@pytest.mark.parametrize("name", ["厨房", "\x00\x0b", "\ud800", "\uffff", "مطبخ"])
def test_any_name_can_be_written(quote, name):
    named = _named(quote, name)
    book, plain = (quote_xlsx(one, Units.METRIC, rates=RATES) for one in (named, quote))

    assert load_workbook(BytesIO(book)).sheetnames == load_workbook(BytesIO(plain)).sheetnames
    assert schedule_csv(named, Units.METRIC).encode()


def test_a_workbook_says_whom_it_is_addressed_to_and_no_name_is_a_formula(quote):
    recipient = Recipient(client="=HYPERLINK(1)", site="Clinic", number="3F9A", version=2)
    rates = packaged_book().rates
    page = load_workbook(
        BytesIO(quote_xlsx(quote, Units.METRIC, rates=rates, recipient=recipient))
    )["Quote"]
    said = {row[0].value: row[1] for row in page.iter_rows(min_row=2)}

    assert (said["Number"].value, said["Version"].value) == ("3F9A", 2)
    assert said["Client"].value == "=HYPERLINK(1)"
    assert (said["Client"].data_type, said["Client"].quotePrefix) == ("s", True)
    assert "Quote" not in load_workbook(BytesIO(quote_xlsx(quote, Units.METRIC, rates=rates)))
