import math
from fractions import Fraction
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from shapely import affinity

from estimator.catalogue.loader import packaged_book
from estimator.errors import NoSuchEntry, PlanError, ScaleUnknown
from estimator.plan.doubt import Aspect
from estimator.plan.drawing import split
from estimator.plan.geometry import polygon, rectangle, scaled
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Ceiling, Profile, Room
from estimator.surfaces import measure as measuring
from estimator.surfaces.measure import measure, measure_room
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.scope import Scope

BOOK = packaged_book().surfaces
L_SHAPE = [(0, 0), (6, 0), (6, 4), (3, 4), (3, 7), (0, 7)]
PENTAGON = [(0, 0), (4, 0), (6, 3), (3, 6), (0, 4)]


def shoelace(corners) -> Fraction:
    """Area by the shoelace formula in exact rational numbers, with no library."""
    exact = [(Fraction(x), Fraction(y)) for x, y in corners]
    twice = sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairwise([*exact, exact[0]]))
    return abs(twice) / 2


@st.composite
def star_shaped(draw):
    """Corners around a centre at growing angles: any such outline is simple."""
    radii = draw(st.lists(st.floats(1, 9), min_size=3, max_size=12))
    turn = 2 * math.pi / len(radii)
    return [
        (radius * math.cos(turn * at), radius * math.sin(turn * at))
        for at, radius in enumerate(radii)
    ]


def opening(kind, start, end, **sizes):
    return Opening(id=f"{kind}-{start}", kind=kind, start=start, end=end, **sizes)


def surfaces(room, kind):
    return [surface for surface in room.surfaces if surface.kind is kind]


# Shoelace worked examples, textbook formula.
@pytest.mark.parametrize(("corners", "area"), [(L_SHAPE, 33.0), (PENTAGON, 25.5)])
def test_floor_area_of_worked_examples(measured, corners, area):
    assert measured(outline=polygon(corners)).floor_area == area == shoelace(corners)


def test_walls_of_the_l_shape_less_a_door_and_a_window(measured, row):
    # Worked by hand: perimeter 26 m at 2.4 m is 62.4; less 0.9 x 2.1 and 1.2 x 1.2 is 59.07.
    room = measured(
        outline=polygon(L_SHAPE),
        ceiling_height=2.4,
        openings=(
            opening(OpeningKind.DOOR, (1.0, 0.0), (1.9, 0.0), height=2.1),
            opening(OpeningKind.WINDOW, (6.0, 1.0), (6.0, 2.2), height=1.2, sill=0.9),
        ),
    )
    walls = row(room, SurfaceKind.WALL)

    assert walls.gross == pytest.approx(62.4)
    assert walls.net == walls.treated == pytest.approx(59.07)
    assert room.perimeter == 26.0


@given(star_shaped())
def test_floor_area_agrees_with_exact_rational_arithmetic(corners):
    outline = polygon(corners)

    assert outline.is_valid
    assert outline.area == pytest.approx(float(shoelace(corners)), rel=1e-12)


@given(star_shaped(), st.floats(0, 360), st.floats(-99, 99), st.integers(0, 11))
def test_areas_stay_when_the_room_is_turned_moved_or_drawn_from_another_corner(
    corners, degrees, shift, first
):
    first %= len(corners)
    moved = affinity.translate(
        affinity.rotate(polygon(corners[first:] + corners[:first]), degrees), shift, -shift
    )
    here, there = (
        measure_room(
            Room(id="a", name="", outline=outline, ceiling_height=2.5, empty=True), BOOK, Scope()
        )
        for outline in (polygon(corners), moved)
    )

    assert [surface.treated for surface in there.surfaces] == pytest.approx(
        [surface.treated for surface in here.surfaces]
    )


@given(star_shaped(), st.floats(0.1, 10))
def test_areas_grow_with_the_square_of_the_scale(corners, factor):
    def shell(outline, height):
        room = Room(id="a", name="", outline=outline, ceiling_height=height, empty=True)
        return [s.gross for s in measure_room(room, BOOK, Scope()).surfaces[:3]]

    outline = polygon(corners)

    assert shell(scaled(outline, factor), 2.5 * factor) == pytest.approx(
        [factor**2 * area for area in shell(outline, 2.5)]
    )


@given(st.floats(0.5, 3.5))
def test_splitting_a_room_keeps_the_floor_and_adds_two_wall_faces(at):
    room = Room(id="a", name="Hall", outline=rectangle(4, 3), ceiling_height=2.5, empty=True)
    whole = Plan(rooms=(room,))
    parts = split(whole, "a", (at, -1.0), (at, 4.0), new_id="b")
    before, after = (measure(plan, BOOK, Scope()) for plan in (whole, parts))

    def walls(schedule):
        return sum(s.gross for room in schedule.rooms for s in surfaces(room, SurfaceKind.WALL))

    assert after.floor_area == pytest.approx(before.floor_area)
    assert walls(after) - walls(before) == pytest.approx(2 * 3 * 2.5)


