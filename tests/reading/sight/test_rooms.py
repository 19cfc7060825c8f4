"""Which of the spaces that are seen are rooms; the rules are our own."""


def names(floor):
    return [room.name for room in floor.rooms()]


def weak(floor, sure, left, top, right, bottom):
    floor.sure[top:bottom, left:right] = sure
    return floor


def test_a_weakly_seen_space_that_nobody_can_enter_is_no_room(two_rooms):
    floor = weak(two_rooms, 0.6, 146, 40, 246, 160)

    assert names(floor) == ["Room 1"]


def test_a_weakly_seen_space_with_a_door_is_a_room(two_rooms):
    floor = weak(two_rooms, 0.6, 146, 40, 246, 160).door(140, 80, 146, 104)

    assert names(floor) == ["Room 1", "Room 2"]


def test_a_space_that_is_hardly_seen_is_no_room_even_with_a_door(two_rooms):
    floor = weak(two_rooms, 0.52, 146, 40, 246, 160).door(140, 80, 146, 104)

    assert names(floor) == ["Room 1"]


def test_rooms_are_numbered_without_the_spaces_left_out(two_rooms):
    floor = weak(two_rooms, 0.6, 40, 40, 140, 160)

    assert names(floor) == ["Room 1"]


def test_what_is_no_deeper_than_a_thick_wall_behind_a_window_is_no_room(new_floor):
    def behind_glass(deep):
        floor = new_floor().room(40, 60, 240, 160).room(60, 54 - deep, 120, 54)
        return names(floor.window(60, 48 - deep, 120, 54 - deep))

    assert behind_glass(10) == ["Room 1"]
    assert behind_glass(30) == ["Room 1", "Room 2"]
