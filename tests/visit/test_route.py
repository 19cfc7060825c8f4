"""Routes on small invented buildings, drawn as the rooms each room leads to."""

from estimator.visit.route import route


def order(work, doors, *, exits=("hall",), storeys=None):
    rooms = [
        work(room, leads_to=others, leads_out=room in exits, storey=(storeys or {}).get(room, 0))
        for room, others in doors.items()
    ]
    return route(rooms)


def test_a_corridor_is_sprayed_after_the_rooms_along_it(work):
    found = order(work, {"hall": ["a", "b", "c"], "a": [], "b": [], "c": []})

    assert found.order == ("a", "b", "c", "hall")


def test_the_deepest_branch_comes_first(work):
    found = order(work, {"hall": ["a", "b"], "a": [], "b": ["c"], "c": []})

    assert found.order == ("c", "b", "a", "hall")


def test_a_branch_is_finished_before_the_next(work):
    found = order(
        work, {"hall": ["a", "b"], "a": ["a1", "a2"], "a1": [], "a2": [], "b": ["b1"], "b1": []}
    )

    assert found.order == ("a1", "a2", "a", "b1", "b", "hall")


def test_the_way_out_of_a_room_leads_to_the_nearest_exit(work):
    found = order(
        work,
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


def test_a_door_named_from_one_side_opens_from_both(work):
    found = order(work, {"a": ["hall"], "hall": []})

    assert found.order == ("a", "hall")


def test_a_ring_of_rooms_is_walked_to_its_far_side(work):
    found = order(work, {"hall": ["a", "d"], "a": ["b"], "b": ["c"], "c": ["d"], "d": []})

    assert found.order[-1] == "hall"
    assert found.order.index("b") < found.order.index("a")
    assert found.order.index("c") < found.order.index("d")


def test_upper_storeys_come_first(work):
    found = order(
        work,
        {"hall": ["a", "landing"], "a": [], "landing": ["b"], "b": []},
        storeys={"landing": 1, "b": 1},
    )

    assert found.order == ("b", "landing", "a", "hall")


def test_without_an_exit_the_room_with_most_doors_is_entered_first(work):
    found = order(work, {"a": [], "corridor": ["a", "b", "c"], "b": [], "c": []}, exits=())

    assert found.order == ("a", "b", "c", "corridor")


def test_rooms_without_known_doors_keep_the_order_given(work):
    found = order(work, {"c": [], "a": ["nowhere"], "b": []}, exits=())

    assert found.order == ("c", "a", "b")
    assert set(found.path.values()) == {()}


def test_a_suite_of_a_thousand_rooms_in_a_row_is_no_trouble(work):
    doors = {f"r{n}": [f"r{n + 1}"] for n in range(1000)}

    found = order(work, doors, exits=("r0",))

    assert found.order == tuple(reversed(doors))
