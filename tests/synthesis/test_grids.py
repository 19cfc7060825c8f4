import numpy as np
import pytest

from estimator.synthesis.grids import OUTSIDE, Lines, Untraceable, outline, runs

LINES = Lines((0.0, 1.0, 2.0, 3.0), (0.0, 1.0, 2.0, 3.0))


def cells(drawing):
    return np.array(
        [[OUTSIDE if mark == "." else int(mark) for mark in line] for line in drawing.split()],
        np.int32,
    )


def test_an_outline_has_only_corners_that_turn():
    ell = cells("000 0.. 0..") == 0

    assert set(outline(ell, LINES)) == {(0, 0), (3, 0), (3, 1), (1, 1), (1, 3), (0, 3)}


@pytest.mark.parametrize("drawing", ["000 0.0 000", "0.. ..0 ...", "0.. .0. ..."])
def test_rooms_in_parts_or_around_others_have_no_outline(drawing):
    with pytest.raises(Untraceable):
        outline(cells(drawing) == 0, LINES)


def test_runs_part_where_either_side_changes():
    found = list(runs(cells("001 001 222"), LINES))
    between = {
        frozenset((run.room, run.beyond)): run.length for run in found if run.beyond != OUTSIDE
    }

    assert between == {
        frozenset((0, 1)): 2.0,
        frozenset((0, 2)): 2.0,
        frozenset((1, 2)): 1.0,
    }
    # all outer runs together are the perimeter of a 3 by 3 square
    assert sum(run.length for run in found if run.beyond == OUTSIDE) == 12.0
