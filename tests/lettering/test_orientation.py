import cv2
import numpy as np
import pytest

from estimator.intake.pictures import open_picture
from estimator.lettering.line import Line
from estimator.lettering.orientation import flat_page, quarters_to_upright
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.sheet import Sheet, turned
from estimator.plan.storey import Storey
from estimator.reading.picture import Picture
from estimator.workflow.picture_reading import read_picture
from estimator.workflow.samples import samples

WORDS = (("Living Room", 60, 100, 250), ("Kitchen", 330, 100, 460), ("Bedroom 2", 60, 220, 220))
WIDE, TALL = 500, 300


@pytest.fixture(scope="module")
def page():
    """White paper with three names of rooms, and their lines."""
    paper = np.full((TALL, WIDE, 3), 255, np.uint8)
    lines = []
    for text, left, base, right in WORDS:
        cv2.putText(paper, text, (left, base), cv2.FONT_HERSHEY_SIMPLEX, 0.9, (0, 0, 0), 2)
        lines.append(Line(text=text, box_px=(left - 3, base - 28, right + 3, base + 10)))
    return paper, lines


def lying(line, quarters):
    """A line of the page after so many quarters anticlockwise."""
    sheet = Sheet(from_picture=np.eye(3), width_px=WIDE, height_px=TALL)
    left, top, right, bottom = line.box_px
    corners = turned(sheet, quarters).flat(np.array([[left, top], [right, bottom]]))
    box = (*corners.min(axis=0).tolist(), *corners.max(axis=0).tolist())
    return Line(text=line.text, box_px=box, is_vertical=quarters % 2 == 1)


@pytest.mark.parametrize("quarters", range(4))
def test_a_page_is_turned_upright_by_its_lettering(page, quarters):
    paper, lines = page
    pixels = np.ascontiguousarray(np.rot90(paper, quarters))
    found = quarters_to_upright(pixels, [lying(line, quarters) for line in lines])
    assert (found + quarters) % 4 == 0


def test_a_page_with_some_lines_up_it_stays(page):
    paper, lines = page
    up = Line(text="5.28 m wall", box_px=(5, 20, 25, 200), is_vertical=True)
    assert quarters_to_upright(paper, [*lines, up]) == 0


def test_a_page_without_words_stays():
    paper = np.full((100, 100, 3), 255, np.uint8)
    number = Line(text="3.45", box_px=(10, 10, 20, 60), is_vertical=True)
    assert quarters_to_upright(paper, []) == 0
    assert quarters_to_upright(paper, [number]) == 0


def test_a_page_turned_by_a_quarter_is_mapped_back_to_the_picture():
    picture = Picture(pixels=np.full((300, 500, 3), 255, np.uint8))
    whole = Sheet(from_picture=np.eye(3), width_px=500, height_px=300)
    room = Room(id="a", name="A", outline_px=rectangle(100, 50, left=20, top=30))
    storey = Storey(source=picture.source, sheet=turned(whole, 1))
    page = flat_page(Plan(storeys=(storey,), rooms=(room,)), picture)
    assert (page.picture.width_px, page.picture.height_px) == (300, 500)
    assert page.plan.rooms[0].outline_px.bounds == pytest.approx((30, 380, 80, 480))
    again = page.in_given(page.plan)
    assert again.storeys == (storey,)
    assert again.rooms[0].outline_px.bounds == pytest.approx((20, 30, 120, 80))


def test_a_sample_scanned_sideways_has_its_names_and_its_scale():
    (sample,) = (one for one in samples() if "school wing" in one.title)
    upright, truth = open_picture(sample.picture), sample.truth()
    sideways = Picture(pixels=np.ascontiguousarray(np.rot90(upright.pixels)))
    plan = read_picture(b"", sideways, lettering=True).plan
    names = {room.name.casefold() for room in plan.rooms}
    assert sum(room.name.casefold() in names for room in truth.rooms) >= len(truth.rooms) - 2
    floor = sum(room.outline.area for room in plan.rooms)
    assert floor == pytest.approx(sum(room.outline.area for room in truth.rooms), rel=0.03)
    # the corridor runs across again in metres, but not in the picture as given
    (corridor,) = (room for room in plan.rooms if room.name == "Corridor")
    left, top, right, bottom = corridor.outline.bounds
    assert right - left > 3 * (bottom - top)
    left, top, right, bottom = corridor.outline_px.bounds
    assert 3 * (right - left) < bottom - top
    assert plan.storeys[0].source == sideways.source