def test_a_column_leaves_the_floor_and_brings_its_faces_to_the_walls(measured, row):
    hollow = polygon([(0, 0), (4, 0), (4, 3), (0, 3)], [[(1, 1), (2, 1), (2, 2), (1, 2)]])
    room = measured(outline=hollow)

    assert room.floor_area == 11.0
    assert row(room, SurfaceKind.CEILING).gross == 11.0
    assert row(room, SurfaceKind.WALL).gross == pytest.approx((14 + 4) * 2.5)


def test_a_door_has_a_face_in_each_of_its_two_rooms(book):
    ends = {"start": (4.0, 1.0), "end": (4.0, 1.9)}
    rooms = tuple(
        Room(
            id=room_id,
            name=room_id,
            outline=rectangle(4, 3, left=left),
            openings=(Opening(id="d", kind=OpeningKind.DOOR, height=2.1, leads_to=other, **ends),),
        )
        for room_id, other, left in (("a", "b", 0), ("b", "a", 4))
    )
    faces = [
        surface.treated
        for room in measure(Plan(rooms=rooms), book, Scope()).rooms
        for surface in surfaces(room, SurfaceKind.DOOR)
    ]

    assert faces == pytest.approx([1.89, 1.89])


def test_reach_clips_walls_doors_and_glass(measured, row):
    room = measured(
        openings=(
            opening(OpeningKind.DOOR, (1.0, 0.0), (2.0, 0.0), height=2.1),
            opening(OpeningKind.WINDOW, (0.0, 1.0), (0.0, 2.0), height=1.5, sill=0.9),
        ),
        scope=Scope(walls_to=1.8, glass=True),
    )

    assert row(room, SurfaceKind.DOOR).gross == pytest.approx(2.1)
    assert row(room, SurfaceKind.DOOR).treated == pytest.approx(1.8)
    assert row(room, SurfaceKind.GLASS).gross == pytest.approx(1.5)
    assert row(room, SurfaceKind.GLASS).treated == pytest.approx(0.9)
    assert row(room, SurfaceKind.WALL).treated == pytest.approx(14 * 1.8 - 1.8 - 0.9)
    # Reveals: door jambs 2 x 1.8 m at 50 mm; window sill and 2 x 0.9 m of jamb at 100 mm.
    assert row(room, SurfaceKind.REVEAL).treated == pytest.approx(0.05 * 3.6 + 0.1 * 2.8)


def test_reveals_follow_the_edges_of_the_gap(measured, row):
    room = measured(
        openings=(opening(OpeningKind.WINDOW, (1.0, 0.0), (3.0, 0.0), height=1.5, sill=0.5),)
    )

    assert row(room, SurfaceKind.REVEAL).gross == pytest.approx(0.1 * 2 * (2.0 + 1.5))


def test_a_passage_takes_wall_and_has_no_leaf(measured, row):
    room = measured(openings=(opening(OpeningKind.PASSAGE, (1.0, 0.0), (3.0, 0.0), height=2.5),))

    assert row(room, SurfaceKind.WALL).net == pytest.approx(35.0 - 5.0)
    assert not surfaces(room, SurfaceKind.DOOR)
    assert not surfaces(room, SurfaceKind.GLASS)


def test_a_window_under_a_slope_ends_at_the_ceiling(measured, row):
    # Rising from 2 m to 4 m over 4 m: over a window from 0 to 2 m along the slope's foot the
    # ceiling runs from 2 m to 3 m, so of 1 m to 3 m of wall two square metres and a half less
    # the triangle above remain: 2 x (2.5 - 1) = 3.
    room = measured(
        ceiling_height=2.0,
        ceiling=Ceiling(profile=Profile.SLOPED, top=4.0),
        openings=(opening(OpeningKind.WINDOW, (0.0, 0.0), (2.0, 0.0), height=2.0, sill=1.0),),
    )

    assert row(room, SurfaceKind.GLASS).gross == pytest.approx(3.0)


def test_each_thing_nobody_said_is_a_doubt(measured):
    room = measured(
        ceiling_height=None,
        empty=False,
        use="office",
        openings=(opening(OpeningKind.DOOR, (1.0, 0.0), (1.9, 0.0)),),
    )

    assert [doubt.aspect for doubt in room.assumed] == [
        Aspect.HEIGHT,
        Aspect.CONTENTS,
        Aspect.OPENINGS,
    ]
    assert all(doubt.room == "a" and doubt.relative_error > 0 for doubt in room.assumed)
    assert surfaces(room, SurfaceKind.WALL)[0].basis is Basis.ASSUMED
    assert surfaces(room, SurfaceKind.DOOR)[0].basis is Basis.ASSUMED
    assert surfaces(room, SurfaceKind.FLOOR)[0].basis is Basis.MEASURED


