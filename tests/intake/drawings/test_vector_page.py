import io
import json
import math
from pathlib import Path

import numpy as np
import pytest
import shapely
from drawn_pdf import POINTS, DrawnPdf
from PIL import Image
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas
from shapely import affinity
from shapely.geometry import Point, box

from estimator.intake.drawings import pdf_paths
from estimator.intake.drawings.vector_page import vector_plan
from estimator.intake.pictures import open_bytes
from estimator.plan.exchange import plan_from_dict
from estimator.workflow.places import samples_folder


class Page(DrawnPdf):
    """One page."""

    def __init__(self, rotation=0):
        super().__init__()
        self.canvas.setPageRotation(rotation)
        self.begin()

    def data(self):
        self.end()
        return super().data()


def plan_of(data):
    return vector_plan(data, open_bytes(data, "plan.pdf"))


def areas(plan):
    """Return the areas in m² at the known scale of the page, smallest first."""
    metre = POINTS * 2600 / 842
    return sorted(room.outline_px.area / metre**2 for room in plan.rooms)


def kinds(plan):
    return sorted(opening.kind.value for room in plan.rooms for opening in room.openings)


def furnish(page, house):
    """Draw what is no wall: furniture, a swing, a pane, dimension lines and a frame."""
    page.canvas.setStrokeColorRGB(0.4, 0.4, 0.4)
    page.canvas.setLineWidth(0.01)
    page.path(box(1, 4, 2, 6))
    page.path(Point(8, 3).buffer(0.6))
    page.swing((5.0, 2.0), 0.9, 90)
    page.line((5.0, 2.0), (4.1, 2.0))
    page.line((7.0, 0.15), (8.5, 0.15))
    page.line((0, -1), (10.6, -1))
    page.path(affinity.scale(house.outside, 1.4, 1.6))
    for text, at in (("Kitchen", (2, 3)), ("Scale 1:100", (0, 9))):
        page.word(text, at)


def test_filled_walls_enclose_rooms_of_exact_area(house):
    page = Page()
    page.path(house.walls, fill=(0.2, 0.2, 0.2), stroke=False)
    furnish(page, house)
    plan = plan_of(page.data())
    assert areas(plan) == pytest.approx(house.areas, rel=1e-3)
    assert kinds(plan) == ["door", "door", "window"]
    assert all(room.confidence > 0.9 and room.outline is None for room in plan.rooms)
    doors = [one for room in plan.rooms for one in room.openings if one.kind.value == "door"]
    assert sorted(door.opens_in for door in doors) == [False, True]
    assert all(door.hinge for door in doors)


def test_what_is_painted_over_a_wall_is_no_wall(house):
    page = Page()
    page.path(house.outside, fill=(0.1, 0.1, 0.1))
    for hole in (*house.rooms, house.door, house.window):
        page.path(hole, fill=(1, 1, 1), stroke=False)
    furnish(page, house)
    plan = plan_of(page.data())
    assert areas(plan) == pytest.approx(house.areas, rel=1e-3)
    assert kinds(plan) == ["door", "door", "window"]


def test_walls_outlined_with_two_lines_enclose_the_rooms_within(house):
    page = Page()
    page.path(house.walls)
    furnish(page, house)
    plan = plan_of(page.data())
    assert areas(plan) == pytest.approx(house.areas, rel=1e-3)
    assert kinds(plan) == ["door", "door", "window"]


def test_walls_drawn_with_a_broad_pen_have_their_thickness(house):
    page = Page()
    page.canvas.setLineWidth(0.2)
    page.path(box(0, 0, 10, 6))
    page.line((5, 0), (5, 2))
    page.line((5, 2.9), (5, 6))
    furnish(page, house)
    assert areas(plan_of(page.data())) == pytest.approx([4.8 * 5.8, 4.8 * 5.8], rel=1e-3)


