import pytest

from estimator.synthesis.buildings import building, door, room, window

ROOMS = [room("A", "office", 0, 0, 4, 3), room("B", "office", 4, 1, 3, 4)]


def test_a_door_is_put_in_the_wall_two_rooms_share():
    (gap,) = building("two", ROOMS, [door("A", "B", 0.5, width=0.8)]).gaps

    # the rooms share x = 4 from y = 1 to y = 3
    assert gap.start == pytest.approx((4.0, 1.6))
    assert gap.end == pytest.approx((4.0, 2.4))
    assert gap.inward == pytest.approx((-1.0, 0.0))


def test_a_window_is_put_in_the_outer_wall_of_that_side():
    (gap,) = building("two", ROOMS, [window("B", "south", 0.5, width=1.0)], outer_wall=0.3).gaps

    assert gap.start[1] == gap.end[1] == 5.0
    assert gap.front + gap.back == pytest.approx(0.3)
    assert gap.other is None


def test_an_opening_wider_than_its_wall_is_refused():
    with pytest.raises(ValueError, match=r"2\.5 m wide on 2\.00 m of wall"):
        building("two", ROOMS, [door("A", "B", width=2.5)])
