import io
import math
from contextlib import suppress
from itertools import pairwise

import ezdxf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import affinity
from shapely.geometry import box

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.drawings import dxf_contents
from estimator.intake.drawings.dxf import dxf_plan
from estimator.plan.doubt import Aspect
from estimator.plan.opening import OpeningKind

USES = {"kitchen": "kitchen", "bedroom": "bedroom", "schlafzimmer": "bedroom"}
FURNITURE = {"bed": "bed_single", "desk": "desk"}

# Units by their code in the header [DXF Reference, $INSUNITS] and how many make a metre; inch and
# foot by the international yard and pound agreement of 1959, in NIST SP 811.
UNITS = {"mm": (4, 1000), "cm": (5, 100), "m": (6, 1), "in": (1, 1 / 0.0254), "ft": (2, 1 / 0.3048)}

# An L of 33 m²; by the shoelace formula [A. L. F. Meister 1769]:
# ½ |Σ (x_i y_i+1 - x_i+1 y_i)| = ½ (0 + 21 + 9 + 12 + 24 + 0) = 33.
ELL = [(0, 0), (7, 0), (7, 3), (4, 3), (4, 6), (0, 6)]
ELL_AREA = 33.0


def read(sheet, **words):
    return dxf_plan(sheet.data(), "plan.dxf", words.get("uses", USES), FURNITURE)


def areas(plan):
    return sorted(room.outline.area for room in plan.rooms)


def kinds(room):
    return sorted(opening.kind.value for opening in room.openings)


@pytest.mark.parametrize("unit", UNITS)
def test_an_outline_on_a_room_layer_is_a_room_of_exact_area_in_any_declared_unit(sheet, unit):
    code, metre = UNITS[unit]
    drawing = sheet(code, metre)
    drawing.outline(ELL, "A-AREA")
    plan = read(drawing)
    assert areas(plan) == pytest.approx([ELL_AREA], rel=1e-9)
    assert not [doubt for doubt in plan.doubts if doubt.aspect is Aspect.SCALE]
    left, top, _, _ = plan.rooms[0].outline.bounds
    assert (left, top) == pytest.approx((0, 0), abs=1e-9)


@pytest.mark.parametrize(
    "layer", ["ROOMS", "A_Space-01", "Raum", "Pièces", "Habitaciones", "ZONE 3"]
)
def test_room_layers_are_known_by_words_of_several_languages(sheet, layer):
    drawing = sheet()
    drawing.outline(ELL, layer)
    drawing.outline([(20, 0), (26, 0), (26, 5), (20, 5)], "Furniture")
    assert areas(read(drawing)) == pytest.approx([ELL_AREA])


def test_a_drawing_lies_upside_down_in_a_plan_whose_y_points_downwards(sheet):
    drawing = sheet()
    drawing.outline(ELL, "rooms")  # its narrow end is at the top of the drawing
    outline = read(drawing).rooms[0].outline
    assert outline.intersection(box(0, 0, 10, 2.9)).area == pytest.approx(4 * 2.9)


@pytest.mark.parametrize("bulge", [1.0, 0.5, -0.3])
def test_a_bulge_adds_the_segment_of_its_circle(sheet, bulge):
    # A chord c swept by θ = 4 atan(b) cuts off r²(θ - sin θ)/2 with r = c / (2 sin(θ/2)).
    drawing = sheet()
    square = [(0, 0), (4, 0), (4, 4), (0, 4)]
    drawing.outline(square, "room", bulges=[0, bulge, 0, 0])
    angle = 4 * math.atan(abs(bulge))
    radius = 4 / (2 * math.sin(angle / 2))
    segment = radius**2 * (angle - math.sin(angle)) / 2
    assert areas(read(drawing)) == pytest.approx([16 + math.copysign(segment, bulge)], rel=1e-4)


def test_a_circle_and_an_ellipse_have_their_areas(sheet):
    drawing = sheet()
    drawing.space.add_circle((0, 0), 2.5, dxfattribs={"layer": "rooms"})
    drawing.space.add_ellipse((10, 0), (4, 0), 0.5, dxfattribs={"layer": "rooms"})
    assert areas(read(drawing)) == pytest.approx(
        sorted([math.pi * 2.5**2, math.pi * 4 * 2]), rel=1e-3
    )