def test_walls_as_single_thin_lines_are_read():
    page = Page()
    page.path(box(0, 0, 10, 6))
    page.line((5, 0), (5, 2))
    page.line((5, 2.9), (5, 6))
    page.swing((5.0, 2.0), 0.9, 90)
    page.word("Scale 1:100", (0, 9))
    assert areas(plan_of(page.data())) == pytest.approx([30, 30], rel=1e-3)


def test_curved_walls_keep_their_area():
    # A half circle of radius 3 m beside a rectangle of 4 m x 6 m, wall 0.2 m thick around both and
    # between them: π r² / 2.
    half = Point(0, 3).buffer(3, quad_segs=64).intersection(box(-3, 0, 0, 6))
    hall = box(0.2, 0, 4.2, 6)
    whole = shapely.union_all([half.buffer(0.2), hall.buffer(0.2, join_style="mitre")])
    walls = whole - half - hall - box(-0.1, 2, 0.3, 2.9) - box(4.1, 2, 4.5, 2.9)
    page = Page()
    page.canvas.translate(4, 0)
    page.path(walls, fill=(0, 0, 0))
    page.canvas.setLineWidth(0.01)
    page.swing((0.2, 2), 0.9, 0)
    page.swing((4.2, 2), 0.9, 90)
    for at in range(6):
        page.line((1, at), (2, at))
    page.word("Scale 1:100", (0, 9))
    assert areas(plan_of(page.data())) == pytest.approx([math.pi * 9 / 2, 24], rel=1e-3)


def test_a_page_may_be_rotated(house):
    page = Page(rotation=90)
    page.path(house.walls, fill=(0.2, 0.2, 0.2), stroke=False)
    furnish(page, house)
    data = page.data()
    plan = plan_of(data)
    assert areas(plan) == pytest.approx(house.areas, rel=1e-3)
    dark = open_bytes(data, "plan.pdf").pixels.min(axis=2) < 100
    for room in plan.rooms:
        left, top, right, bottom = (round(part) for part in room.outline_px.bounds)
        assert dark[top + 20 : bottom - 20, left + 20 : right - 20].mean() < 0.05
        assert dark[top + 20 : bottom - 20, left - 4].mean() > 0.5


@pytest.mark.parametrize("scale", ["Not to scale", "Scale 1:100"])
def test_no_printed_scale_is_needed(house, scale):
    page = Page()
    page.path(house.walls, fill=(0.2, 0.2, 0.2), stroke=False)
    page.canvas.setLineWidth(0.01)
    page.swing((5.0, 2.0), 0.9, 90)
    page.path(box(1, 4, 2, 6))
    for at in range(6):
        page.line((8, at + 0.5), (9, at + 0.5))
    page.word(scale, (0, 9))
    assert areas(plan_of(page.data())) == pytest.approx(house.areas, rel=1e-3)


def test_the_sample_page_is_read_as_it_was_drawn():
    file = samples_folder() / "larkfield-orchard-bungalow.pdf"
    truth = plan_from_dict(json.loads(file.with_suffix(".truth.json").read_text()))
    data = Path(file).read_bytes()
    plan = plan_of(data)
    picture = open_bytes(data, file.name)
    factor = np.array([picture.width_px, picture.height_px])
    factor = factor / (truth.storeys[0].source.width_px, truth.storeys[0].source.height_px)
    assert len(plan.rooms) == len(truth.rooms)
    for true in truth.rooms:
        outline = shapely.transform(true.outline_px, lambda points: points * factor)
        room = max(plan.rooms, key=lambda room: room.outline_px.intersection(outline).area)
        assert room.outline_px.area == pytest.approx(outline.area, rel=1e-3)
        assert room.outline_px.symmetric_difference(outline).area < 1e-3 * outline.area
        assert sorted(one.kind for one in room.openings) == sorted(
            one.kind for one in true.openings
        )


