import cv2
import numpy as np
import pytest

from estimator.lettering.dimensions import dimension_px, ink_of


def sheet(start, end, tick, *, slope=0.0):
    """Draw a dimension line at row 60 on white paper, with ticks of a kind at both ends."""
    paper = np.full((120, 500, 3), 255, np.uint8)
    rows = {x: round(60 + slope * (x - start)) for x in (start, end)}
    cv2.line(paper, (start, rows[start]), (end, rows[end]), (0, 0, 0), 2)
    for x, row in rows.items():
        inwards = 1 if x == start else -1
        if tick in ("bar", "arrow", "both"):
            cv2.line(paper, (x, row - 7), (x, row + 7), (0, 0, 0), 2)
        if tick in ("slash", "both"):
            cv2.line(paper, (x - 6, row + 6), (x + 6, row - 6), (0, 0, 0), 2)
        if tick == "arrow":
            for rise in (-4, 4):
                cv2.line(paper, (x, row), (x + 9 * inwards, row + rise), (0, 0, 0), 1)
    return paper


@pytest.mark.parametrize("tick", ["bar", "slash", "both", "arrow"])
def test_a_line_is_as_long_as_its_ticks_are_apart(line, tick):
    ink = ink_of(sheet(50, 430, tick))

    assert dimension_px(ink, line("5.28 m", (240, 46), letter=18)) == pytest.approx(380, abs=2)


def test_a_line_may_slant_as_on_a_scan(line):
    ink = ink_of(sheet(50, 430, "both", slope=0.02))

    assert dimension_px(ink, line("5.28 m", (240, 48), letter=18)) == pytest.approx(380, abs=3)


def test_a_line_may_run_up_the_page(line):
    paper = np.ascontiguousarray(sheet(50, 430, "bar").transpose(1, 0, 2))
    lettering = line("5.28 m", (46, 240), letter=18, is_vertical=True)

    assert dimension_px(ink_of(paper), lettering) == pytest.approx(380, abs=2)


def test_lettering_may_interrupt_its_line(line):
    paper = sheet(50, 430, "bar")
    paper[45:75, 200:280] = 255

    assert dimension_px(ink_of(paper), line("5.28 m", (240, 60), letter=16)) == pytest.approx(
        380, abs=2
    )


def test_the_next_line_of_a_chain_does_not_lengthen_this_one(line):
    paper = sheet(50, 250, "slash")
    paper[:, 256:] = sheet(258, 430, "slash")[:, 256:]
    paper[60:62, 250:258] = 0

    assert dimension_px(ink_of(paper), line("2.7 m", (150, 46), letter=18)) == pytest.approx(
        200, abs=3
    )


def test_a_length_off_the_middle_belongs_to_another_line(line):
    ink = ink_of(sheet(50, 430, "bar"))

    assert dimension_px(ink, line("5.28 m", (110, 46), letter=18)) is None


def test_without_a_line_there_is_no_length(line):
    blank = ink_of(np.full((120, 500, 3), 255, np.uint8))

    assert dimension_px(blank, line("5.28 m", (240, 46), letter=18)) is None
