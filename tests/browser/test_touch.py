"""The drawing table under a finger, on a tablet."""

import pytest
from playwright.sync_api import expect

PAIR = "Hall 3 x 4 m, Office 2 x 4 m"


def test_a_room_is_drawn_by_a_finger(tablet, finger):
    tablet.type_rooms(PAIR)
    tablet.sheet.scroll_into_view_if_needed()
    tablet.page.locator("[data-tool=rectangle]").tap()
    finger.drag([tablet.at(0, 4.6), tablet.at(2, 6.1)])
    tablet.settled()

    assert tablet.rooms()["Room 1"] == pytest.approx(3, abs=0.4)


def test_a_room_is_drawn_by_two_taps(tablet, finger):
    tablet.type_rooms(PAIR)
    tablet.sheet.scroll_into_view_if_needed()
    tablet.page.locator("[data-tool=rectangle]").tap()
    finger.tap(tablet.at(0, 4.6))
    finger.tap(tablet.at(2, 6.1))
    tablet.settled()

    assert tablet.rooms()["Room 1"] == pytest.approx(3, abs=0.4)


def test_a_wall_of_the_chosen_room_is_dragged_by_a_finger(tablet, finger):
    tablet.type_rooms(PAIR)
    tablet.sheet.scroll_into_view_if_needed()
    finger.tap(tablet.at(1.5, 2))
    expect(tablet.table.get_by_label("Room", exact=True)).to_have_value("Hall")
    finger.drag([tablet.at(3, 2), tablet.at(3.6, 2)])
    tablet.settled()

    after = tablet.rooms()
    assert after["Hall"] > 13.5
    assert sum(after.values()) == pytest.approx(20, abs=0.11)


def test_two_fingers_zoom_and_change_nothing(tablet, finger):
    before = tablet.rooms()
    tablet.sheet.scroll_into_view_if_needed()
    nearer = "table => table.drawingTable.paper.resolution"
    resolution = tablet.table.evaluate(nearer)
    x, y = tablet.at(780, 680)
    finger.drag([(x - 30, y), (x - 120, y)], [(x + 30, y), (x + 120, y)])
    tablet.page.wait_for_timeout(600)

    assert tablet.table.evaluate(nearer) < 0.6 * resolution
    assert tablet.rooms() == before