def test_a_hatch_with_a_hole_is_a_room_with_a_hole(sheet):
    drawing = sheet()
    hatch = drawing.space.add_hatch(dxfattribs={"layer": "Raumflächen"})
    hatch.paths.add_polyline_path([(0, 0), (8, 0), (8, 6), (0, 6)], is_closed=True)
    hatch.paths.add_polyline_path([(3, 2), (5, 2), (5, 4), (3, 4)], is_closed=True)
    assert areas(read(drawing)) == pytest.approx([48 - 4])


def test_the_same_room_drawn_twice_and_the_outline_of_the_whole_flat_count_once(sheet):
    drawing = sheet()
    for left in (0, 4):
        drawing.outline([(left, 0), (left + 4, 0), (left + 4, 5), (left, 5)], "room")
    drawing.outline([(0, 0), (4, 0), (4, 5), (0, 5)], "room")
    drawing.outline([(0, 0), (8, 0), (8, 5), (0, 5)], "area")
    assert areas(read(drawing)) == pytest.approx([20, 20])


@pytest.mark.parametrize("layer", ["A-WALL", "Innenwände", "Murs", "muros", "Lines"])
def test_double_walls_enclose_the_rooms_between_their_inside_faces(sheet, house, layer):
    drawing = sheet()
    drawing.rings(house.walls, layer)
    assert areas(read(drawing)) == pytest.approx(list(house.areas), rel=1e-6)


def test_walls_cut_into_lines_with_slips_and_without_jambs_close_again(sheet, house):
    drawing = sheet(4, 1000)
    for part in [house.walls]:
        for ring in (part.exterior, *part.interiors):
            for start, end in pairwise(ring.coords):
                length = math.dist(start, end)
                if round(length, 6) in (0.1, 0.3):
                    continue  # the end of a wall
                slip = 0.004 / length
                along = end[0] - start[0], end[1] - start[1]
                drawing.line(start, (end[0] - slip * along[0], end[1] - slip * along[1]), "walls")
    assert areas(read(drawing)) == pytest.approx(list(house.areas), rel=1e-3)


def test_walls_as_single_lines_enclose_rooms_and_a_gap_between_them_is_a_passage(sheet):
    drawing = sheet()
    drawing.outline([(0, 0), (10, 0), (10, 6), (0, 6)], "wall")
    drawing.line((5, 0), (5, 2), "wall")
    drawing.line((5, 2.9), (5, 6), "wall")
    plan = read(drawing)
    assert areas(plan) == pytest.approx([30, 30])
    for room, other in zip(plan.rooms, reversed(plan.rooms), strict=True):
        (opening,) = room.openings
        assert opening.kind is OpeningKind.PASSAGE
        assert opening.width == pytest.approx(0.9)
        assert opening.leads_to == other.id


def test_blocks_are_doors_and_windows_in_the_walls_they_stand_by(sheet, house):
    drawing = sheet()
    drawing.rings(house.walls, "Walls")
    add_door(drawing.document)
    add_window(drawing.document)
    drawing.space.add_blockref("DOOR-90", (5.0, 2.0), dxfattribs={"rotation": 90})
    drawing.space.add_blockref("Fenster_1", (7, 0))
    small, large = sorted(read(drawing).rooms, key=lambda room: room.outline.area)
    assert kinds(small) == ["door"]
    assert kinds(large) == ["door", "window"]
    assert small.openings[0].leads_to == large.id
    widths = {opening.kind: opening.width for opening in large.openings}
    assert widths == {OpeningKind.DOOR: pytest.approx(0.9), OpeningKind.WINDOW: pytest.approx(1.5)}


