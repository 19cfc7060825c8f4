import pytest

from estimator.plan.opening import Hinge, OpeningKind
from estimator.reading.sight.classes import WALL


def near(place):
    return pytest.approx(place, abs=0.6)


def rooms(floor):
    return floor.rooms()


def test_a_door_reaches_from_jamb_to_jamb_on_the_walls_of_both_rooms(two_rooms):
    left, right = rooms(two_rooms.door(140, 80, 146, 104))

    (here,), (there,) = left.openings, right.openings
    assert (here.kind, here.leads_to, there.leads_to) == (OpeningKind.DOOR, right.id, left.id)
    assert sorted([here.start_px, here.end_px]) == [near((140, 80)), near((140, 104))]
    assert sorted([there.start_px, there.end_px]) == [near((146, 80)), near((146, 104))]


def test_a_gap_seen_to_have_no_leaf_is_a_passage(two_rooms):
    floor = two_rooms.door(140, 80, 146, 104).holds("passage", 140, 80, 146, 104)

    assert [o.kind for room in rooms(floor) for o in room.openings] == [OpeningKind.PASSAGE] * 2


@pytest.mark.parametrize("at", [80, 104])
@pytest.mark.parametrize("open_by", [90, 50])
def test_a_leaf_hangs_at_the_jamb_its_swing_is_about(two_rooms, at, open_by):
    # Into the right room: shut, the leaf lies along the wall; open, it points right.
    start, end = (90 - open_by, 90) if at == 80 else (270, 270 + open_by)
    floor = two_rooms.door(140, 80, 146, 104).swept((146, at), 24, start, end)

    left, right = rooms(floor)

    (away,), (here,) = left.openings, right.openings
    assert (away.opens_in, here.opens_in) == (False, True)
    for opening in (away, here):
        jamb = opening.start_px if opening.hinge is Hinge.START else opening.end_px
        assert jamb[1] == near(at)


def test_two_leaves_hang_at_both_jambs(two_rooms):
    floor = two_rooms.door(140, 70, 146, 110)
    floor.swept((139, 70), 20, 90, 180).swept((139, 110), 20, 180, 270)

    left, right = rooms(floor)

    assert (left.openings[0].opens_in, left.openings[0].hinge) == (True, Hinge.BOTH)
    assert right.openings[0].opens_in is False


def test_a_door_may_swing_outside(two_rooms):
    left, _ = rooms(two_rooms.door(80, 160, 104, 166).swept((80, 166), 24, 0, 90))

    (out,) = left.openings
    assert (out.opens_in, out.leads_to) == (False, None)
    jamb = out.start_px if out.hinge is Hinge.START else out.end_px
    assert jamb[0] == near(80)


def test_a_door_without_a_swing_says_nothing_of_one(two_rooms):
    opening = rooms(two_rooms.door(140, 80, 146, 104))[0].openings[0]

    assert (opening.opens_in, opening.hinge) == (None, None)


def test_a_weakly_seen_opening_is_less_sure_than_a_clear_one(two_rooms):
    floor = two_rooms.window(60, 34, 100, 40).window(160, 34, 200, 40, sure=0.8)

    clear, weak = (room.openings[0].confidence for room in rooms(floor))
    assert clear > 0.9 > weak


def test_what_is_narrow_and_weakly_seen_is_a_flaw_of_the_wall(two_rooms):
    floor = two_rooms.window(60, 34, 65, 40, sure=0.7)

    assert not any(room.openings for room in rooms(floor))


def test_a_gap_in_a_wall_that_stands_free_within_a_room_is_no_opening(new_floor):
    floor = new_floor().room(40, 40, 240, 160).mark(WALL, 140, 40, 146, 120)
    floor.door(140, 70, 146, 90)

    assert not any(room.openings for room in rooms(floor))


def test_a_room_that_only_touches_the_end_of_a_door_has_no_part_in_it(new_floor):
    floor = new_floor().room(40, 40, 246, 97).room(40, 103, 140, 160).room(146, 103, 246, 160)

    upper, left, right = rooms(floor.door(90, 97, 149, 103))

    assert [len(one.openings) for one in (upper, left, right)] == [1, 1, 0]
    assert upper.openings[0].leads_to == left.id
