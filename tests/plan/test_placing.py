import math

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import OpeningOffWall, PlanError
from estimator.plan.geometry import rectangle
from estimator.plan.opening import OpeningKind
from estimator.plan.placing import (
    opening_moved,
    opening_placed,
    opening_removed,
    opening_resized,
)
from estimator.plan.plan import Plan
from estimator.plan.room import Room

HALL = Plan(rooms=(Room(id="a", name="Hall", outline=rectangle(3, 4)),))


def middle(opening):
    return tuple((a + b) / 2 for a, b in zip(opening.start, opening.end, strict=True))


def test_a_door_between_two_rooms_is_put_into_both_and_leads_through(typed):
    after = opening_placed(typed, 0, OpeningKind.DOOR, (3.05, 3.0))
    here, there = after.rooms[0].openings[-1], after.rooms[1].openings[-1]

    assert middle(here) == pytest.approx((3, 3))
    assert middle(there) == pytest.approx((3.1, 3))
    assert (here.leads_to, there.leads_to) == ("b", "a")
    assert (here.width, there.width) == pytest.approx((0.9, 0.9))
    assert len({one.id for room in after.rooms for one in room.openings}) == 4


def test_a_window_to_the_outside_is_put_into_one_room(typed):
    after = opening_placed(typed, 0, OpeningKind.WINDOW, (1.0, -0.2))

    assert [len(room.openings) for room in after.rooms] == [2, 1]
    assert after.rooms[0].openings[-1].leads_to is None
    assert middle(after.rooms[0].openings[-1]) == pytest.approx((1, 0))


@given(st.floats(-0.5, 3.5))
def test_an_opening_lies_within_its_wall_wherever_it_was_put(x):
    after = opening_placed(HALL, 0, OpeningKind.PASSAGE, (x, -0.05))
    passage = after.rooms[0].openings[0]

    assert passage.width == pytest.approx(1.2)
    assert all(-1e-9 <= end[0] <= 3 + 1e-9 for end in (passage.start, passage.end))


def test_a_passage_is_no_wider_than_its_wall(typed):
    after = opening_placed(typed, 0, OpeningKind.PASSAGE, (4.0, 0.0), width=9.0)

    assert after.rooms[1].openings[-1].width == pytest.approx(2)


def test_a_door_off_every_wall_is_refused_in_one_sentence(typed):
    with pytest.raises(OpeningOffWall) as refused:
        opening_placed(typed, 0, OpeningKind.DOOR, (1.5, 2.0))
    assert str(refused.value) == "The door: no wall is there; put it on a wall of a room."


def test_a_door_moved_along_its_wall_moves_on_both_sides(typed):
    tall = evolve(typed.rooms[0].openings[0], height=2.1)
    rooms = (evolve(typed.rooms[0], openings=(tall,)), typed.rooms[1])
    after = opening_moved(evolve(typed, rooms=rooms), "a", "d", (3.0, 3.0))

    assert [len(room.openings) for room in after.rooms] == [1, 1]
    assert [middle(room.openings[0])[1] for room in after.rooms] == pytest.approx([3, 3])
    assert after.rooms[0].openings[0].height == 2.1


def test_a_door_moved_to_an_outer_wall_leads_outside(typed):
    after = opening_moved(typed, "a", "d", (0.0, 2.0))

    assert [len(room.openings) for room in after.rooms] == [1, 0]
    assert after.rooms[0].openings[0].leads_to is None


def test_a_door_is_made_wider_on_both_sides(typed):
    after = opening_resized(typed, "a", "d", 1.4)

    assert [room.openings[0].width for room in after.rooms] == pytest.approx([1.4, 1.4])
    with pytest.raises(PlanError):
        opening_resized(typed, "a", "d", 0.0)


def test_a_removed_door_is_gone_on_both_sides(typed):
    after = opening_removed(typed, "a", "d")

    assert [room.openings for room in after.rooms] == [(), ()]
    with pytest.raises(PlanError, match="no longer there"):
        opening_removed(after, "a", "d")


def test_on_a_picture_without_a_scale_a_door_has_pixels_only(unscaled):
    after = opening_placed(unscaled, 0, OpeningKind.DOOR, (0, 200))
    door = after.rooms[0].openings[-1]

    assert (door.start, door.end) == (None, None)
    assert door.start_px[0] == door.end_px[0] == 0
    assert 50 < math.dist(door.start_px, door.end_px) < 150
