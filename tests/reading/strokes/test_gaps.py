"""Gaps in walls, on bare walls drawn as rectangles of a mask."""

import math

import numpy as np
import pytest

from estimator.reading.settings import Settings
from estimator.reading.strokes.gaps import gaps_in
from estimator.reading.strokes.walls import Strokes

SETTINGS = Settings()


def walls(*boxes: tuple[int, int, int, int]) -> Strokes:
    mask = np.zeros((400, 500), bool)
    for left, top, right, bottom in boxes:
        mask[top:bottom, left:right] = True
    return Strokes(walls=mask, thin=np.zeros_like(mask), thickness=(10.0, 10.0))


def test_two_wall_ends_facing_each_other_make_a_gap():
    (gap,) = gaps_in(walls((50, 100, 200, 110), (260, 100, 450, 110)), SETTINGS)

    assert gap.firm
    assert gap.corners.tolist() == [[200, 100], [260, 100], [260, 110], [200, 110]]
    assert (gap.width_px, gap.depth_px) == (60, 10)


def test_an_upright_wall_has_gaps_too():
    (gap,) = gaps_in(walls((100, 30, 110, 150), (100, 200, 110, 380)), SETTINGS)

    assert sorted(map(tuple, gap.corners.tolist())) == [
        (100, 150), (100, 200), (110, 150), (110, 200),
    ]  # fmt: skip


def test_a_wall_end_facing_the_side_of_a_wall_makes_a_gap():
    gaps = gaps_in(walls((50, 100, 200, 110), (260, 20, 270, 380)), SETTINGS)

    assert [gap.corners[0].tolist() for gap in gaps if gap.firm] == [[200, 100]]


def test_two_walls_side_by_side_have_none():
    assert not [
        gap for gap in gaps_in(walls((50, 20, 60, 380), (110, 20, 120, 380)), SETTINGS) if gap.firm
    ]


def test_ends_too_far_apart_have_none():
    assert gaps_in(walls((10, 100, 100, 110), (400, 100, 490, 110)), SETTINGS) == []


def test_a_gap_in_a_slanted_wall_is_found_along_it():
    mask = np.zeros((400, 500), bool)
    rows, columns = np.mgrid[0:400, 0:500]
    along = (columns - 50) * 0.8 + (rows - 50) * 0.6
    across = (rows - 50) * 0.8 - (columns - 50) * 0.6
    mask[(abs(across) < 6) & (along > 0) & (along < 420) & ((along < 180) | (along > 240))] = True
    slanted = Strokes(walls=mask, thin=np.zeros_like(mask), thickness=(12.0, 12.0))
    (gap,) = [gap for gap in gaps_in(slanted, SETTINGS) if gap.firm]

    assert gap.width_px == pytest.approx(60, abs=6)
    assert abs(math.atan2(gap.along[1], gap.along[0])) == pytest.approx(
        math.atan2(0.6, 0.8), abs=0.03
    )
    assert gap.covers(np.array([50 + 210 * 0.8, 50 + 210 * 0.6]))
