"""Time of reading a plan of 1500 x 1000 pixels, beside OpenCV decoding and thresholding its file.

Run with ``pytest tests/benchmarks``. Both times are medians of one run, OpenCV on one core and the
network on two. The plan has solid walls, doors, windows, furniture and lettering.
"""

import cv2
import numpy as np
import pytest
from timing import median_time

from estimator.reading.picture import Picture
from estimator.reading.read import read

MOST_TIMES = 20
ROOMS = 12
INK = 25


def drawn_plan() -> np.ndarray:
    """Return a plan of two rows of six rooms along a corridor, drawn here; uint8, shape (H, W)."""
    sheet = np.full((1000, 1500), 255, np.uint8)
    sheet[100:900, 100:1400] = INK
    sheet[450:550, 124:1376] = 255
    for at in range(6):
        left, right = 124 + at * 210, 124 + at * 210 + 202
        for top, bottom, wall in ((124, 442, 442), (558, 876, 550)):
            sheet[top:bottom, left:right] = 255
            door = left + 70
            sheet[wall : wall + 8, door : door + 66] = 255
            outside = 100 if top < 450 else 876
            sheet[outside : outside + 24, left + 50 : left + 150] = 255
            for line in (0, 11, 23):
                sheet[outside + line, left + 50 : left + 150] = INK
            hinge, turn = ((door, 442), 270) if top < 450 else ((door, 558), 0)
            cv2.ellipse(sheet, hinge, (66, 66), 0, turn, turn + 90, INK, 1, cv2.LINE_AA)
            leaf = hinge[1] - 66 if top < 450 else hinge[1] + 66
            cv2.line(sheet, hinge, (door, leaf), INK, 1)
            for piece in (20, 90, 140):
                cv2.rectangle(
                    sheet, (left + piece, top + 120), (left + piece + 40, top + 170), 90, 1
                )
            cv2.putText(sheet, "Office", (left + 60, top + 220), 0, 0.7, INK, 1, cv2.LINE_AA)
            cv2.putText(sheet, "12.5 m2", (left + 60, top + 245), 0, 0.5, INK, 1, cv2.LINE_AA)
    return sheet


@pytest.fixture
def one_core():
    """Let OpenCV use one thread, for this test only."""
    threads = cv2.getNumThreads()
    cv2.setNumThreads(1)
    yield
    cv2.setNumThreads(threads)


@pytest.mark.usefixtures("one_core")
def test_reading_takes_at_most_twenty_times_decoding_and_thresholding(capsys):
    rgb = np.repeat(drawn_plan()[..., None], 3, axis=2)
    file = cv2.imencode(".png", rgb)[1]

    def decode_and_threshold() -> None:
        grey = cv2.cvtColor(cv2.imdecode(file, cv2.IMREAD_COLOR), cv2.COLOR_BGR2GRAY)
        cv2.threshold(grey, 0, 255, cv2.THRESH_OTSU)

    picture = Picture(pixels=rgb)
    assert len(read(picture).plan.rooms) == ROOMS + 1
    beside = median_time(decode_and_threshold, 31)
    reading = median_time(lambda: read(picture), 9)
    with capsys.disabled():
        print(
            f"\nreading 1500 x 1000: {reading * 1000:.0f} ms, "
            f"{reading / beside:.1f} times decoding and thresholding ({beside * 1000:.1f} ms)"
        )

    assert reading <= MOST_TIMES * beside
