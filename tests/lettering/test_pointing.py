"""Sheets are drawn here at 1 cm a pixel; the rules are our own."""

import cv2
import numpy as np
import pytest
from shapely.geometry import box

from estimator.lettering.labels import labels_of
from estimator.lettering.naming import placed
from estimator.lettering.pointing import SURE_BY_LEADER, SURE_BY_PLACE, SURE_BY_SIZE, pointed
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.reading.picture import Picture

# A bedroom, and right of it a shower room above a hall.
ROOMS = {
    "bed": box(310, 110, 600, 500),
    "shower": box(612, 110, 740, 300),
    "hall": box(612, 312, 740, 500),
}


@pytest.fixture
def sheet():
    """A white sheet with the walls of the rooms on it."""
    pixels = np.full((620, 1100, 3), 255, np.uint8)
    cv2.rectangle(pixels, (298, 98), (752, 512), (0, 0, 0), -1)
    for outline in ROOMS.values():
        left, top, right, bottom = map(int, outline.bounds)
        cv2.rectangle(pixels, (left, top), (right, bottom), (255, 255, 255), -1)
    return pixels


@pytest.fixture
def meant(line, words):
    def found(pixels, lines, scale=None):
        plan = Plan(
            rooms=tuple(Room(id=name, name="", outline_px=shape) for name, shape in ROOMS.items())
        )
        lines = [line("Bedroom", (450, 300)), *lines]
        labels = placed(labels_of(lines, words), plan)
        return [
            (each.tag.name, each.room, each.sure)
            for each in pointed(plan, labels, Picture(pixels=pixels), scale)
        ]

    return found


GREY = (190, 190, 190)


def test_a_leader_from_the_paper_leads_to_its_room(sheet, meant, line):
    cv2.line(sheet, (870, 200), (760, 200), GREY, 1)

    found = meant(sheet, [line("Shower Room", (910, 200))])

    assert found == [("Shower Room", "shower", SURE_BY_LEADER)]


def test_a_curved_leader_from_a_framed_label_leads_to_its_room(sheet, meant, line):
    cv2.rectangle(sheet, (865, 230), (960, 262), GREY, 1)
    cv2.ellipse(sheet, (820, 230), (70, 40), 0, 180, 360, GREY, 1)

    found = meant(sheet, [line("Shower Room", (912, 240)), line("1.2 x 1.9 m", (912, 252))])

    assert found == [("Shower Room", "shower", SURE_BY_LEADER)]


def test_a_leader_within_another_room_leads_to_its_room(sheet, meant, line):
    cv2.line(sheet, (520, 180), (606, 180), GREY, 1)

    found = meant(sheet, [line("WC", (505, 180))])

    assert found == [("WC", "shower", SURE_BY_LEADER)]


def test_a_leader_to_a_named_room_is_no_name_for_another(sheet, meant, line):
    cv2.line(sheet, (200, 300), (296, 300), GREY, 1)

    assert meant(sheet, [line("Wardrobe", (160, 300))]) == []


def test_the_only_room_of_a_printed_size_is_meant(sheet, meant, line):
    lines = [line("Shower Room", (850, 430)), line("1.28 x 1.90 m", (850, 442))]

    assert meant(sheet, lines, 0.01) == []  # the hall is as large
    named = [*lines, line("Hall", (676, 400))]
    assert meant(sheet, named, 0.01) == [("Shower Room", "shower", SURE_BY_SIZE)]
    assert meant(sheet, named, 0.02) == []


def test_a_label_beside_the_building_names_the_room_behind_the_wall(sheet, meant, line):
    assert meant(sheet, [line("Shower", (785, 200))]) == [("Shower", "shower", SURE_BY_PLACE)]


@pytest.mark.parametrize(
    ("text", "at"),
    [
        ("Shower", (785, 306)),  # as near to the hall
        ("Shower", (900, 200)),  # too far off
        ("Balcony", (785, 200)),  # may well stand outdoors
        ("First Floor", (785, 200)),
    ],
)
def test_a_label_that_may_mean_something_else_names_no_room(sheet, meant, line, text, at):
    assert meant(sheet, [line(text, at)]) == []


def test_a_name_in_a_room_that_was_not_read_stays_there(sheet, meant, line):
    cv2.rectangle(sheet, (752, 98), (900, 306), (0, 0, 0), 12)

    assert meant(sheet, [line("Bath", (785, 200))]) == []
