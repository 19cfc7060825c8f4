"""Routes on small invented buildings, drawn as the rooms each room leads to."""

import pytest

from estimator.visit.route import route


@pytest.fixture
def way(work):
    def found(doors, *, exits=("hall",), unsure=(), storeys=None):
        return route(
            [
                work(
                    room,
                    leads_to=others,
                    leads_out=room in exits,
                    leads_on=room in unsure,
                    storey=(storeys or {}).get(room, 0),
                )
                for room, others in doors.items()
            ]
        )

    return found


def test_a_corridor_is_sprayed_after_the_rooms_along_it(way):
    found = way({"hall": ["a", "b", "c"], "a": [], "b": [], "c": []})

    assert found.order() == ("a", "b", "c", "hall")
    assert found.findings == ()


def test_the_deepest_branch_comes_first(way):
    found = way({"hall": ["a", "b"], "a": [], "b": ["c"], "c": []})

    assert found.order() == ("c", "b", "a", "hall")


def test_branches_may_be_ranked_otherwise(way):
    found = way({"hall": ["a", "b"], "a": [], "b": ["c"], "c": []})

    assert found.order({"a": -1}) == ("a", "c", "b", "hall")


def test_a_branch_is_finished_before_the_next(way):
    found = way({"hall": ["a", "b"], "a": ["a1", "a2"], "a1": [], "a2": [], "b": ["b1"], "b1": []})

    assert found.order() == ("a1", "a2", "a", "b1", "b", "hall")


def test_the_way_out_of_a_room_leads_to_the_nearest_exit(way):
    found = way(
        {"hall": ["a"], "a": ["b"], "b": ["c"], "c": ["yard"], "yard": []},
        exits=("hall", "yard"),
    )

    assert found.path == {
        "hall": (),
        "a": ("hall",),
        "b": ("a", "hall"),
        "c": ("yard",),
        "yard": (),
    }


def test_a_door_named_from_one_side_opens_from_both(way):
    assert way({"a": ["hall"], "hall": []}).order() == ("a", "hall")


def test_a_ring_of_rooms_is_walked_to_its_far_side(way):
    order = way({"hall": ["a", "d"], "a": ["b"], "b": ["c"], "c": ["d"], "d": []}).order()

    assert order[-1] == "hall"
    assert order.index("b") < order.index("a")
    assert order.index("c") < order.index("d")


def test_upper_storeys_come_first(way):
    found = way(
        {"hall": ["a", "landing"], "a": [], "landing": ["b"], "b": []},
        storeys={"landing": 1, "b": 1},
    )

    assert found.order() == ("b", "landing", "a", "hall")


def test_a_door_nobody_knows_the_other_side_of_is_no_exit_beside_a_known_one(way):
    found = way({"hall": ["a"], "a": []}, unsure=("a",))

    assert found.path["a"] == ("hall",)
    assert found.findings == ()


def test_a_door_nobody_knows_the_other_side_of_is_taken_for_the_exit_and_said(way):
    found = way({"hall": ["a"], "a": []}, exits=(), unsure=("hall",))

    assert found.path["a"] == ("hall",)
    assert found.findings == (
        "No door is known to lead out of the building; the crew is taken to leave by Hall: "
        "mark the way out.",
    )


def test_without_an_exit_the_room_with_most_doors_is_entered_first_and_said(way):
    found = way({"a": [], "corridor": ["a", "b", "c"], "b": [], "c": []}, exits=())

    assert found.order() == ("a", "b", "c", "corridor")
    assert "the crew is taken to leave by Corridor: mark the way out" in found.findings[0]


def test_rooms_that_no_door_leads_to_are_named(way):
    found = way({"hall": ["a"], "a": [], "store": [], "plant": ["boiler"], "boiler": []})

    assert found.path["boiler"] == ("plant",)
    assert found.findings == (
        "No door is known between the way out and Store, Plant and Boiler; whether the crew gets "
        "there dry is not known: mark the doors.",
    )


def test_of_many_rooms_that_no_door_leads_to_the_first_are_named(way):
    found = way({"hall": [], **{f"r{number}": [] for number in range(9)}})

    assert "R0, R1, R2, R3, R4, R5 and 3 others" in found.findings[0]


def test_rooms_without_known_doors_keep_the_order_given_and_it_is_said(way):
    found = way({"c": [], "a": ["nowhere"], "b": []}, exits=())

    assert found.order() == ("c", "a", "b")
    assert set(found.path.values()) == {()}
    assert found.findings == ("No door is known, so the rooms keep their order: mark the doors.",)


def test_one_room_needs_no_door(way):
    assert way({"room": []}, exits=()).findings == ()


def test_a_suite_of_a_thousand_rooms_in_a_row_is_no_trouble(way):
    doors = {f"r{n}": [f"r{n + 1}"] for n in range(1000)}

    assert way(doors, exits=("r0",)).order() == tuple(reversed(doors))
