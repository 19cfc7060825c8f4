"""The turn of a drawing, on bare lines turned by a known angle."""

import math

import cv2
import numpy as np
import pytest

from estimator.reading.skew import skew


def turned_lines(degrees: float) -> np.ndarray:
    sheet = np.full((400, 500), 255, np.uint8)
    cv2.rectangle(sheet, (100, 80), (400, 320), 20, 5)
    cv2.line(sheet, (250, 80), (250, 320), 20, 5)
    turn = cv2.getRotationMatrix2D((250, 200), degrees, 1.0)
    return cv2.warpAffine(sheet, turn, (500, 400), borderValue=255)


@pytest.mark.parametrize("degrees", [-30, -8, -1.5, 0, 0.7, 4, 20])
def test_the_turn_is_found_within_a_fifth_of_a_degree(degrees):
    # OpenCV turns anticlockwise for positive angles, the reader counts clockwise ones
    assert math.degrees(skew(turned_lines(degrees))) == pytest.approx(-degrees, abs=0.2)


def test_a_blank_sheet_is_upright():
    assert skew(np.full((300, 400), 255, np.uint8)) == 0.0
