import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from estimator.plan.geometry import polygon, rectangle
from estimator.plan.room import Ceiling, Profile
from estimator.surfaces.headroom import headroom

HEIGHTS = st.floats(2.0, 4.0)
SIDES = st.floats(2.0, 12.0)


def gable(low, top, width=6.0, length=8.0, towards=0.0):
    return headroom(
        rectangle(width, length), low, Ceiling(profile=Profile.GABLE, top=top, towards=towards)
    )


@given(SIDES, SIDES, HEIGHTS, st.floats(0.1, 3.0))
def test_a_gable_has_two_side_walls_and_two_pentagons(width, length, low, rise):
    over = gable(low, low + rise, width, length)

    assert over.walls(math.inf) == pytest.approx(2 * length * low + 2 * width * (low + rise / 2))
    assert over.volume == pytest.approx(width * length * (low + rise / 2))
    assert over.ceiling_area == pytest.approx(2 * length * math.hypot(width / 2, rise))


@given(SIDES, SIDES, HEIGHTS, st.floats(0.1, 3.0))
def test_a_sloped_ceiling_has_a_low_wall_a_high_wall_and_two_trapezoids(width, length, low, rise):
    over = headroom(rectangle(width, length), low, Ceiling(profile=Profile.SLOPED, top=low + rise))

    walls = length * low + length * (low + rise) + 2 * width * (low + rise / 2)
    assert over.walls(math.inf) == pytest.approx(walls)
    assert over.volume == pytest.approx(width * length * (low + rise / 2))
    assert over.ceiling_area == pytest.approx(length * math.hypot(width, rise))


def test_walls_up_to_a_level_leave_out_the_triangles_above_it():
    # Gable 6 m wide from 2 m to 4 m: above 3 m each end keeps a triangle 3 m wide and 1 m high.
    over = gable(2.0, 4.0)

    assert over.walls(math.inf) - over.walls(3.0) == pytest.approx(2 * 3.0 * 1.0 / 2)
    assert over.walls(1.8) == pytest.approx(28 * 1.8)


@given(st.floats(0, 360))
def test_turning_room_and_ridge_together_changes_nothing(degrees):
    angle = math.radians(degrees)
    turned = polygon(
        [
            (x * math.cos(angle) - y * math.sin(angle), x * math.sin(angle) + y * math.cos(angle))
            for x, y in [(0, 0), (6, 0), (6, 8), (0, 8)]
        ]
    )
    over = headroom(turned, 2.0, Ceiling(profile=Profile.GABLE, top=4.0, towards=degrees))

    assert over.walls(3.0) == pytest.approx(gable(2.0, 4.0).walls(3.0))
    assert over.volume == pytest.approx(144.0)
    assert over.ceiling_area == pytest.approx(gable(2.0, 4.0).ceiling_area)


def test_a_column_takes_its_volume_and_brings_its_faces():
    outline = polygon([(0, 0), (6, 0), (6, 8), (0, 8)], [[(2.5, 3), (3.5, 3), (3.5, 4), (2.5, 4)]])
    over = headroom(outline, 2.0, Ceiling(profile=Profile.GABLE, top=4.0))

    # The ridge runs over the middle of the 1 x 1 m column: its height falls by 1/3 to each side.
    mean = 4.0 - (2.0 / 3.0) * 0.25
    assert over.volume == pytest.approx(144.0 - mean)
    assert over.walls(math.inf) == pytest.approx(68.0 + 2 * mean + 2 * (4.0 - 1.0 / 3.0))


def test_a_stretch_of_wall_across_the_ridge_follows_it():
    over = gable(2.0, 4.0)

    assert over.stretch((2.0, 0.0), (4.0, 0.0), math.inf) == pytest.approx(2 * (4.0 - 1.0 / 3.0))


def test_a_level_ceiling_has_walls_of_perimeter_times_height():
    over = headroom(rectangle(4, 3), 2.5, None)

    assert over.walls(math.inf) == pytest.approx(35.0)
    assert over.walls(2.0) == pytest.approx(28.0)
    assert over.volume == pytest.approx(30.0)
    assert over.ceiling_area == pytest.approx(12.0)