@pytest.mark.parametrize("places", [[(0, 0), (16, 0)], [(0, 0), (16, 0), (0, 9), (16, 18)]])
def test_several_plans_on_one_page_are_all_read(house, places):
    page = Page()
    page.canvas.scale(0.6, 0.6)
    for left, top in places:
        page.canvas.saveState()
        page.canvas.translate(left, top - 9)
        page.path(house.walls, fill=(0.2, 0.2, 0.2), stroke=False)
        page.canvas.setLineWidth(0.01)
        page.swing((5.0, 2.0), 0.9, 90)
        page.line((7.0, 0.15), (8.5, 0.15))
        page.canvas.restoreState()
    plan = plan_of(page.data())
    expected = sorted([area * 0.6**2 for area in house.areas] * len(places))
    assert areas(plan) == pytest.approx(expected, rel=1e-3)


def test_a_scan_and_a_page_of_text_are_left_to_the_pixels():
    buffer = io.BytesIO()
    canvas = Canvas(buffer, pagesize=(842, 595), invariant=1)
    scan = Image.effect_noise((400, 300), 60)
    canvas.drawImage(ImageReader(scan), 0, 0, 842, 595)
    canvas.rect(10, 10, 50, 50)
    canvas.save()
    assert plan_of(buffer.getvalue()) is None

    page = Page()
    for row in range(20):
        page.word("The undersigned agree to the terms of the lease", (0, row / 2))
        page.line((0, row / 2), (8, row / 2))
    assert plan_of(page.data()) is None


def test_a_picture_has_no_paths():
    buffer = io.BytesIO()
    Image.effect_noise((400, 300), 60).save(buffer, "PNG")
    picture = open_bytes(buffer.getvalue(), "plan.png")
    assert vector_plan(buffer.getvalue(), picture) is None


def test_a_wall_that_is_missing_leaves_the_page_to_the_pixels(house):
    page = Page()
    page.path(house.walls - box(-1, 1, 1, 6), fill=(0.2, 0.2, 0.2), stroke=False)
    furnish(page, house)
    assert plan_of(page.data()) is None


def test_a_page_on_which_one_room_did_not_close_is_left_to_the_pixels(house):
    page = Page()
    hall = box(0.3, 6.6, 10.3, 11)
    beyond = box(0, 6.3, 10.6, 11.3) - hall - box(1, 10, 9, 12)  # 8 m wide open, nothing drawn
    page.canvas.scale(0.8, 0.8)
    page.path(shapely.union(house.walls, beyond), fill=(0.2, 0.2, 0.2), stroke=False)
    furnish(page, house)
    assert plan_of(page.data()) is None


def test_furniture_in_another_colour_is_no_wall(house):
    page = Page()
    page.path(house.walls, fill=(0.1, 0.1, 0.1), stroke=False)
    for left in (5.1, 6.2, 7.3, 8.4):
        page.path(box(left, 3, left + 0.9, 3.4), fill=(0.9, 0.7, 0.8), stroke=False)
    furnish(page, house)
    assert areas(plan_of(page.data())) == pytest.approx(house.areas, rel=1e-3)


def test_outer_and_inner_walls_may_differ_in_colour(house):
    page = Page()
    inner = box(5.0, 0.3, 5.1, 6.3)
    page.path(house.walls - inner, fill=(0.1, 0.1, 0.1), stroke=False)
    page.path(house.walls & inner, fill=(0.4, 0.4, 0.4), stroke=False)
    furnish(page, house)
    assert areas(plan_of(page.data())) == pytest.approx(house.areas, rel=1e-3)


def test_a_page_with_too_many_paths_is_left_to_the_pixels(house, monkeypatch):
    monkeypatch.setattr(pdf_paths, "MOST_PATHS", 5)
    page = Page()
    page.path(house.walls, fill=(0.2, 0.2, 0.2), stroke=False)
    furnish(page, house)
    assert plan_of(page.data()) is None
