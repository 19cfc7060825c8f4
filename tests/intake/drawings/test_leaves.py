from itertools import pairwise

import pytest
import shapely
from shapely.geometry import LineString, box

from estimator.intake.drawings.assembly import in_reading_order, rooms_in_metres
from estimator.intake.drawings.gaps import Evidence
from estimator.intake.drawings.leaves import has_leaf
from estimator.intake.drawings.linework import Linework, enclosed

# What is drawn in the door of the house, 0.9 m wide from (5, 2) to (5, 2.9), as runs of points.
ZIGZAG = [(5.0, 2.0), (5.3, 2.225), (5.0, 2.45), (5.3, 2.675), (5.0, 2.9)]
DOORS = {
    "a leaf at a right angle": [[(5.0, 2.0), (4.1, 2.0)]],
    "a leaf half open": [[(5.0, 2.0), (4.36, 2.64)]],
    "a leaf as a rectangle": [[(5.0, 2.0), (4.1, 2.0), (4.1, 2.04), (5.0, 2.04)]],
    "a folding door": [ZIGZAG],
    "two folding leaves": [
        [(5.0, 2.0), (5.35, 2.23), (5.0, 2.45)],
        [(5.0, 2.9), (5.35, 2.67), (5.0, 2.45)],
    ],
    "a folding door pushed aside": [[(5.0, 2.0), (5.4, 2.1), (5.0, 2.2)]],
    "two sliding leaves": [
        list(box(5.05, 2.0, 5.08, 2.5).exterior.coords),
        list(box(5.02, 2.4, 5.05, 2.9).exterior.coords),
    ],
}


def strokes(runs):
    return tuple(LineString(pair) for run in runs for pair in pairwise(run))


def kinds(linework):
    found = enclosed(linework)
    rooms = rooms_in_metres(in_reading_order(found.rooms), found.gaps)
    areas = sorted(room.outline.area for room in rooms)
    return areas, [sorted(one.kind.value for one in room.openings) for room in rooms]


@pytest.mark.parametrize("drawn", DOORS)
def test_doors_without_a_swing_are_doors_in_thick_walls(house, drawn):
    walls = shapely.get_parts(house.walls).tolist()
    evidence = Evidence(strokes=strokes(DOORS[drawn]))
    areas, found = kinds(Linework(solids=tuple(walls), evidence=evidence))
    assert areas == pytest.approx(list(house.areas), rel=1e-3)
    assert "door" in found[0]
    assert "door" in found[1]
    assert "passage" not in found[0] + found[1]


@pytest.mark.parametrize("drawn", DOORS)
def test_doors_without_a_swing_are_doors_in_walls_of_single_lines(drawn):
    lines = [list(box(0, 0, 10, 6).exterior.coords), [(5, 0), (5, 2)], [(5, 2.9), (5, 6)]]
    evidence = Evidence(strokes=strokes(DOORS[drawn]))
    areas, found = kinds(Linework(lines=tuple(map(LineString, lines)), evidence=evidence))
    assert areas == pytest.approx([30, 30], rel=1e-3)
    assert found == [["door"], ["door"]]


@pytest.mark.parametrize(
    "run",
    [
        [(5.0, 2.0), (4.1, 2.0), (4.1, 0.0)],  # a wall that goes on
        [(5.0, 2.0), (5.0, 2.9)],  # along the gap
        [(4.0, 2.0), (3.1, 2.0)],  # away from it
        [(5.0, 2.0), (5.3, 2.2), (5.6, 2.0)],  # leads elsewhere
    ],
)
def test_other_lines_by_a_gap_are_no_leaves(run):
    assert not has_leaf(strokes([run]), (5.0, 2.0), (5.0, 2.9), 0.1)
