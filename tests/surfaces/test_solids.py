import pytest
from attrs import astuple
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from estimator.plan.geometry import polygon, rectangle
from estimator.surfaces.solids import Box, Faces, Footprint, Legs, Panel, Run, Shelves, Slab, Steps

LENGTHS = st.floats(0.1, 5.0)


@given(LENGTHS, LENGTHS, LENGTHS)
def test_a_box_above_the_floor_shows_all_six_faces(length, width, height):
    faces = Box(height=height, base=1.0).faces(Footprint.rectangle(length, width))

    # All faces of a box: 2(lw + lh + wh), textbook.
    assert faces.area == pytest.approx(2 * (length * width + length * height + width * height))
    assert faces.stands_on == 0.0


@given(LENGTHS, LENGTHS, LENGTHS)
def test_a_box_on_the_floor_hides_its_base_and_the_floor_under_it(length, width, height):
    faces = Box(height=height).faces(Footprint.rectangle(length, width))

    assert faces.area == pytest.approx(length * width + 2 * (length + width) * height)
    assert faces.stands_on == pytest.approx(length * width)


def test_a_table_top_has_two_faces_and_an_edge():
    # Worked example: desk 1.5 x 0.75 m, 25 mm top: 2.25 + 0.1125 m2 without legs.
    faces = Slab(thickness=0.025, base=0.705).faces(Footprint.rectangle(1.5, 0.75))

    assert faces.top + faces.underside == pytest.approx(2.25)
    assert faces.sides == pytest.approx(0.1125)


def test_legs_show_four_sides_each_and_stand_on_little():
    faces = Legs(count=4, side=0.05, height=0.7).faces(Footprint.rectangle(1.5, 0.75))

    assert astuple(faces) == pytest.approx(astuple(Faces(sides=0.56, stands_on=0.01)))


def test_shelves_show_both_faces():
    faces = Shelves(count=3).faces(Footprint.rectangle(0.9, 0.3))

    assert astuple(faces) == pytest.approx(astuple(Faces(top=0.81, underside=0.81)))


def test_a_panel_shows_both_faces_its_ends_and_its_upper_edge():
    faces = Panel(height=1.8, thickness=0.02, run=Run.DEPTH).faces(Footprint.rectangle(0.9, 1.5))

    assert faces.sides == pytest.approx(2 * 1.5 * 1.8 + 2 * 0.02 * 1.8)
    assert faces.top == faces.stands_on == pytest.approx(0.03)


def test_a_solid_may_take_up_part_of_the_footprint():
    faces = Box(height=1.0, length=0.5, depth=0.5).faces(Footprint.rectangle(2.0, 1.0))

    assert faces.area == pytest.approx(0.5 + 2 * (1.0 + 0.5) * 1.0)


@given(st.floats(0, 360))
def test_a_drawn_footprint_keeps_its_measures_when_turned(degrees):
    drawn = affinity.rotate(rectangle(1.5, 0.75), degrees)
    footprint = Footprint.drawn(drawn).turned

    assert footprint.area == pytest.approx(1.125)
    assert footprint.perimeter == pytest.approx(4.5)
    assert (footprint.length, footprint.depth) == pytest.approx((0.75, 1.5))


def test_an_l_shaped_footprint_keeps_its_own_area_and_edge():
    drawn = polygon([(0, 0), (2, 0), (2, 1), (1, 1), (1, 2), (0, 2)])
    faces = Slab(thickness=0.03, base=0.7).faces(Footprint.drawn(drawn))

    assert faces.area == pytest.approx(2 * 3.0 + 8.0 * 0.03)


def test_stairs_have_treads_as_large_as_their_floor_and_risers_in_the_ratio_of_their_pitch():
    # Ten steps of 175 by 250 mm, 0.9 m wide: ten treads and ten risers, counted one by one.
    faces = Steps(riser=0.175, going=0.25).faces(Footprint.rectangle(2.5, 0.9))

    assert faces.top == pytest.approx(10 * 0.25 * 0.9)
    assert faces.sides == pytest.approx(10 * 0.175 * 0.9)
    assert faces.stands_on == pytest.approx(2.5 * 0.9)
    assert faces.underside == 0
