import math

import pytest
from shapely import affinity

from estimator.intake.drawings.dxf import dxf_plan
from estimator.plan.doubt import Aspect


def read(drawing):
    return dxf_plan(drawing.data(), "plan.dxf", {"kitchen": "kitchen"}, {})


def floors(plan):
    """Return the areas on each storey by its name, smallest first."""
    return {
        storey.name: sorted(
            room.outline.area for room in plan.rooms if room.storey == storey.number
        )
        for storey in plan.storeys
    }


def corners(left, top, width, depth):
    return [(left, top), (left + width, top), (left + width, top + depth), (left, top + depth)]


@pytest.mark.parametrize(
    "names",
    [
        ("EG-WAND", "1.OG-WAND"),
        ("Ground floor walls", "First floor walls"),
        ("Muros PB", "Muros planta 1"),
    ],
)
def test_storeys_above_each_other_are_told_by_their_layers(sheet, house, names):
    drawing = sheet()
    above = affinity.scale(house.walls, 0.9, 0.9, origin=(0, 0))
    drawing.rings(above, names[1])
    drawing.rings(house.walls, names[0])
    drawing.text("Kitchen", (2, 3))
    plan = read(drawing)
    below, first = floors(plan).values()
    assert below == pytest.approx(list(house.areas), rel=1e-6)
    assert first == pytest.approx([area * 0.81 for area in house.areas], rel=1e-6)
    assert [room.use for room in plan.rooms].count("kitchen") == 2  # its layer is of no storey
    assert len({room.id for room in plan.rooms}) == 4


def test_layers_of_text_named_by_storeys_make_no_storeys(sheet, house):
    drawing = sheet()
    drawing.rings(house.walls, "A-WALL")
    for layer in ("EG-Text", "OG-Text"):
        drawing.line((1, 1), (2, 1), layer)
    assert list(floors(read(drawing)).values()) == [pytest.approx(list(house.areas), rel=1e-6)]


def test_plans_beside_each_other_are_storeys_named_by_the_text_below_them(sheet, house):
    drawing = sheet(4, 1000)
    for left, name in ((0, "Obergeschoss"), (20, "Erdgeschoss M 1:100")):
        drawing.rings(affinity.translate(house.walls, left, 0), "Wände")
        drawing.text(name, (left + 4, -2))
    plan = read(drawing)
    assert floors(plan) == {
        name: pytest.approx(list(house.areas), rel=1e-6) for name in ("Erdgeschoss", "Obergeschoss")
    }
    for storey in (0, 1):  # each lies at the origin of its own
        outlines = [room.outline for room in plan.rooms if room.storey == storey]
        assert min(outline.bounds[0] for outline in outlines) == pytest.approx(0, abs=1e-6)
    assert not any("beside each other" in doubt.says for doubt in plan.doubts)


def test_layouts_are_read_where_the_model_space_is_empty(sheet, house):
    drawing = sheet(4, 1000)
    for name in ("Ground floor", "First floor"):
        drawing.space = drawing.document.layouts.new(name)
        drawing.rings(house.walls, "A-WALL")
    assert floors(read(drawing)) == {
        name: pytest.approx(list(house.areas), rel=1e-6) for name in ("Ground floor", "First floor")
    }


def test_layouts_are_left_where_the_model_space_is_drawn_in(sheet, house):
    drawing = sheet()
    drawing.rings(house.walls, "A-WALL")
    drawing.space = drawing.document.layouts.new("First floor")
    drawing.rings(house.walls, "A-WALL")
    assert len(read(drawing).rooms) == 2


def test_a_unit_that_is_not_declared_is_one_for_all_storeys_with_one_doubt(sheet, house):
    drawing = sheet(0, 1000)
    for layer in ("EG-Wand", "OG-Wand"):
        drawing.rings(house.walls, layer)
    plan = read(drawing)
    assert list(floors(plan).values()) == [pytest.approx(list(house.areas), rel=1e-6)] * 2
    scale = [doubt for doubt in plan.doubts if doubt.aspect is Aspect.SCALE]
    assert len(scale) == 1
    assert "does not say its unit; millimetres are taken" in scale[0].says


def test_walls_as_solid_hatches_enclose_rooms(sheet, house):
    drawing = sheet()
    hatch = drawing.space.add_hatch(dxfattribs={"layer": "A-WALL"})
    for part in getattr(house.walls, "geoms", [house.walls]):
        for ring in (part.exterior, *part.interiors):
            hatch.paths.add_polyline_path(list(ring.coords)[:-1], is_closed=True)
    assert list(floors(read(drawing)).values()) == [pytest.approx(list(house.areas), rel=1e-6)]


def test_walls_as_several_lines_beside_each_other_enclose_the_room_within(sheet):
    # The usual style has lines 0.5 to either side; scaled to a wall of 0.2 m around 6 m x 4 m.
    drawing = sheet()
    wall = drawing.space.add_mline(corners(0, 0, 6, 4), dxfattribs={"layer": "A-WALL"}, close=True)
    wall.set_scale_factor(0.2)
    wall.set_justification(1)  # on the middle between its lines
    assert list(floors(read(drawing)).values()) == [pytest.approx([5.8 * 3.8], rel=1e-6)]


def test_a_closed_spline_has_the_area_of_the_circle_it_follows(sheet):
    drawing = sheet()
    points = [
        (2 * math.cos(math.radians(at)), 2 * math.sin(math.radians(at))) for at in range(0, 361, 10)
    ]
    drawing.space.add_spline(points, dxfattribs={"layer": "rooms"})
    assert list(floors(read(drawing)).values()) == [pytest.approx([math.pi * 4], rel=2e-3)]


def test_rooms_in_blocks_within_blocks_lie_where_they_are_inserted(sheet):
    drawing = sheet()
    inner = drawing.document.blocks.new("ROOM4x3")
    inner.add_lwpolyline(corners(0, 0, 4, 3), close=True, dxfattribs={"layer": "rooms"})
    outer = drawing.document.blocks.new("FLAT")
    outer.add_blockref("ROOM4x3", (0, 0))
    outer.add_blockref("ROOM4x3", (4, 0), dxfattribs={"rotation": 90, "xscale": 0.5})
    drawing.space.add_blockref("FLAT", (10, 10), dxfattribs={"layer": "0", "xscale": -1})
    assert list(floors(read(drawing)).values()) == [pytest.approx([6, 12], rel=1e-9)]
