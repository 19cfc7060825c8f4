import math

import numpy as np
import pytest

from estimator.plan.opening import OpeningKind
from estimator.synthesis.layouts import Gap, Piece, area, inset

SQUARE = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 3.0), (0.0, 3.0)])
ELL = np.array([(0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0)])


def test_inset_moves_every_side_by_the_same():
    # worked by hand: (4 - 2 x 0.1) x (3 - 2 x 0.1)
    assert area(inset(SQUARE, 0.1)) == pytest.approx(3.8 * 2.8)


def test_inset_keeps_inner_corners_sharp():
    # worked by hand: 3.8 x 1.8 and 1.8 x 2 below it
    assert area(inset(ELL, 0.1)) == pytest.approx(3.8 * 1.8 + 1.8 * 2.0)


def test_inset_takes_either_direction_and_outwards_undoes_it():
    assert np.allclose(
        np.sort(inset(inset(SQUARE[::-1], 0.2), -0.2), axis=0), np.sort(SQUARE, axis=0)
    )


def test_a_gap_spans_its_wall_from_jamb_to_jamb():
    gap = Gap(
        kind=OpeningKind.DOOR,
        start=(1.0, 0.0),
        end=(1.8, 0.0),
        inward=(0.0, 1.0),
        room="hall",
        front=0.05,
        back=0.25,
    )

    assert gap.width == pytest.approx(0.8)
    assert abs(area(gap.band())) == pytest.approx(0.8 * 0.3)


def test_a_piece_keeps_its_size_when_turned():
    piece = Piece(kind="desk", room="a", centre=(2.0, 1.0), width=1.5, depth=0.75, turn=30)
    corners = piece.footprint()

    assert abs(area(corners)) == pytest.approx(1.5 * 0.75)
    assert math.dist(corners[0], corners[1]) == pytest.approx(1.5)
