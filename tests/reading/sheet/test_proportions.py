"""Proportions against the camera that took the picture; paper sizes by ISO 216 and ASME Y14.1."""

import math

import numpy as np
import pytest

from estimator.reading.sheet.proportions import proportions


@pytest.mark.parametrize("ratio", [math.sqrt(2), 1 / math.sqrt(2), 11 / 8.5, 1.0, 1.85])
@pytest.mark.parametrize(("tilt", "turn"), [(0, 0), (25, 0), (0, -20), (-22, 15)])
def test_the_proportions_of_a_sheet_seen_askew_are_found_within_1_percent(
    photograph, ratio, tilt, turn
):
    sheet = np.full((600, round(600 * ratio), 3), 255, np.uint8)
    photo = photograph(sheet, 0, tilt=tilt, turn=turn, roll=4, on="dark")
    found = proportions(photo.corners, photo.pixels.shape[1::-1])
    assert found == pytest.approx(ratio, rel=0.01)


def test_a_sheet_near_those_of_common_paper_has_exactly_theirs():
    corners = np.array([[100, 100], [1300, 100], [1300, 950], [100, 950]], float)
    assert proportions(corners, (1400, 1050)) == math.sqrt(2)
