"""Where the doors of small invented buildings lead."""

import pytest

from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Storey
from estimator.plan.ways import ways


def door(at, start, end, leads_to=None, kind=OpeningKind.DOOR):
    return Opening(id=f"d{at}", kind=kind, start=start, end=end, leads_to=leads_to)


def room(name, left, top, *openings, width=4.0, depth=3.0, **more):
    outline = rectangle(width, depth, left=left, top=top)
    return Room(id=name, name=name.title(), outline=outline, openings=openings, **more)


def test_a_door_leads_to_the_room_it_names():
    found = ways(Plan(rooms=(room("a", 0, 0, door(1, (4, 1), (4, 2), "b")), room("b", 4.1, 0))))

    assert found.to == {"a": ("b",), "b": ()}
    assert found.out == found.on == frozenset()


@pytest.mark.parametrize("kind", [OpeningKind.DOOR, OpeningKind.PASSAGE])
def test_a_door_that_names_no_room_leads_to_the_one_behind_its_wall(kind):
    found = ways(
        Plan(rooms=(room("a", 0, 0, door(1, (4, 1), (4, 2), kind=kind)), room("b", 4.15, 0)))
    )

    assert found.to["a"] == ("b",)
    assert not found.out


def test_a_door_with_nothing_behind_it_leads_out():
    found = ways(Plan(rooms=(room("a", 0, 0, door(1, (0, 1), (0, 2))), room("b", 4.15, 0))))

    assert found.out == {"a"}
    assert found.to == {"a": (), "b": ()}


def test_a_door_onto_a_gap_that_the_plan_does_not_show_leads_nobody_knows_where():
    found = ways(Plan(rooms=(room("a", 0, 0, door(1, (4, 1), (4, 2))), room("b", 6.0, 0))))

    assert found.on == {"a"}
    assert not found.out


def test_a_door_without_a_place_leads_nobody_knows_where():
    found = ways(Plan(rooms=(room("a", 0, 0, Opening(id="d", kind=OpeningKind.DOOR)),)))

    assert found.on == {"a"}


def test_a_window_is_no_way_out():
    found = ways(Plan(rooms=(room("a", 0, 0, door(1, (0, 1), (0, 2), kind=OpeningKind.WINDOW)),)))

    assert found.out == found.on == frozenset()


def test_a_door_of_an_upper_storey_onto_a_balcony_is_no_way_out():
    plan = Plan(
        storeys=(Storey(number=0), Storey(number=1)),
        rooms=(
            room("hall", 0, 0, door(1, (0, 1), (0, 2))),
            room("bedroom", 0, 0, door(2, (0, 1), (0, 2)), storey=1),
        ),
    )

    assert ways(plan).out == {"hall"}


def test_stairs_lead_to_the_nearest_stairs_below():
    flight = Furnishing(kind="stairs")
    plan = Plan(
        storeys=(Storey(number=0), Storey(number=1)),
        rooms=(
            room("west", 0, 0, use="stairs"),
            room("east", 30, 0, furnishings=(flight,)),
            room("landing", 29, 1, use="stairs", storey=1),
        ),
    )

    assert ways(plan).to == {"west": (), "east": (), "landing": ("east",)}