def test_a_room_fully_described_has_no_doubt(measured):
    room = measured(
        openings=(opening(OpeningKind.WINDOW, (1.0, 0.0), (2.0, 0.0), height=1.0, sill=1.0),)
    )

    assert room.assumed == ()


def test_what_was_read_off_a_picture_says_so(measured, row):
    room = measured(basis=Basis.READ)

    assert row(room, SurfaceKind.WALL).basis is Basis.READ


def test_touch_points_are_counted_by_use_and_doors(measured):
    def handles(room):
        return next(s for s in room.surfaces if s.item == "door_handle")

    doors = tuple(opening(OpeningKind.DOOR, (at, 0.0), (at + 0.9, 0.0)) for at in (0.1, 1.1, 2.1))

    assert handles(measured()).count == 1
    assert handles(measured(openings=doors)).count == 3
    assert handles(measured(openings=doors)).gross == pytest.approx(3 * 0.025)


def test_the_scope_decides_what_is_treated(measured):
    nothing = Scope(
        floors=False,
        walls=False,
        doors=False,
        reveals=False,
        furniture=False,
        touch_points=False,
    )
    room = measured(
        use="office",
        empty=False,
        openings=(opening(OpeningKind.DOOR, (1.0, 0.0), (1.9, 0.0)),),
        scope=nothing,
    )

    assert room.treated == 0
    assert sum(surface.gross for surface in room.surfaces) > 50


def test_a_room_without_metres_asks_for_the_scale(measured):
    with pytest.raises(ScaleUnknown, match="A: it has no size yet; set the scale"):
        measured(outline=None, outline_px=rectangle(400, 300))


def test_an_opening_without_metres_asks_for_the_scale(measured):
    unplaced = Opening(id="d", kind=OpeningKind.DOOR, start_px=(1.0, 0.0), end_px=(9.0, 0.0))

    with pytest.raises(ScaleUnknown, match="door of A"):
        measured(openings=(unplaced,))


def test_an_opening_without_width_is_refused(measured):
    with pytest.raises(PlanError, match="window of A: it has no width; draw its ends apart"):
        measured(openings=(opening(OpeningKind.WINDOW, (1.0, 0.0), (1.0, 0.0)),))


def test_a_ceiling_whose_top_is_below_its_least_height_is_refused(measured):
    with pytest.raises(PlanError, match="A: the top of its ceiling is below its least height"):
        measured(ceiling=Ceiling(profile=Profile.GABLE, top=2.0))


def test_an_assumed_height_stays_below_the_top_of_the_ceiling(measured):
    loft = measured(ceiling_height=None, ceiling=Ceiling(profile=Profile.GABLE, top=2.0))

    assert loft.height == 2.0


def test_a_use_the_book_does_not_know_is_named(measured):
    with pytest.raises(NoSuchEntry, match="ballroom: the book has no such room use"):
        measured(use="ballroom")


def test_a_changed_height_measures_that_room_only(book, monkeypatch):
    rooms = [Room(id=str(n), name="", outline=rectangle(3 + n, 4)) for n in range(5)]
    scope = Scope(walls_to=1.23)
    before = measure(Plan(rooms=tuple(rooms)), book, scope)
    measured_ids = []

    def counting(room, *rest):
        measured_ids.append(room.id)
        return measure_room(room, *rest)

    monkeypatch.setattr(measuring, "measure_room", counting)
    rooms[2] = evolve(rooms[2], ceiling_height=3.1)
    after = measure(Plan(rooms=tuple(rooms)), book, scope)

    assert measured_ids == ["2"]
    assert after.rooms[1] is before.rooms[1]
    assert after.rooms[2].height == 3.1


def test_the_same_room_under_another_scope_is_measured_anew(book):
    plan = Plan(rooms=(Room(id="a", name="", outline=rectangle(4, 3)),))

    assert measure(plan, book, Scope(floors=False)).treated < measure(plan, book, Scope()).treated


def test_a_balcony_is_measured_but_not_treated_and_says_so(measured):
    balcony = measured(use="balcony", name="Balcony", ceiling_height=None, empty=False)

    assert (balcony.floor_area, balcony.treated) == (12.0, 0.0)
    assert [(doubt.aspect, doubt.says) for doubt in balcony.assumed] == [
        (Aspect.OTHER, "Balcony lies outdoors, where nothing is treated.")
    ]
