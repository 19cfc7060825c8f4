"""Rooms are drawn here at 1 cm a pixel with walls of 10; the rules are our own."""

import pytest
from attrs import evolve
from shapely.geometry import box

from estimator.lettering.halls import halls_joined
from estimator.lettering.labels import labels_of
from estimator.lettering.naming import placed
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room


def plan_of(top, bottom, kind=OpeningKind.PASSAGE, doors=2):
    """A corridor down the page, and a hall at its left, open to it from a height to another."""
    hall = Room(id="hall", name="Room 1", outline_px=box(0, 300, 200, 500))
    corridor = Room(id="corridor", name="Room 2", outline_px=box(210, 0, 310, 500))

    def opened(room, x, beyond):
        ends = {"start_px": (x, top), "end_px": (x, bottom), "leads_to": beyond}
        leaves = (Opening(id=f"{room.id}-{at}", kind=OpeningKind.DOOR) for at in range(doors))
        return evolve(room, openings=(Opening(id=f"{room.id}-way", kind=kind, **ends), *leaves))

    kitchen = Room(id="kitchen", name="Room 3", outline_px=box(400, 0, 700, 500))
    return Plan(rooms=(opened(hall, 200, "corridor"), opened(corridor, 210, "hall"), kitchen))


def after(plan, lines, words):
    return halls_joined(plan, placed(labels_of(lines, words), plan))


@pytest.fixture
def lines(line):
    return [line("Kitchen", (550, 250))]


@pytest.mark.parametrize("top", [300, 312])
def test_a_hall_open_over_its_whole_width_is_one_with_what_lies_beyond(lines, words, top):
    found = after(plan_of(top, 500), lines, words)

    assert [room.id for room in found.rooms] == ["hall", "kitchen"]
    floor = 200 * 200 + 100 * 500 + 10 * (500 - top)
    assert found.rooms[0].outline_px.area == pytest.approx(floor, rel=0.01)
    assert "joined" in found.doubts[0].says
    assert found.doubts[0].room == "hall"


def test_an_opening_with_wall_beside_it_parts_two_rooms(lines, words):
    assert len(after(plan_of(340, 500), lines, words).rooms) == 3


def test_a_door_as_wide_as_the_room_parts_two_rooms(lines, words):
    assert len(after(plan_of(300, 500, OpeningKind.DOOR), lines, words).rooms) == 3


def test_what_is_named_has_a_use_of_its_own(lines, line, words):
    lines = [*lines, line("Hall", (100, 400))]

    assert len(after(plan_of(300, 500), lines, words).rooms) == 3


def test_a_space_with_hardly_a_door_is_no_part_of_a_hall(lines, words):
    assert len(after(plan_of(300, 500, doors=1), lines, words).rooms) == 3


def test_a_sheet_that_names_no_room_says_nothing(words):
    assert len(after(plan_of(300, 500), [], words).rooms) == 3
