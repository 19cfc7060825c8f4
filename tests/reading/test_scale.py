"""Scales against published drawing scales and sheet sizes.

ISO 5455:1979, clause 5 (recommended reductions); ISO 216 (trimmed sizes); the millimetres of
building to a pixel are arithmetic on them: 25.4 ÷ dots an inch × scale.
"""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon, box

from estimator.errors import QuantityError, ScaleUnknown
from estimator.plan.edits import rescaled
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Source, Storey
from estimator.reading.picture import Picture, Word
from estimator.reading.scale import (
    extents_px,
    scale_from_doors,
    scale_from_points,
    scale_from_resolution,
    scale_from_room,
    scale_from_room_area,
    scale_from_sheet,
    scale_from_total_area,
    stated_scales,
)

A3 = (0.297, 0.420)  # ISO 216
A1 = (0.594, 0.841)
ARCH_D = (24 * 0.0254, 36 * 0.0254)

lengths = st.floats(0.1, 100)


def room(outline: Polygon, **more) -> Room:
    return Room(id="room-1", name="Room 1", outline_px=outline, **more)


def blank(wide: int, tall: int, text: str = "") -> Picture:
    words = tuple(
        Word(text=word, left_px=0, top_px=0, right_px=1, bottom_px=1) for word in text.split()
    )
    return Picture(pixels=np.zeros((tall, wide, 3), np.uint8), words=words)


@pytest.mark.parametrize(
    ("dpi", "ratio", "millimetres"),
    [
        (72, 50, 17.639),
        (96, 100, 26.458),
        (150, 48, 8.128),
        (200, 96, 12.192),
        (300, 50, 4.233),
        (300, 100, 8.467),
        (300, 200, 16.933),
    ],
)
def test_a_drawing_scale_at_a_resolution(dpi, ratio, millimetres):
    assert scale_from_resolution(ratio, dpi).metres_per_px * 1000 == pytest.approx(
        millimetres, abs=0.0005
    )


def test_a_scanned_a3_sheet_says_the_same_by_its_size_as_by_its_resolution():
    scan = blank(4961, 3508)  # A3 at 300 dots an inch

    assert scale_from_sheet(100, A3, scan).metres_per_px == pytest.approx(
        scale_from_resolution(100, 300).metres_per_px, rel=1e-4
    )


def test_a_sheet_printed_to_fit_a_smaller_one_keeps_the_scale_of_its_own_sheet():
    # A1 at 1:50 printed on A3 is 1:100.12 there; the pixels still show the whole A1 sheet
    scan = blank(4961, 3508)

    assert scale_from_sheet(50, A1, scan).metres_per_px == pytest.approx(
        scale_from_resolution(50 * 0.841 / 0.420, 300).metres_per_px, rel=1e-3
    )


def test_a_sheet_of_another_shape_than_the_picture_is_refused():
    with pytest.raises(QuantityError, match="another shape"):
        scale_from_sheet(48, ARCH_D, blank(1000, 1000))


@given(lengths, st.floats(1, 5000))
def test_two_points_give_their_distance_back(distance, apart):
    scale = scale_from_points((3.0, 4.0), (3.0 + apart, 4.0), distance)

    assert scale.metres_per_px * apart == pytest.approx(distance)


def test_points_farther_apart_are_surer():
    near = scale_from_points((0, 0), (50, 0), 1.0)
    far = scale_from_points((0, 0), (500, 0), 10.0)

    assert far.relative_error == pytest.approx(near.relative_error / 10)


@given(lengths, lengths, st.floats(0.002, 0.05))
def test_a_room_gives_its_printed_sizes_back_in_either_order(width, depth, metres_per_px):
    drawn = room(box(0, 0, width / metres_per_px, depth / metres_per_px))

    for sizes in ((width, depth), (depth, width)):
        scale = scale_from_room(drawn, *sizes)
        assert scale.metres_per_px == pytest.approx(metres_per_px)
        assert scale.relative_error == pytest.approx(0.01)


def test_printed_sizes_are_the_largest_extents_of_a_room_that_is_no_rectangle():
    bent = room(Polygon([(0, 0), (600, 0), (600, 400), (300, 400), (300, 700), (0, 700)]))

    assert extents_px(bent) == (700, 600)
    assert scale_from_room(bent, 7.0, 6.0).metres_per_px == pytest.approx(0.01)