def test_blocks_stand_by_outlines_too_even_within_blocks_and_scaled(sheet):
    drawing = sheet()
    drawing.outline([(0, 0), (4, 0), (4, 5), (0, 5)], "room")
    drawing.outline([(4.1, 0), (9, 0), (9, 5), (4.1, 5)], "room")
    add_door(drawing.document)
    group = drawing.document.blocks.new("FLOOR")
    group.add_blockref("DOOR-90", (4.0, 1), dxfattribs={"rotation": 90, "xscale": 0.8, "yscale": 1})
    drawing.space.add_blockref("FLOOR", (0, 0))
    for room in read(drawing).rooms:
        assert kinds(room) == ["door"]
        assert room.openings[0].width == pytest.approx(0.72)


def test_a_swing_drawn_as_an_arc_is_a_door(sheet, house):
    drawing = sheet()
    drawing.rings(house.walls, "Walls")
    drawing.space.add_arc((5.0, 2.0), 0.9, 90, 180, dxfattribs={"layer": "misc"})
    for room in read(drawing).rooms:
        assert "door" in kinds(room)


def test_a_door_far_from_every_room_is_left_out_with_a_doubt(sheet):
    drawing = sheet()
    drawing.outline(ELL, "room")
    add_door(drawing.document)
    drawing.space.add_blockref("DOOR-90", (30, 30))
    plan = read(drawing)
    assert not plan.rooms[0].openings
    assert any("1 doors or windows stand by no wall" in doubt.says for doubt in plan.doubts)


def test_furniture_blocks_stand_turned_in_their_rooms(sheet):
    drawing = sheet()
    drawing.outline(ELL, "room")
    bed = drawing.document.blocks.new("Bed-Single")
    bed.add_lwpolyline([(0, 0), (1, 0), (1, 2), (0, 2)], close=True)
    drawing.space.add_blockref("Bed-Single", (1.5, 1), dxfattribs={"rotation": 30})
    (piece,) = read(drawing).rooms[0].furnishings
    assert piece.kind == "bed_single"
    assert piece.footprint.area == pytest.approx(2.0)
    assert piece.footprint.minimum_rotated_rectangle.area == pytest.approx(2.0)
    assert piece.footprint.envelope.area > 3


def test_text_in_a_room_names_it_and_gives_its_use(sheet):
    drawing = sheet()
    for left in (0, 5, 10, 15):
        drawing.outline([(left, 0), (left + 4, 0), (left + 4, 4), (left, 4)], "room")
    drawing.text("Kitchen", (1, 1))
    drawing.text("16.0 m²", (1, 2))
    drawing.space.add_mtext(
        "{\\fArial;Schlafzimmer}\\P4.00 x 4.00 m", dxfattribs={"insert": (6, 2)}
    )
    drawing.text("Vestry", (11, 1))
    drawing.text("104", (16, 1))
    plan = read(drawing)
    said = [(room.name, room.use) for room in plan.rooms]
    assert said == [
        ("Kitchen", "kitchen"),
        ("Schlafzimmer", "bedroom"),
        ("Vestry", "room"),
        ("Room 104", "room"),
    ]
    asked = {doubt.room for doubt in plan.doubts if doubt.aspect is Aspect.USE}
    assert asked == {plan.rooms[2].id, plan.rooms[3].id}


@pytest.mark.parametrize("unit", UNITS)
def test_a_unit_that_is_not_declared_is_told_by_rooms_and_doors(sheet, unit):
    drawing = sheet(0, UNITS[unit][1])
    drawing.document.header["$MEASUREMENT"] = int(unit not in ("in", "ft"))
    for left in (0, 4):
        drawing.outline([(left, 0), (left + 4, 0), (left + 4, 3.5), (left, 3.5)], "room")
    plan = read(drawing)
    assert areas(plan) == pytest.approx([14, 14])
    (doubt,) = [doubt for doubt in plan.doubts if doubt.aspect is Aspect.SCALE]
    assert "does not say its unit" in doubt.says
    assert doubt.confidence > 0.8


def test_a_declared_unit_that_cannot_be_is_doubted(sheet):
    drawing = sheet(6, 1000)  # millimetres, said to be metres
    drawing.outline(ELL, "room")
    plan = read(drawing)
    assert areas(plan) == pytest.approx([ELL_AREA])
    (doubt,) = [doubt for doubt in plan.doubts if doubt.aspect is Aspect.SCALE]
    assert "says metres, which cannot be; millimetres are taken" in doubt.says


