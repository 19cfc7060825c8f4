import pytest
from attrs import evolve

from estimator.intake.storeys import Caption, in_storeys
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Source, Storey

SHEET = Source(file="sheet.png", width_px=3000, height_px=1000)
METRE = 50  # pixels to it


def house(name, left, top=0):
    """Four rooms of 4 m x 3 m, walls 0.2 m thick, each with a door."""
    rooms = []
    for at, (x, y) in enumerate([(0, 0), (4.2, 0), (0, 3.2), (4.2, 3.2)]):
        corner = (left + x) * METRE, (top + y) * METRE
        door = Opening(
            id=f"{name}{at}-door",
            kind=OpeningKind.DOOR,
            start_px=corner,
            end_px=(corner[0] + 0.8 * METRE, corner[1]),
        )
        outline = rectangle(4 * METRE, 3 * METRE, left=corner[0], top=corner[1])
        rooms.append(Room(id=f"{name}{at}", name=name, outline_px=outline, openings=(door,)))
    return rooms


def shed(left, top=0):
    outline = rectangle(3 * METRE, 5 * METRE, left=left * METRE, top=top * METRE)
    return [Room(id="shed", name="Garage", outline_px=outline)]


def caption(text, left, top):
    at = left * METRE, top * METRE
    return Caption(text=text, box=(*at, at[0] + 2 * METRE, at[1] + 0.3 * METRE))


def storeys(rooms, *captions):
    """Return the name of each storey with the names of its rooms."""
    plan = in_storeys(Plan(storeys=(Storey(source=SHEET),), rooms=tuple(rooms)), captions)
    assert all(storey.source == SHEET for storey in plan.storeys)
    return {
        storey.name: sorted({room.name for room in plan.rooms if room.storey == storey.number})
        for storey in plan.storeys
    }


@pytest.mark.parametrize("top", [-1, 7], ids=["above", "below"])
def test_two_plans_beside_each_other_are_storeys_named_by_their_captions(top):
    found = storeys(
        house("A", 0) + house("B", 12),
        caption("FIRST FLOOR", 3, top),
        caption("Erdgeschoss", 15, top),
    )
    assert found == {"Erdgeschoss": ["B"], "First floor": ["A"]}
    assert list(found) == ["Erdgeschoss", "First floor"]  # from below upwards


def test_plans_one_under_the_other_have_all_captions_on_one_side():
    rooms = house("A", 0) + house("B", 0, 9)
    below = storeys(rooms, caption("Ground floor", 3, 7.5), caption("First floor", 3, 16.2))
    above = storeys(rooms, caption("Ground floor", 3, -0.8), caption("First floor", 3, 7.5))
    assert below == above == {"Ground floor": ["A"], "First floor": ["B"]}


def test_plans_with_captions_may_be_close_by():
    rooms = house("A", 0) + house("B", 9.6)
    captions = caption("Ground floor", 3, 7), caption("First floor", 13, 7)
    assert len(storeys(rooms, *captions)) == 2
    assert len(storeys(rooms)) == 1


def test_far_apart_whole_plans_without_captions_are_storeys_with_a_doubt():
    assert storeys(house("A", 0) + house("B", 13)) == {"Storey 1": ["A"], "Storey 2": ["B"]}
    plan = in_storeys(Plan(rooms=tuple(house("A", 0) + house("B", 13))), ())
    assert "2 plans stand apart" in plan.doubts[0].says


def test_an_outbuilding_stays_with_the_storey_it_stands_by():
    captions = caption("Ground floor", 3, 7), caption("First floor", 18, 7)
    rooms = house("A", 0) + shed(10.5) + house("B", 17)
    assert storeys(rooms, *captions) == {"Ground floor": ["A", "Garage"], "First floor": ["B"]}
    assert storeys(house("A", 0) + shed(14)) == {"": ["A", "Garage"]}


def test_a_group_without_a_caption_stays_where_the_other_has_the_only_one():
    found = storeys(house("A", 0) + house("B", 13), caption("Ground floor", 3, 7))
    assert found == {"Ground floor": ["A", "B"]}


def test_a_storey_of_one_room_needs_its_caption():
    captions = caption("Ground floor", 3, 7), caption("Loft", 14, 6)
    found = storeys(house("A", 0) + shed(13.5), *captions)
    assert found == {"Ground floor": ["A"], "Loft": ["Garage"]}


def test_a_plan_cut_apart_by_a_room_that_was_not_read_stays_one():
    rooms = house("A", 0) + house("B", 11)
    assert len(storeys(rooms)) == 1


def test_captions_far_from_any_plan_say_nothing():
    captions = caption("Ground floor", 3, 90), caption("First floor", 14, 90)
    assert list(storeys(house("A", 0) + house("B", 9.6), *captions)) == [""]


def test_a_plan_of_several_storeys_is_left_as_it_is():
    rooms = house("A", 0) + [evolve(room, storey=1) for room in house("B", 13)]
    plan = Plan(storeys=(Storey(), Storey(number=1)), rooms=tuple(rooms))
    assert in_storeys(plan, ()) is plan
