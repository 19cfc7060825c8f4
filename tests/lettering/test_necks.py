"""Shapes are drawn here and known exactly; what counts as a neck is our own rule."""

import pytest
from shapely.affinity import rotate
from shapely.geometry import Point, box

from estimator.lettering.necks import neck

TWO_ROOMS = box(0, 0, 100, 80) | box(110, 0, 200, 80)
PLACES = [(40, 40), (160, 40)]


@pytest.mark.parametrize("width", [10, 25, 40])
def test_an_opening_in_a_wall_is_a_neck(width):
    open_wall = box(100, 20, 110, 20 + width)

    found = neck(TWO_ROOMS | open_wall, PLACES)

    assert found.length == pytest.approx(width)
    assert min(part.area for part in found.parts) == pytest.approx(7200, abs=10 * width + 1)


@pytest.mark.parametrize("width", [55, 80])
def test_a_wide_opening_is_none(width):
    assert neck(TWO_ROOMS | box(100, 0, 110, width), PLACES) is None


def test_an_opening_in_a_corner_is_a_neck():
    found = neck(TWO_ROOMS | box(100, 60, 110, 80), PLACES)

    assert found.length == pytest.approx(20, abs=0.5)


def test_a_slanted_room_is_cut_as_an_upright_one():
    room = rotate(TWO_ROOMS | box(100, 20, 110, 45), 30, origin=(0, 0))
    places = [rotate(Point(place), 30, origin=(0, 0)).coords[0] for place in (PLACES)]

    assert neck(room, places).length == pytest.approx(25, abs=0.5)


@pytest.mark.parametrize(
    "room",
    [
        box(0, 0, 200, 80),
        box(0, 0, 200, 30) | box(170, 0, 200, 200),  # a corridor that turns
        box(0, 0, 200, 80) - box(60, 0, 200, 40),  # an L
    ],
)
def test_corridors_and_legs_have_no_necks(room):
    lowest = room.bounds[3]

    assert neck(room, [(20, 20), (185, lowest - 20)]) is None


def test_a_neck_that_parts_other_places_is_none_for_these():
    assert neck(TWO_ROOMS | box(100, 20, 110, 45), [(20, 20), (80, 60)]) is None


def test_a_niche_too_small_to_be_a_room_is_left():
    room = box(0, 0, 400, 300) | box(400, 100, 420, 120)

    assert neck(room, [(200, 150), (415, 110)]) is None
