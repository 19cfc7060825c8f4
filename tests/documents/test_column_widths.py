import pytest

from estimator.documents.column_widths import column_widths
from estimator.documents.lettering import width

HEAD = ("Room", "Litres", "Wipe")


def widths(*rows, wide=300.0):
    return column_widths(HEAD, rows, 6.0, wide, wrapping=("Room", "Wipe"))


@pytest.mark.parametrize("long", ["", "Table", "Kitchen base unit; " * 20])
def test_a_table_is_just_as_wide_as_asked(long):
    assert sum(widths(("Hall", "12.5 L", long))) == pytest.approx(300)


def test_only_columns_of_long_words_give_way_and_the_longest_first():
    room, litres, wipe = widths(("Operating Room 3", "12.5 L", "Kitchen base unit; " * 20))

    assert room >= width("Operating Room 3", 6.0)
    assert litres >= width("12.5 L", 6.0)
    assert wipe == max(room, litres, wipe)


def test_where_too_little_is_left_all_give_way():
    assert sum(widths(("Hall", "9" * 200, "Table"))) == pytest.approx(300)
