"""Small sights drawn in the source; what is put right in them are rules of our own."""

import pytest

from estimator.reading.sight.classes import DOOR, OUTSIDE, ROOM, WALL
from estimator.reading.sight.mending import mended


def classes(floor, *spots):
    seen = mended(floor.sight()).classes
    return [int(seen[y, x]) for x, y in spots]


def test_paper_within_a_floor_is_floor(two_rooms):
    floor = two_rooms.mark(OUTSIDE, 60, 60, 90, 90)

    assert classes(floor, (75, 75), (10, 10)) == [ROOM, OUTSIDE]
    assert mended(floor.sight()).shares[:, 75, 75].sum() == pytest.approx(1)


def test_a_yard_with_walls_around_it_stays_paper(two_rooms):
    floor = two_rooms.mark(WALL, 54, 54, 96, 96).mark(OUTSIDE, 60, 60, 90, 90)

    assert classes(floor, (75, 75)) == [OUTSIDE]


def test_paper_larger_than_the_floor_around_it_stays_paper(two_rooms):
    floor = two_rooms.mark(OUTSIDE, 45, 45, 135, 155)

    assert classes(floor, (90, 90)) == [OUTSIDE]


def test_a_door_that_ends_amid_the_floor_is_floor(two_rooms):
    floor = two_rooms.door(40, 80, 100, 86)

    assert classes(floor, (70, 83)) == [ROOM]


def test_a_door_between_jambs_stays_a_door(two_rooms):
    floor = two_rooms.door(140, 80, 146, 104).door(60, 160, 90, 166)

    assert classes(floor, (143, 92), (75, 163)) == [DOOR, DOOR]


def test_a_sight_with_nothing_to_mend_is_left_as_it_is(two_rooms):
    sight = two_rooms.sight()

    assert mended(sight) is sight
