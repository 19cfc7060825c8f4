import pytest

from estimator.lettering.labels import labels_of
from estimator.lettering.scale_bars import scale_bar


def bar(line, words, marks):
    lines = [line(text, place if isinstance(place, tuple) else (place, 0)) for text, place in marks]
    return scale_bar(labels_of(lines, words))


def test_even_marks_are_a_scale_bar(line, words):
    found = bar(line, words, [("0", 10), ("1", 60), ("2", 110), ("3", 160), ("4 m", 214)])

    assert found.length_px / found.length == pytest.approx(50)


def test_marks_that_were_not_read_leave_a_gap(line, words):
    found = bar(line, words, [("1", 60), ("4", 210), ("5 m", 260)])

    assert found.length_px / found.length == pytest.approx(50, rel=0.01)


def test_a_bar_may_be_in_feet(line, words):
    found = bar(line, words, [("0", 0), ("4", 80), ("8", 160), ("12", 240), ("16'", 321)])

    assert found.length_px / found.length == pytest.approx(20 / 0.3048)


@pytest.mark.parametrize(
    "marks",
    [
        [("1", 60), ("5 m", 260)],
        [("1", 60), ("2", 150), ("5 m", 260)],
        [("1", 260), ("2", 160), ("3 m", 60)],
        [("1", (60, 0)), ("2", (110, 40)), ("3 m", (160, 0))],
    ],
)
def test_other_numbers_are_none(line, words, marks):
    assert bar(line, words, marks) is None
