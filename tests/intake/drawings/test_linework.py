import math

import pytest
import shapely
from shapely import affinity
from shapely.geometry import LineString, Point, box

from estimator.intake.drawings.gaps import Evidence
from estimator.intake.drawings.layer_words import is_room_layer, is_wall_layer, opening_kind
from estimator.intake.drawings.linework import Linework, enclosed, is_wall
from estimator.plan.opening import OpeningKind

# All in metres; what is usual for walls and doors is common practice.


def solid(walls, **evidence):
    found = enclosed(
        Linework(solids=tuple(shapely.get_parts(walls)), evidence=Evidence(**evidence))
    )
    return found, sorted(room.area for room in found.rooms)


def lines(*runs):
    found = enclosed(Linework(lines=tuple(map(LineString, runs))))
    return found, sorted(room.area for room in found.rooms)


def arc(hinge, radius, first, last):
    angles = [math.radians(first + (last - first) * step / 24) for step in range(25)]
    return LineString(
        [(hinge[0] + radius * math.cos(at), hinge[1] + radius * math.sin(at)) for at in angles]
    )


@pytest.mark.parametrize("turn", [0, 17, 45, 90, 200])
def test_rooms_are_the_same_however_the_building_lies(house, turn):
    _, areas = solid(affinity.rotate(house.walls, turn))
    assert areas == pytest.approx(house.areas, rel=1e-3)


@pytest.mark.parametrize(
    ("width", "drawn", "closed"), [(5.0, True, True), (5.0, False, False), (3.0, False, True)]
)
def test_a_wide_front_closes_a_room_when_panes_are_drawn_in_it(width, drawn, closed):
    front = box(0.3, 0.0, 0.3 + width, 0.3)
    walls = box(0, 0, 6.6, 5) - box(0.3, 0.3, 6.3, 4.7) - affinity.translate(front, 0.4)
    panes = (LineString([(0.7, 0.15), (0.7 + width, 0.15)]),) if drawn else ()
    _, areas = solid(walls, strokes=panes)
    assert areas == (pytest.approx([6 * 4.4], rel=1e-3) if closed else [])


def test_an_end_of_wall_that_faces_another_wall_across_a_corridor_is_a_passage():
    walls = box(0, 0, 8, 6) - box(0.2, 0.2, 7.8, 5.8) | box(4, 1.2, 4.1, 5.9)
    found, areas = solid(walls)
    assert areas == pytest.approx([3.7 * 5.6, 3.8 * 5.6], rel=2e-2)
    (gap,) = found.gaps
    assert gap.kind is None
    assert gap.width == pytest.approx(1.0)


def test_half_a_wall_in_an_open_room_parts_nothing():
    walls = box(0, 0, 8, 6) - box(0.2, 0.2, 7.8, 5.8) | box(4, 2.5, 4.1, 5.9)
    _, areas = solid(walls)
    assert len(areas) == 1


def test_a_pillar_is_no_wall_that_goes_on():
    walls = box(0, 0, 8, 6) - box(0.2, 0.2, 7.8, 5.8) | box(4, 1.2, 4.4, 1.6)
    _, areas = solid(walls)
    assert areas == pytest.approx([7.6 * 5.6 - 0.16])


def test_lines_that_miss_each_other_by_a_slip_still_meet():
    found, areas = lines(
        [(0, 0), (5, 0)], [(5.01, 0), (5, 4)], [(5, 4.01), (0, 4)], [(0, 3.99), (0, 0)]
    )
    assert areas == pytest.approx([20], rel=5e-3)
    assert not found.gaps


def test_a_table_drawn_with_the_pen_of_the_walls_is_floor():
    room = [(0, 0), (6, 0), (6, 5), (0, 5), (0, 0)]
    table = [(2, 2), (3.5, 2), (3.5, 3), (2, 3), (2, 2)]
    assert lines(room, table)[1] == pytest.approx([30])


def test_the_frame_of_the_sheet_is_no_room():
    frame = [(-5, -5), (15, -5), (15, 12), (-5, 12), (-5, -5)]
    assert lines(frame, [(0, 0), (6, 0), (6, 5), (0, 5), (0, 0)], [(3, 0), (3, 5)])[1] == (
        pytest.approx([15, 15])
    )


def test_a_swing_at_a_closed_wall_is_a_door_in_it(house):
    walls = house.outside - house.rooms[0] - house.rooms[1]
    found, areas = solid(walls, curves=(arc((5.0, 2.0), 0.9, 90, 180),))
    assert areas == pytest.approx(house.areas)
    assert not found.gaps
    (door,) = found.fittings
    assert door.kind is OpeningKind.DOOR
    assert door.at == pytest.approx((5.0, 2.45), abs=0.01)


def test_two_leaves_close_an_opening_as_wide_as_both():
    # A corridor 2 m wide that opens to the street over all its width: no wall ends there.
    walls = box(0, 0, 9, 2.4) - box(-1, 0.2, 8.8, 2.2)
    leaves = arc((0.1, 0.2), 1.0, 0, 90), arc((0.1, 2.2), 1.0, -90, 0)
    found, areas = solid(walls, curves=leaves)
    assert areas == pytest.approx([8.7 * 2], rel=0.02)
    assert [gap.kind for gap in found.gaps] == [OpeningKind.DOOR]


def test_what_is_thin_as_a_wall_is_told_from_a_narrow_room():
    assert is_wall(box(0, 0, 0.3, 4))
    assert is_wall(Point(0, 0).buffer(5).difference(Point(0, 0).buffer(4.4)))
    assert not is_wall(box(0, 0, 0.8, 1.5))


def test_layers_and_blocks_are_known_by_whole_words():
    assert is_room_layer("A-AREA-IDEN")
    assert not is_room_layer("Bathroom fittings text")
    assert is_wall_layer("Außenwand_EG")
    assert not is_wall_layer("WALL-TEXT")
    assert opening_kind("SingleDoor-Left") is OpeningKind.DOOR
    assert opening_kind("Ventana 120") is OpeningKind.WINDOW
    assert opening_kind("outdoors") is None