def test_a_turned_room_is_measured_along_its_own_sides():
    turn = np.array([[0.8, 0.6], [-0.6, 0.8]])
    corners = np.array([(0, 0), (500, 0), (500, 300), (0, 300)]) @ turn

    assert extents_px(room(Polygon(corners))) == pytest.approx((500, 300))


def test_sizes_that_disagree_with_the_drawing_raise_the_error():
    drawn = room(box(0, 0, 400, 300))
    agreeing = scale_from_room(drawn, 4.0, 3.0)
    disagreeing = scale_from_room(drawn, 4.0, 3.6)

    assert disagreeing.relative_error > 5 * agreeing.relative_error


def test_a_room_area_gives_itself_back():
    bent = room(Polygon([(0, 0), (600, 0), (600, 400), (300, 400), (300, 700), (0, 700)]))
    scale = scale_from_room_area(bent, 33.0)  # shoelace by hand: 6 × 4 + 3 × 3

    assert scale.metres_per_px == pytest.approx(0.01)


def test_a_printed_total_counts_inner_walls_unless_it_says_otherwise():
    rooms = [room(box(0, 0, 940, 100))]

    assert scale_from_total_area(rooms, 10.0, with_inner_walls=True).metres_per_px == pytest.approx(
        0.01
    )
    assert scale_from_total_area(rooms, 9.4, with_inner_walls=False).metres_per_px == pytest.approx(
        0.01
    )


def test_an_area_err_twice_as_much_as_the_scale():
    scale = scale_from_points((0, 0), (100, 0), 1.0)
    plan = Plan(
        storeys=(Storey(source=Source(file="a.png", width_px=500, height_px=500)),),
        rooms=(room(box(0, 0, 400, 300)),),
    )
    sized = rescaled(plan, scale)

    assert sized.rooms[0].outline.area == pytest.approx(12.0)
    assert sized.scale == scale


def test_doors_are_a_weak_guess():
    doors = tuple(
        Opening(id=str(at), kind=OpeningKind.DOOR, start_px=(0, 0), end_px=(wide, 0))
        for at, wide in enumerate((78, 80, 95))
    )
    scale = scale_from_doors([room(box(0, 0, 400, 300), openings=doors)])

    assert scale.metres_per_px == pytest.approx(0.01)
    assert scale.relative_error >= 0.1
    assert "guess" in scale.basis


@pytest.mark.parametrize(
    ("text", "stated"),
    [
        ("Ground floor Scale 1:50", ("1:50",)),
        ("SCALE 1 : 100 @ A3 Sheet 2", ("1 : 100 @ A3",)),
        ('Scale 1/4" = 1\'-0" sheet A1', ('1/4" = 1\'-0"',)),
        ("1 in = 20 ft", ("1 in = 20 ft",)),
        ("1:50 and again 1:50, detail 1:20", ("1:50", "1:20")),
        ("Bedroom 3.2 x 4.1", ()),
        ("open 11:30 to 12:45", ()),
    ],
)
def test_scales_printed_in_the_file_are_found(text, stated):
    assert stated_scales(blank(10, 10, text)) == stated


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf])
def test_what_cannot_be_a_size_is_refused_in_one_sentence(bad):
    drawn = room(box(0, 0, 400, 300))
    for attempt in (
        lambda: scale_from_points((0, 0), (9, 9), bad),
        lambda: scale_from_room(drawn, bad, 3.0),
        lambda: scale_from_room_area(drawn, bad),
        lambda: scale_from_total_area([drawn], bad, with_inner_walls=True),
        lambda: scale_from_resolution(bad, 300),
        lambda: scale_from_resolution(50, bad),
        lambda: scale_from_sheet(bad, A3, blank(420, 297)),
    ):
        with pytest.raises(QuantityError) as refusal:
            attempt()
        assert str(refusal.value).endswith(".")


def test_points_that_coincide_are_refused():
    with pytest.raises(QuantityError):
        scale_from_points((5, 5), (5, 5), 3.0)


def test_a_typed_room_gives_no_scale():
    typed = Room(id="a", name="Hall", outline=box(0, 0, 4, 3))

    with pytest.raises(ScaleUnknown):
        scale_from_room(typed, 4, 3)
    with pytest.raises(ScaleUnknown):
        scale_from_total_area([typed], 12, with_inner_walls=False)
    with pytest.raises(ScaleUnknown):
        scale_from_doors([typed])
