"""Rooms are drawn here at 1 cm a pixel, so that the truth is exact; the rules are our own."""

import pytest
from shapely.geometry import box

from estimator.lettering.joining import joined
from estimator.lettering.labels import labels_of
from estimator.lettering.naming import placed
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

SCALE = 0.01


def plan_of(*outlines, door_to=None, kind=OpeningKind.DOOR):
    rooms = [
        Room(id=f"room-{at}", name=f"Room {at}", outline_px=outline)
        for at, outline in enumerate(outlines)
    ]
    if door_to:
        door = Opening(id="d", kind=kind, start_px=(300, 50), end_px=(300, 130), leads_to=door_to)
        rooms[0] = Room(id="room-0", name="Room 0", outline_px=outlines[0], openings=(door,))
    return Plan(rooms=tuple(rooms))


def after(plan, lines, words, scale=SCALE):
    return joined(plan, placed(labels_of(lines, words), plan), scale)


HALVES = box(0, 0, 300, 400), box(306, 0, 500, 400)


@pytest.fixture
def lines(line):
    return [line("Bedroom", (150, 200)), line("5.00 x 4.00 m", (150, 212))]


def test_a_room_cut_by_a_false_wall_is_joined(lines, words):
    found = after(plan_of(*HALVES), lines, words)

    assert [room.outline_px.area for room in found.rooms] == [pytest.approx(200_000, rel=0.01)]
    assert "joined" in found.doubts[0].says


def test_rooms_with_a_door_between_them_are_two(lines, words):
    assert len(after(plan_of(*HALVES, door_to="room-1"), lines, words).rooms) == 2


def test_a_passage_between_them_may_be_a_line_across_one_room(lines, words):
    plan = plan_of(*HALVES, door_to="room-1", kind=OpeningKind.PASSAGE)

    assert len(after(plan, lines, words).rooms) == 1


def test_a_named_room_is_not_joined(lines, line, words):
    assert len(after(plan_of(*HALVES), [*lines, line("Hall", (400, 200))], words).rooms) == 2


def test_a_room_of_its_printed_size_stays(line, words):
    lines = [line("Bedroom", (150, 200)), line("3.00 x 4.00 m", (150, 212))]

    assert len(after(plan_of(*HALVES), lines, words).rooms) == 2


def test_of_two_neighbours_that_is_joined_which_makes_the_size(lines, words):
    plan = plan_of(*HALVES, box(0, 410, 300, 700))

    found = after(plan, lines, words)

    assert [room.id for room in found.rooms] == ["room-0", "room-2"]


def test_nothing_is_joined_without_a_scale(lines, words):
    assert len(after(plan_of(*HALVES), lines, words, scale=None).rooms) == 2
