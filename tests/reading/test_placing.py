import numpy as np
import pytest
from shapely.geometry import Polygon

from estimator.reading.placing import on_wall

STEPPED = Polygon([(0, 0), (50, 0), (50, 3), (100, 3), (100, 80), (0, 80)])


def placed(start, end, outline=STEPPED):
    return on_wall(outline, (np.array(start, float), np.array(end, float)))


def test_ends_come_onto_the_wall_they_lie_along():
    assert placed((10, 78), (40, 79)) == (pytest.approx((10, 80), abs=0.1), (40, 80))


def test_an_opening_behind_a_step_in_the_wall_keeps_its_width():
    start, end = placed((35, -2), (65, -2))

    assert (start, end) == ((35, 0), (65, 3))


def test_no_opening_runs_around_a_corner():
    start, end = placed((90, 1), (100, 40))

    assert start[0] == end[0] == 100


def test_what_lies_along_no_wall_is_left_out():
    assert placed((45, 20), (55, 20), Polygon([(0, 0), (49, 0), (49, 80), (0, 80)])) is None
