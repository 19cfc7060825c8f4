import math

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st

from estimator.errors import PlanError, RoomsOverlap
from estimator.plan.drawing import drawn, room_at, room_moved, split
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.reshaping import MOST_CORNERS
from estimator.plan.room import Basis, Room

SQUARE = [(10.0, 0.0), (13.0, 0.0), (13.0, 2.0), (10.0, 2.0)]


def test_a_room_is_drawn_by_its_corners(typed):
    after = drawn(typed, 0, SQUARE)
    room = after.rooms[-1]

    assert (room.name, room.use, room.basis) == ("Room 1", "room", Basis.MEASURED)
    assert room.outline.area == 6
    assert drawn(after, 0, [(x + 5, y) for x, y in SQUARE]).rooms[-1].name == "Room 2"


def test_a_room_drawn_on_a_picture_without_a_scale_has_pixels_only(unscaled):
    after = drawn(unscaled, 0, [(600, 0), (900, 0), (900, 200), (600, 200)], name="Store")
    room = after.rooms[-1]

    assert (room.name, room.outline, room.outline_px.area) == ("Store", None, 60_000)


def test_a_first_room_is_drawn_on_an_empty_plan():
    assert drawn(Plan(), 0, SQUARE).rooms[0].outline.area == 6


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (1, 1)],
        [(0, 0), (0, 0), (0, 0), (0, 0)],
        [(0, 0), (4, 0), (8, 0)],
        [(0, 0), (0.1, 0), (0.1, 0.1), (0, 0.1)],
        [(0, 0), (math.nan, 0), (1, 1)],
        [(0, 0), (1e300, 0), (1e300, 1e300)],
    ],
)
def test_corners_that_enclose_no_room_are_refused_in_one_sentence(corners):
    with pytest.raises(PlanError) as refused:
        drawn(Plan(), 0, corners)
    assert str(refused.value).startswith("Room 1: ")


def test_a_crossing_outline_keeps_its_largest_part_and_says_so():
    bow = [(0, 0), (4, 4), (4, 0), (0, 8)]
    after = drawn(Plan(), 0, bow)

    assert after.rooms[0].outline.is_valid
    assert [doubt.says for doubt in after.doubts] == [
        "The outline of Room 1 crossed itself; its largest part was kept."
    ]


def test_a_scribble_of_a_thousand_corners_is_smoothed_and_says_so():
    turns = [at / 1000 * 2 * math.pi for at in range(1000)]
    circle = [
        ((5 + 0.05 * (at % 2)) * math.cos(turn), (5 + 0.05 * (at % 2)) * math.sin(turn))
        for at, turn in enumerate(turns)
    ]
    after = drawn(Plan(), 0, circle)
    outline = after.rooms[0].outline

    assert len(outline.exterior.coords) - 1 <= MOST_CORNERS
    assert outline.area == pytest.approx(math.pi * 25, rel=0.03)
    assert "had 1,000 corners" in after.doubts[0].says


def test_a_room_drawn_inside_another_takes_its_floor(typed):
    after = drawn(typed, 0, [(1, 1), (2, 1), (2, 2), (1, 2)], name="Closet")

    assert after.rooms[0].outline.area == pytest.approx(11)
    assert len(after.rooms[0].outline.interiors) == 1
    assert [doubt.says for doubt in after.doubts] == [
        "Hall and Closet overlapped; the shared floor went to Closet."
    ]


def test_a_room_drawn_over_another_leaves_the_smaller_its_floor(typed):
    after = drawn(typed, 0, [(4, 0), (9, 0), (9, 4), (4, 4)])

    assert [room.outline.area for room in after.rooms] == pytest.approx([12, 8, 15.6])


def test_a_room_drawn_twice_is_refused(typed):
    with pytest.raises(RoomsOverlap, match="the same floor"):
        drawn(typed, 0, [(0, 0), (3, 0), (3, 4), (0, 4)])


def test_a_moved_room_takes_all_that_is_in_it_along(typed):
    table = Furnishing(kind="table", footprint=rectangle(1, 1, left=4, top=1))
    rooms = (typed.rooms[0], evolve(typed.rooms[1], furnishings=(table,)))
    after = room_moved(evolve(typed, rooms=rooms), "b", (2.0, 1.0))
    room = after.rooms[1]

    assert room.outline.equals(rectangle(2, 4, left=5.1, top=1))
    assert room.openings[0].start == pytest.approx((5.1, 2.9))
    assert room.furnishings[0].footprint.equals(rectangle(1, 1, left=6, top=2))


@given(st.floats(0.1, 2.9))
def test_splitting_conserves_the_floor(at):
    door = Opening(id="d", kind=OpeningKind.DOOR, start=(3.0, 1.0), end=(3.0, 1.9))
    hall = Room(id="a", name="Hall", outline=rectangle(3, 4), openings=(door,))
    plan = split(Plan(rooms=(hall,)), "a", (at, -1), (at, 5), new_id="n")
    parts = [room for room in plan.rooms if room.id in {"a", "n"}]
    assert sum(room.outline.area for room in parts) == pytest.approx(12)
    assert sum(room.outline.length for room in parts) == pytest.approx(14 + 2 * 4)
    assert [len(room.openings) for room in plan.rooms].count(1) == 1


def test_a_line_that_stops_short_of_a_wall_by_a_little_still_splits(typed):
    after = split(typed, "a", (1, 0.1), (1, 3.9))

    assert [room.name for room in after.rooms] == ["Hall", "Hall (part)", "Office"]


def test_a_line_that_stops_inside_does_not_split(typed):
    with pytest.raises(PlanError, match="does not cut it in two"):
        split(typed, "a", (1, 1), (1, 2), new_id="n")


def test_a_room_is_split_on_a_picture_without_a_scale(unscaled):
    after = split(unscaled, "a", (0, 100), (300, 100))

    assert [room.outline_px.area for room in after.rooms] == pytest.approx([9e4, 3e4, 8e4])
    assert after.rooms[0].openings  # the door lies below the cut


def test_the_smallest_room_around_a_place_is_found(typed):
    inside = drawn(typed, 0, [(1, 1), (2, 1), (2, 2), (1, 2)], name="Closet")

    assert room_at(inside, 0, (1.5, 1.5)).name == "Closet"
    assert room_at(inside, 0, (0.5, 0.5)).name == "Hall"
    assert room_at(inside, 0, (50, 50)) is None
