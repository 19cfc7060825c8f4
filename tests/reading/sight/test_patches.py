from estimator.reading.sight.classes import DOOR, WINDOW
from estimator.reading.sight.patches import patches


def found(floor):
    return [
        (one.shows, (one.columns.min(), one.columns.max() + 1)) for one in patches(floor.sight(), 6)
    ]


def test_pieces_along_a_wall_with_less_than_its_thickness_between_are_one_window(two_rooms):
    floor = two_rooms.window(60, 34, 75, 40).window(79, 34, 90, 40)

    assert found(floor) == [(WINDOW, (60, 90))]


def test_windows_further_apart_stay_two(two_rooms):
    floor = two_rooms.window(60, 34, 75, 40).window(85, 34, 100, 40)

    assert found(floor) == [(WINDOW, (60, 75)), (WINDOW, (85, 100))]


def test_the_two_lines_of_a_hollow_wall_hold_one_window(new_floor):
    floor = new_floor().room(40, 40, 140, 160, wall=8)
    floor.window(60, 32, 100, 34).window(60, 38, 100, 40)

    assert found(floor) == [(WINDOW, (60, 100))]


def test_nothing_is_put_together_across_a_floor_or_with_another_class(new_floor):
    floor = new_floor().room(40, 40, 140, 60).room(40, 64, 140, 100, wall=4)
    floor.window(60, 34, 80, 40).door(83, 34, 100, 40)

    assert found(floor) == [(DOOR, (83, 100)), (WINDOW, (60, 80))]


def test_a_passage_is_not_put_together_with_a_leaf(two_rooms):
    floor = two_rooms.door(140, 60, 146, 90).door(140, 94, 146, 120)
    floor.holds("passage", 140, 60, 146, 90)

    assert len(found(floor)) == 2
