import csv
from decimal import Decimal
from io import StringIO

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.batch.results import results, results_text, row_text
from estimator.batch.row import Row, Status
from estimator.errors import DocumentError
from estimator.price.money import Money

QUOTED = Row(
    file="town/office.png",
    status=Status.QUOTED,
    title="Town office",
    storeys=1,
    rooms=12,
    floor=228.46,
    treated=929.41,
    volume=0.04291,
    on_site=9750.0,
    price=Money(Decimal("398.36"), "USD"),
    low=Money(Decimal("312.71"), "USD"),
    high=Money(Decimal("479.46"), "USD"),
    doubts=27,
    look_first="The hall may be open to the lobby.",
    digest="b08fbdc944407a7cb82ae6c2",
    basis="394f7733110b6c4a",
    version="0.1.0",
)
FAILED = Row(file="notes.txt", status=Status.FAILED, says="notes.txt: it holds no room; type one.")


def written(folder, *rows):
    path = folder / "results.csv"
    path.write_bytes(results_text(rows).encode())
    return path


def test_rows_come_back_as_they_were_written(tmp_path):
    path = written(tmp_path, QUOTED)
    with path.open("a", encoding="utf-8", newline="") as file:
        file.write(row_text(FAILED))
    assert results(path) == (QUOTED, FAILED)


def test_there_are_no_rows_before_anything_is_written(tmp_path):
    (tmp_path / "empty.csv").touch()
    assert results(tmp_path / "results.csv") == results(tmp_path / "empty.csv") == ()


def test_a_last_line_that_was_torn_at_any_byte_costs_only_its_own_row(tmp_path):
    whole = written(tmp_path, FAILED, QUOTED).read_bytes()
    first = len(results_text([FAILED]).encode())
    torn = tmp_path / "torn.csv"
    for cut in range(first, len(whole)):
        torn.write_bytes(whole[:cut])
        assert results(torn) == (FAILED,)


@pytest.mark.parametrize(
    "damage",
    [
        lambda text: text.replace(b"quoted", b"qu\xff\xfed"),
        lambda text: text.replace(b"929.41", b"lots"),
        lambda text: text.replace(b"929.41", b"-929.41"),
        lambda text: text.replace(b"398.36", b"nan"),
        lambda text: text.replace(b",12,", b",12,12,"),
        lambda text: text[:-40] + b"\0" * 38 + b"\r\n",
    ],
)
def test_a_damaged_row_is_left_out(tmp_path, damage):
    path = written(tmp_path, FAILED, QUOTED)
    path.write_bytes(damage(path.read_bytes()))
    assert results(path)[:1] == (FAILED,)
    assert len(results(path)) == 1


@pytest.mark.parametrize("content", [b"hello", b"a,b\r\n1,2\r\n", b"\x89PNG\r\n\x1a\n", b"\n"])
def test_a_file_of_another_kind_is_refused_and_named(tmp_path, content):
    path = tmp_path / "other.csv"
    path.write_bytes(content)
    with pytest.raises(DocumentError, match=r"other.csv: it is no list of results"):
        results(path)


# OWASP, "CSV Injection": what begins with = + - @, tab or carriage return may run; from memory.
@given(st.text().filter(lambda text: "\0" not in text and not _has_surrogate(text)))
def test_no_cell_begins_like_a_formula_and_every_text_comes_back(tmp_path_factory, text):
    row = Row(file=f"={text}", status=Status.FAILED, says=text, title=text)
    line = next(csv.reader(StringIO(row_text(row), newline="")))
    assert not any(cell.startswith(("=", "+", "-", "@", "\t", "\r")) for cell in line)

    path = written(tmp_path_factory.mktemp("any"), row)
    assert results(path) == (row,)


def _has_surrogate(text):
    return any("\ud800" <= letter <= "\udfff" for letter in text)
