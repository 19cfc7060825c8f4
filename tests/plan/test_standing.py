import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import PlanError
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.standing import (
    piece_moved,
    piece_placed,
    piece_removed,
    piece_resized,
    piece_turned,
    turned,
)

HALL = Plan(rooms=(Room(id="a", name="Hall", outline=rectangle(20, 20)),))


def desk(plan, at=(1.5, 2.0), degrees=0.0):
    return piece_placed(plan, 0, "desk", at, length=1.6, depth=0.8, degrees=degrees)


def test_a_piece_stands_in_the_room_it_is_put_down_in(typed):
    after = desk(typed, (4.1, 2))

    assert [len(room.furnishings) for room in after.rooms] == [0, 1]
    footprint = after.rooms[1].furnishings[0].footprint
    assert footprint.hausdorff_distance(rectangle(1.6, 0.8, left=3.3, top=1.6)) < 1e-9


def test_a_piece_put_down_outside_is_refused(typed):
    with pytest.raises(PlanError, match="no room"):
        desk(typed, (-3, -3))


def test_a_piece_carried_into_another_room_belongs_there(typed):
    after = piece_moved(desk(typed), "a", 0, (2.6, 0.0))

    assert [len(room.furnishings) for room in after.rooms] == [0, 1]


@given(st.floats(0, 360), st.floats(-360, 360), st.floats(0.1, 3), st.floats(0.1, 3))
def test_turning_and_resizing_keep_the_middle(first, more, length, depth):
    plan = piece_turned(desk(HALL, (10, 10), first), "a", 0, more)
    plan = piece_resized(plan, "a", 0, length=length, depth=depth)
    shape = plan.rooms[0].furnishings[0].footprint

    assert (shape.centroid.x, shape.centroid.y) == pytest.approx((10, 10))
    assert shape.area == pytest.approx(length * depth)


def test_a_turned_piece_stays_turned_when_it_is_resized():
    plan = piece_resized(desk(HALL, (10, 10), 30), "a", 0, length=2, depth=1)

    assert turned(plan.rooms[0].furnishings[0].footprint) == pytest.approx(30)


@pytest.mark.parametrize(("length", "depth"), [(0, 1), (1, 500), (float("nan"), 1)])
def test_sizes_no_piece_has_are_refused(length, depth):
    with pytest.raises(PlanError, match="such a size"):
        piece_resized(desk(HALL), "a", 0, length=length, depth=depth)


def test_a_removed_piece_is_gone(typed):
    plan = piece_removed(desk(typed), "a", 0)

    assert plan.rooms[0].furnishings == ()
    with pytest.raises(PlanError, match="no longer there"):
        piece_removed(plan, "a", 0)
