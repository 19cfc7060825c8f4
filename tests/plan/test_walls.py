import shapely
from hypothesis import given
from hypothesis import strategies as st

from estimator.plan.geometry import rectangle
from estimator.plan.walls import facing, shifted, together, walls_of

SIDES = st.floats(1, 20)


def named(walls, *corners):
    return next(at for at, wall in enumerate(walls) if {wall.start, wall.end} == set(corners))


def test_walls_face_each_other_across_their_thickness_only():
    one, two, far = rectangle(3, 4), rectangle(2, 4, left=3.1), rectangle(2, 4, left=6)
    walls = [*walls_of("a", one), *walls_of("b", two), *walls_of("c", far)]
    mates = facing(walls, 0.6)
    right, left = named(walls, (3, 0), (3, 4)), named(walls, (3.1, 0), (3.1, 4))

    assert mates[right] == [left]
    assert mates[left] == [right]
    assert sum(map(len, mates)) == 2


def test_a_corridor_moves_with_every_room_along_it():
    corridor = rectangle(9, 2)
    rooms = [rectangle(3, 4, left=3 * at, top=2) for at in range(3)]
    walls = walls_of("corridor", corridor)
    walls += [wall for at, room in enumerate(rooms) for wall in walls_of(str(at), room)]
    groups = together(walls, 0.6)
    side = named(walls, (0, 2), (9, 2))

    assert groups.count(groups[side]) == 4


@given(SIDES, SIDES, st.floats(-0.9, 5))
def test_a_moved_wall_changes_the_area_by_its_length(width, depth, by):
    outline = rectangle(width, depth)
    walls = walls_of("a", outline)
    right = walls[named(walls, (width, 0), (width, depth))]
    moved, new = shifted(outline, {(0, right.place): (by, 7.0)})

    assert abs(moved.area - (width + by) * depth) < 1e-9
    assert len(new) == 4


def test_a_piece_of_a_straight_wall_moves_with_a_step():
    outline = shapely.Polygon([(0, 0), (2, 0), (5, 0), (5, 3), (0, 3)])
    walls = walls_of("a", outline)
    piece = walls[named(walls, (2, 0), (5, 0))]
    moved, _ = shifted(outline, {(0, piece.place): (0.0, 1.0)})

    assert moved.area == 15 - 3
    assert moved.equals(shapely.Polygon([(0, 0), (2, 0), (2, 1), (5, 1), (5, 3), (0, 3)]))


def test_a_wall_of_a_hole_moves_too():
    outline = shapely.Polygon([(0, 0), (9, 0), (9, 9), (0, 9)], [[(3, 3), (5, 3), (5, 5), (3, 5)]])
    walls = walls_of("a", outline)
    piece = walls[named(walls, (5, 3), (5, 5))]
    moved, _ = shifted(outline, {(1, piece.place): (1.0, 0.0)})

    assert moved.area == 81 - 6
