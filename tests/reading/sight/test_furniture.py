import math

import pytest
from shapely.geometry import box

from estimator.catalogue.loader import packaged_book
from estimator.plan.doubt import Aspect
from estimator.reading.sight.classes import CONTENTS
from estimator.reading.sight.furniture import _LOOKS, STAIRWELL_LEAST, furniture_doubts


@pytest.fixture
def one_room(new_floor):
    """A room of 220 x 120 with walls of 6."""
    return new_floor().room(40, 40, 260, 160)


def pieces(floor):
    (room,) = floor.rooms()
    return sorted(
        ((piece.kind, piece.footprint_px) for piece in room.furnishings),
        key=lambda found: found[1].bounds,
    )


def alike(one, other):
    """Intersection over union."""
    return one.intersection(other).area / one.union(other).area


def test_every_kind_of_contents_has_a_look():
    assert set(_LOOKS) == set(CONTENTS[4:])


def test_every_look_is_of_a_kind_in_the_book():
    kinds = {kind.slug for kind in packaged_book().surfaces.furniture}

    assert {look.slug for look in _LOOKS.values()} | {"bed_single", "stairs"} <= kinds


def test_a_piece_stands_where_it_is_seen(one_room):
    ((kind, footprint),) = pieces(one_room.holds("bath", 60, 40, 120, 66))

    assert kind == "bath"
    assert alike(footprint, box(60, 40, 120, 66)) > 0.95


def test_a_bed_for_one_is_longer_for_its_width_than_a_bed_for_two(one_room):
    floor = one_room.holds("bed", 50, 50, 80, 114).holds("bed", 120, 50, 170, 114)

    assert [kind for kind, _ in pieces(floor)] == ["bed_single", "bed_double"]


def test_a_piece_that_stands_askew_keeps_its_turn(one_room):
    ((_, footprint),) = pieces(one_room.turned("table", (150, 100), (80, 40), 30))

    assert footprint.area == pytest.approx(80 * 40, rel=0.1)
    assert footprint.oriented_envelope.area == pytest.approx(footprint.area)


def test_a_piece_nearly_square_to_the_room_is_made_square(one_room):
    ((_, footprint),) = pieces(one_room.turned("bath", (150, 100), (80, 40), 2))

    assert footprint.area == pytest.approx(footprint.envelope.area)


def test_a_worktop_runs_around_the_corner(one_room):
    floor = one_room.holds("worktop", 40, 40, 140, 62).holds("worktop", 40, 40, 62, 120)
    ((kind, footprint),) = pieces(floor)

    assert kind == "worktop"
    assert footprint.area == pytest.approx(100 * 22 + 22 * 58, rel=0.05)


@pytest.mark.parametrize(("what", "size", "count"), [("wash_basin", 24, 2), ("chair", 18, 4)])
def test_pieces_that_touch_in_a_row_are_parted(one_room, what, size, count):
    found = pieces(one_room.holds(what, 60, 40, 60 + count * size, 58))

    assert [kind for kind, _ in found] == [what] * count
    assert all(footprint.area == pytest.approx(size * 18, rel=0.1) for _, footprint in found)


def test_a_chair_drawn_up_to_a_table_is_one_chair(one_room):
    floor = one_room.holds("table", 100, 80, 180, 120).holds("chair", 120, 66, 144, 80)

    assert [kind for kind, _ in pieces(floor)] == ["table", "chair"]


@pytest.mark.parametrize(
    "corners",
    [
        (60, 60, 62, 64),  # a speck
        (60, 60, 160, 62),  # thinner than any piece
        (60, 60, 160, 80),  # no toilet is five times as long as wide
    ],
)
def test_what_is_too_small_or_odd_is_left_out(one_room, corners):
    assert pieces(one_room.holds("toilet", *corners)) == []


def test_stairs_in_a_room_stand_on_its_floor(one_room):
    floor = one_room.holds("stairs", 40, 40, 64, 110)

    (room,) = floor.rooms()
    ((kind, footprint),) = pieces(floor)
    assert (room.use, kind) == ("room", "stairs")
    assert footprint.area == pytest.approx(24 * 70, rel=0.05)


def test_a_room_that_is_mostly_stairs_is_a_stairwell(one_room):
    most = math.ceil(220 * STAIRWELL_LEAST) + 2

    (room,) = one_room.holds("stairs", 40, 40, 40 + most, 160).rooms()

    assert (room.use, room.furnishings) == ("stairs", ())


def test_back_to_back_pieces_stand_each_in_its_room(two_rooms):
    rooms = two_rooms.holds("toilet", 120, 80, 166, 96).rooms()

    assert [[piece.kind for piece in room.furnishings] for room in rooms] == [["toilet"]] * 2


def test_swings_and_passages_are_no_furniture(two_rooms):
    floor = two_rooms.door(140, 80, 146, 104).swept((146, 80), 24, 0, 90)

    assert not any(room.furnishings for room in floor.rooms())


def test_furniture_read_is_told_in_one_sentence_for_all_rooms(two_rooms):
    bare = two_rooms.rooms()
    rooms = two_rooms.holds("bath", 50, 40, 110, 66).holds("toilet", 60, 130, 76, 158).rooms()

    (doubt,) = furniture_doubts(rooms)
    assert (doubt.aspect, doubt.room) == (Aspect.CONTENTS, None)
    assert "in 1 of 2 rooms" in doubt.says
    assert not list(furniture_doubts(bare))
