"""Walls parted from thinner strokes, on strokes of known thickness."""

import numpy as np
import pytest

from estimator.reading.settings import Settings
from estimator.reading.strokes.walls import limits_between, wall_strokes

SETTINGS = Settings()


def strokes(*thicknesses: int) -> np.ndarray:
    """A cross of one long stroke of each thickness after another, all joined at the left."""
    ink = np.zeros((600, 800), bool)
    ink[20:580, 40 : 40 + max(thicknesses)] = True
    for at, thick in enumerate(thicknesses):
        top = 60 + 500 * at // len(thicknesses)
        ink[top : top + thick, 40:760] = True
    return ink


def test_the_histogram_of_widths_falls_into_classes():
    widths = np.array([1.0] * 500 + [9.0] * 300 + [21.0] * 200)
    classes = limits_between(widths, SETTINGS)

    assert [peak for _, peak in classes] == [1, 9, 21]
    assert [begins for begins, _ in classes] == [0.0, 5.0, 15.0]


def test_inner_and_outer_walls_are_walls_and_the_pen_is_not():
    (walls,) = wall_strokes(strokes(21, 11, 2, 2, 2), SETTINGS)

    assert walls.thickness == (pytest.approx(11, abs=1), pytest.approx(21, abs=1))
    assert walls.walls[60:81, 200:700].all()
    assert walls.walls[160:171, 200:700].all()
    assert not walls.walls[260:560, 200:700].any()
    assert walls.thin[260:262, 200:700].all()


def test_much_thinner_strokes_are_tried_both_ways():
    ways = list(wall_strokes(strokes(24, 8, 1, 1), SETTINGS))

    assert [round(way.thickness[0]) for way in ways] == [23, 7]


def test_strokes_of_one_thickness_are_parted_in_no_way():
    ink = np.zeros((300, 300), bool)
    ink[100:103, 20:280] = True

    assert list(wall_strokes(ink, SETTINGS)) == []
