import math

import pytest
import shapely
from attrs import evolve
from shapely import affinity

from estimator.plan.geometry import rectangle
from estimator.plan.ground import USUAL_SIDE, ground_of
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.sheet import Sheet
from estimator.plan.storey import Scale, Source, Storey

SOURCE = Source(file="a.png", width_px=1000, height_px=800)


def test_a_plan_without_a_picture_is_drawn_in_metres(typed):
    ground = ground_of(typed, 0)

    assert not ground.on_picture
    assert ground.metres_per_unit == 1.0
    assert ground.outline(typed.rooms[0]) == typed.rooms[0].outline
    moved = ground.with_outline(typed.rooms[0], rectangle(5, 4))
    assert (moved.outline.area, moved.outline_px) == (20, None)


def test_a_room_drawn_on_a_picture_is_known_in_metres_and_in_pixels(pictured):
    ground = ground_of(pictured, 0)
    room = ground.with_outline(pictured.rooms[0], rectangle(200, 100))

    assert room.outline.area == pytest.approx(2.0)
    assert room.outline_px.area == 20_000


def test_without_a_scale_sizes_are_guessed_from_the_rooms(unscaled):
    ground = ground_of(unscaled, 0)
    sides = sorted(room.outline_px.area**0.5 for room in unscaled.rooms)

    assert ground.metres_per_unit is None
    assert ground.units(USUAL_SIDE) == pytest.approx(sides[1])
    assert ground.with_outline(unscaled.rooms[0], rectangle(9, 9)).outline is None


@pytest.mark.parametrize("degrees", [0.0, 1.2, 90.0])
def test_metres_that_begin_elsewhere_or_are_turned_stay_as_they_are(typed, degrees):
    """Plans from drawings have their origin at the building, and scans stand askew."""

    def on_picture(room):
        turned = affinity.rotate(room.outline, degrees, origin=(0, 0))
        scaled = shapely.transform(turned, lambda places: places * 50 + (120, 80))
        return evolve(room, outline_px=scaled)

    scale = Scale(metres_per_px=0.02, relative_error=0.0, basis="a wall")
    rooms = tuple(on_picture(room) for room in typed.rooms)
    plan = Plan(storeys=(Storey(source=SOURCE, scale=scale),), rooms=rooms)
    ground = ground_of(plan, 0)

    assert ground.metres_per_unit == pytest.approx(0.02)
    again = ground.with_outline(rooms[0], ground.outline(rooms[0]))
    assert again.outline.hausdorff_distance(rooms[0].outline) < 1e-9


def test_what_is_drawn_on_a_sheet_laid_flat_comes_back_to_the_photo():
    sheet = Sheet(
        from_picture=[1.1, 0.2, 30, 0.05, 1.3, 20, 1e-4, 2e-4, 1], width_px=1, height_px=1
    )
    scale = Scale(metres_per_px=0.01, relative_error=0.0, basis="a wall")
    storey = Storey(source=SOURCE, sheet=sheet, scale=scale)
    ground = ground_of(Plan(storeys=(storey,)), 0)
    room = ground.with_outline(
        Room(id="a", name="Hall", outline=rectangle(1, 1)), rectangle(300, 400, left=50, top=60)
    )
    door = Opening(id="d", kind=OpeningKind.DOOR)

    assert room.outline.area == pytest.approx(12.0)
    assert ground.outline(room).hausdorff_distance(rectangle(300, 400, left=50, top=60)) < 1e-6
    start, end = ground.ends(ground.with_ends(door, (100, 60), (190, 60)))
    assert math.dist(start, (100, 60)) + math.dist(end, (190, 60)) < 1e-6