def test_hidden_layers_are_not_read(sheet):
    drawing = sheet()
    drawing.outline(ELL, "room")
    drawing.outline([(20, 0), (26, 0), (26, 5), (20, 5)], "room old")
    drawing.document.layers.add("room old").off()
    assert areas(read(drawing)) == pytest.approx([ELL_AREA])


def test_several_plans_beside_each_other_raise_a_doubt(sheet):
    drawing = sheet()
    for left in (0, 4, 30, 34):
        drawing.outline([(left, 0), (left + 4, 0), (left + 4, 4), (left, 4)], "room")
    assert any("holds 2 plans beside each other" in doubt.says for doubt in read(drawing).doubts)


@given(
    width=st.floats(1.5, 20), depth=st.floats(1.5, 20), turn=st.floats(0, 360), x=st.floats(-99, 99)
)
@settings(max_examples=10)
def test_area_is_kept_wherever_and_however_a_room_lies(width, depth, turn, x):
    document = ezdxf.new()
    document.header["$INSUNITS"] = 6
    outline = affinity.rotate(box(x, 0, x + width, depth), turn)
    document.modelspace().add_lwpolyline(
        list(outline.exterior.coords)[:-1], close=True, dxfattribs={"layer": "room"}
    )
    stream = io.StringIO()
    document.write(stream)
    plan = dxf_plan(stream.getvalue().encode(), "plan.dxf", USES, FURNITURE)
    assert areas(plan) == pytest.approx([width * depth], rel=1e-6)


@pytest.mark.parametrize(
    ("spoil", "problem"),
    [
        (lambda data: data[:4000], "damaged or cut off|enclose a room"),
        (lambda _: b"0\nSECTION\n" + bytes(range(256)) * 20, "damaged or cut off"),
        (lambda _: b"0\nSECTION\n2\nHEADER\n", "no outlines or walls in it enclose a room"),
        (lambda data: data.replace(b"LWPOLYLINE", b"LWPOLYLIME"), "no outlines or walls"),
    ],
)
def test_a_spoilt_drawing_is_refused_in_one_sentence(sheet, spoil, problem):
    drawing = sheet()
    drawing.outline(ELL, "room")
    with pytest.raises(EstimatorError, match=problem) as refusal:
        dxf_plan(spoil(drawing.data()), "plan.dxf", USES, FURNITURE)
    assert str(refusal.value).startswith("plan.dxf: ")
    assert isinstance(refusal.value, SourceError | NoClosedRoom)


@given(cut=st.integers(0, 18_000), flip=st.binary(max_size=40))
@settings(max_examples=15)
def test_no_damage_ends_in_anything_but_a_plan_or_a_sentence(cut, flip):
    document = ezdxf.new()
    document.modelspace().add_lwpolyline(ELL, close=True, dxfattribs={"layer": "room"})
    stream = io.StringIO()
    document.write(stream)
    data = stream.getvalue().encode()
    spoilt = data[:cut] + flip + data[cut + len(flip) :]
    with suppress(EstimatorError):
        assert dxf_plan(spoilt, "plan.dxf", USES, FURNITURE).is_scaled


def test_a_drawing_without_end_is_refused(sheet, monkeypatch):
    monkeypatch.setattr(dxf_contents, "MOST_ENTITIES", 10)
    drawing = sheet()
    for at in range(20):
        drawing.line((0, at), (5, at))
    with pytest.raises(SourceError, match="holds more than 10 parts"):
        read(drawing)


def add_door(document):
    door = document.blocks.new("DOOR-90")
    door.add_line((0, 0), (0, 0.9))
    door.add_arc((0, 0), 0.9, 0, 90)


def add_window(document):
    window = document.blocks.new("Fenster_1")
    window.add_lwpolyline([(0, 0), (1.5, 0), (1.5, 0.3), (0, 0.3)], close=True)
    window.add_line((0, 0.15), (1.5, 0.15))
