import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from estimator.errors import PlanError
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.pulling import (
    corner_added,
    corner_moved,
    corner_pulled,
    corner_removed,
    wall_moved,
)
from estimator.plan.room import Basis, Room


def areas(plan):
    return [room.outline.area for room in plan.rooms]


@given(
    st.lists(st.floats(1, 9), min_size=2, max_size=6),
    st.floats(1, 9),
    st.floats(-0.9, 0.9),
    st.data(),
)
def test_moving_a_shared_wall_gives_one_room_what_it_takes_from_the_other(widths, depth, by, data):
    at = data.draw(st.integers(0, len(widths) - 2))
    lefts = [sum(widths[:place]) for place in range(len(widths) + 1)]
    rooms = tuple(
        Room(id=str(place), name="", outline=rectangle(width, depth, left=lefts[place]))
        for place, width in enumerate(widths)
    )
    plan = Plan(rooms=rooms)
    x = lefts[at + 1]
    after = wall_moved(plan, str(at), (x, 0), (x, depth), (by, 3.0))

    assert sum(areas(after)) == pytest.approx(sum(areas(plan)))
    assert areas(after)[at] == pytest.approx((widths[at] + by) * depth)


def test_a_shared_wall_takes_its_door_along_on_both_sides(typed):
    after = wall_moved(typed, "a", (3, 0), (3, 4), (0.5, 0))

    assert areas(after) == pytest.approx([14, 6])
    assert after.rooms[0].openings[0].start == pytest.approx((3.5, 1.0))
    assert after.rooms[1].openings[0].start == pytest.approx((3.6, 1.9))
    assert after.doubts == ()


def test_a_wall_moved_alone_leaves_the_other_room(typed):
    after = wall_moved(typed, "a", (3, 0), (3, 4), (-0.5, 0), alone=True)

    assert areas(after) == pytest.approx([10, 8])


def test_a_door_stays_where_it_is_when_its_wall_grows(typed):
    after = wall_moved(typed, "a", (0, 0), (3, 0), (0, -1))

    assert areas(after) == pytest.approx([15, 8])
    assert after.rooms[0].openings[0].start == pytest.approx((3, 1))


def test_a_door_is_kept_within_a_wall_that_shrinks(typed):
    after = wall_moved(typed, "a", (0, 0), (3, 0), (0, 1.5))
    door = after.rooms[0].openings[0]

    assert sorted([door.start[1], door.end[1]]) == pytest.approx([1.5, 2.4])


@pytest.mark.parametrize("by", [-3.0, -5.0])
def test_a_wall_does_not_pass_the_one_opposite(typed, by):
    with pytest.raises(PlanError):
        wall_moved(typed, "a", (3, 0), (3, 4), (by, 0))


def test_a_wall_that_was_moved_meanwhile_is_not_there(typed):
    after = wall_moved(typed, "a", (3, 0), (3, 4), (0.5, 0))
    with pytest.raises(PlanError, match="no longer there"):
        wall_moved(after, "a", (3, 0), (3, 4), (0.5, 0))


def test_on_a_picture_metres_and_pixels_move_together(pictured):
    after = wall_moved(pictured, "a", (300, 0), (300, 400), (50, 0))

    assert [room.outline_px.area for room in after.rooms] == pytest.approx([140_000, 60_000])
    assert areas(after) == pytest.approx([14, 6])
    assert after.rooms[0].openings[0].start_px == pytest.approx((350, 100))


def test_without_a_scale_pixels_move(unscaled):
    after = wall_moved(unscaled, "b", (310, 0), (310, 400), (-50, 0))

    assert [room.outline_px.area for room in after.rooms] == pytest.approx([100_000, 100_000])
    assert [room.outline for room in after.rooms] == [None, None]


def test_a_correction_by_hand_settles_the_doubt_about_the_outline(pictured):
    doubts = [
        Doubt(aspect=aspect, room=room, says="Who knows.", confidence=0.5)
        for aspect, room in ((Aspect.OUTLINE, "a"), (Aspect.USE, "a"), (Aspect.OUTLINE, "c"))
    ]
    plan = Plan(storeys=pictured.storeys, rooms=pictured.rooms, doubts=doubts)
    after = corner_moved(plan, "a", (0, 0), (-20, -20))

    assert after.doubts == tuple(doubts[1:])
    assert (after.rooms[0].confidence, after.rooms[0].basis) == (1.0, Basis.READ)
    assert after.rooms[1].confidence == 0.6


def test_a_pulled_corner_takes_both_walls_and_their_neighbours_along(typed):
    after = corner_pulled(typed, "a", (3, 4), (3.5, 5))

    assert after.rooms[0].outline.equals(rectangle(3.5, 5))
    assert after.rooms[1].outline.equals(rectangle(1.5, 4, left=3.6))


def test_a_corner_moved_by_itself_turns_its_walls(typed):
    after = corner_moved(typed, "a", (0, 4), (-1, 4))

    assert after.rooms[0].outline.equals(Polygon([(0, 0), (3, 0), (3, 4), (-1, 4)]))


def test_corners_in_one_place_move_together():
    rooms = (
        Room(id="a", name="Hall", outline=rectangle(3, 4)),
        Room(id="b", name="Office", outline=rectangle(2, 4, left=3)),
    )
    after = corner_moved(Plan(rooms=rooms), "a", (3, 4), (3.4, 4.2))

    assert sum(areas(after)) == pytest.approx(
        Polygon([(0, 0), (5, 0), (5, 4), (3.4, 4.2), (0, 4)]).area
    )


def test_a_corner_dragged_across_a_wall_is_refused(typed):
    with pytest.raises(PlanError, match="walls would cross"):
        corner_moved(typed, "a", (0, 0), (8, 2))


@given(st.floats(0.1, 2.9))
def test_a_corner_put_into_a_wall_and_taken_out_again_changes_nothing(at):
    plan = Plan(rooms=(Room(id="a", name="Hall", outline=rectangle(3, 4)),))
    more = corner_added(plan, "a", (at, 0.05))
    back = corner_removed(more, "a", (at, 0.0))

    assert len(more.rooms[0].outline.exterior.coords) == 6
    assert areas(more) == pytest.approx([12])
    assert back.rooms[0].outline.equals(plan.rooms[0].outline)


@pytest.mark.parametrize("at", [(0.0, 0.0), (1.5, 2.0)])
def test_a_corner_goes_only_on_a_bare_piece_of_wall(typed, at):
    with pytest.raises(PlanError):
        corner_added(typed, "a", at)


def test_three_corners_are_the_least():
    plan = Plan(rooms=(Room(id="a", name="Nook", outline=Polygon([(0, 0), (2, 0), (0, 2)])),))
    with pytest.raises(PlanError, match="three corners"):
        corner_removed(plan, "a", (0, 0))
