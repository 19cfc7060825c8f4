import numpy as np
import pytest
from attrs import evolve

from estimator.errors import PlanError
from estimator.plan.edits import rescaled
from estimator.plan.exchange import plan_from_dict, plan_to_dict
from estimator.plan.flat import in_picture, laid_flat
from estimator.plan.geometry import polygon, rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.sheet import Sheet
from estimator.plan.storey import Scale, Source, Storey

ASKEW = Sheet(
    from_picture=np.array([[1.2, 0.1, -40], [0.05, 1.4, -60], [0.0002, 0.0005, 1]]),
    width_px=800,
    height_px=600,
)
PHOTO = Source(file="photo.jpg", width_px=1000, height_px=750)


def on_sheet():
    """Two rooms of one size on a flat sheet, with a door between."""
    door = Opening(
        id="d", kind=OpeningKind.DOOR, start_px=(300, 150), end_px=(300, 230), leads_to="b"
    )
    near = Room(id="a", name="A", outline_px=rectangle(200, 150, left=100, top=100))
    far = Room(id="b", name="B", outline_px=rectangle(200, 150, left=300, top=100))
    source = evolve(PHOTO, width_px=800, height_px=600)
    return Plan(storeys=(Storey(source=source),), rooms=(evolve(near, openings=(door,)), far))


def test_a_sheet_turned_into_the_picture_and_laid_flat_is_as_it_was():
    plan = on_sheet()
    seen = in_picture(plan, ASKEW, PHOTO)
    assert seen.storeys[0].sheet == ASKEW
    assert seen.rooms[0].outline_px.area != pytest.approx(seen.rooms[1].outline_px.area, rel=0.02)
    again = laid_flat(seen)
    assert again.storeys == plan.storeys
    for room, before in zip(again.rooms, plan.rooms, strict=True):
        assert room.outline_px.symmetric_difference(before.outline_px).area < 1e-6
    assert again.rooms[0].openings[0].end_px == pytest.approx((300, 230))


def test_rooms_seen_askew_are_measured_on_the_flat_sheet():
    seen = in_picture(on_sheet(), ASKEW, PHOTO)
    plan = rescaled(seen, Scale(metres_per_px=0.02, relative_error=0.0, basis="test"))
    assert [room.outline.area for room in plan.rooms] == pytest.approx([12.0, 12.0])
    assert plan.rooms[0].openings[0].width == pytest.approx(1.6)
    assert plan.rooms[0].outline_px == seen.rooms[0].outline_px


def test_plans_of_flat_pictures_stay_as_they_are():
    plan = on_sheet()
    assert laid_flat(plan) == plan
    assert "sheet" not in plan_to_dict(plan)["storeys"][0]


def test_the_sheet_of_a_photo_survives_plan_json():
    plan = in_picture(on_sheet(), ASKEW, PHOTO)
    assert plan_from_dict(plan_to_dict(plan)).storeys == plan.storeys


@pytest.mark.parametrize("matrix", [[1, 0, 0], [0.0] * 9, [float("nan")] * 9])
def test_a_sheet_without_a_place_is_refused_in_one_sentence(matrix):
    with pytest.raises(PlanError, match="its place in the picture"):
        Sheet(from_picture=matrix, width_px=10, height_px=10)


def test_straight_walls_stay_straight():
    outline = polygon([(100, 100), (200, 100), (300, 100), (300, 200), (100, 200)])
    room = Room(id="a", name="A", outline_px=outline)
    plan = Plan(storeys=(Storey(source=PHOTO),), rooms=(room,))
    seen = in_picture(plan, ASKEW, PHOTO).rooms[0].outline_px
    assert seen.simplify(1e-6).area == pytest.approx(seen.area)
    assert len(seen.simplify(1e-6).exterior.coords) == 5
