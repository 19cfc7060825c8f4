import json
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
import shapely
from PIL import Image

from estimator.plan.exchange import plan_from_dict
from estimator.synthesis.samples import write_sample
from estimator.synthesis.sheets import sheets

FOLDER = Path(__file__).parents[2] / "sample_plans"
SHEETS = {sheet.file: sheet for sheet in sheets()}
STEMS = {Path(file).stem: file for file in SHEETS}
POINTS_PER_INCH = 72  # the unit of a PDF page, ISO 32000-1, 8.3.2.3


def truth(file):
    text = (FOLDER / f"{Path(file).stem}.truth.json").read_text(encoding="utf-8")
    return plan_from_dict(json.loads(text))


def grey(path):
    with Image.open(path) as picture:
        return np.asarray(picture.convert("L"), np.int16)


def test_there_are_at_least_nine_sheets_in_five_kinds_of_file():
    assert len(SHEETS) >= 9
    assert {Path(file).suffix for file in SHEETS} == {".png", ".jpg", ".tif", ".webp", ".pdf"}


def test_the_folder_holds_every_sheet_with_its_truth_and_is_small():
    held = {path.name for path in FOLDER.iterdir()}

    assert held == set(SHEETS) | {f"{stem}.truth.json" for stem in STEMS}
    assert sum(path.stat().st_size for path in FOLDER.iterdir()) < 4_000_000


@pytest.mark.parametrize(
    "file", ["larkfield-riverside-flat.png", "larkfield-corner-cafe-sketch.webp"]
)
def test_a_sheet_is_drawn_the_same_every_time(file, tmp_path):
    once, again = tmp_path / "once", tmp_path / "again"
    for folder in (once, again):
        folder.mkdir()
        write_sample(SHEETS[file], folder)

    name = f"{Path(file).stem}.truth.json"
    assert (once / file).read_bytes() == (again / file).read_bytes()
    assert (once / name).read_text() == (FOLDER / name).read_text()
    # another release of an imaging library may smooth an edge otherwise; the drawing is the same
    assert np.abs(grey(once / file) - grey(FOLDER / file)).mean() < 1.0


def test_a_vector_sheet_is_drawn_the_same_every_time(tmp_path):
    file = "larkfield-orchard-bungalow.pdf"
    write_sample(SHEETS[file], tmp_path)
    once = (tmp_path / file).read_bytes()
    write_sample(SHEETS[file], tmp_path)

    assert once == (tmp_path / file).read_bytes()


@pytest.mark.parametrize("file", [file for file in SHEETS if not file.endswith(".pdf")])
def test_the_truth_is_of_the_size_of_the_picture(file):
    source = truth(file).storeys[0].source

    assert source.file == file
    with Image.open(FOLDER / file) as picture:
        assert (source.width_px, source.height_px) == picture.size


def test_the_vector_sheet_is_a3_and_says_its_scale_in_text():
    document = pypdfium2.PdfDocument(FOLDER / "larkfield-orchard-bungalow.pdf")
    page = document[0]
    width_mm, height_mm = (side / POINTS_PER_INCH * 25.4 for side in page.get_size())
    text = page.get_textpage().get_text_bounded()
    source = truth("larkfield-orchard-bungalow.pdf").storeys[0].source
    page.close()
    document.close()

    # ISO 216: A3 is 297 mm by 420 mm
    assert (width_mm, height_mm) == pytest.approx((420, 297), abs=0.1)
    assert "Scale 1:50 on A3" in text
    assert source.width_px / source.height_px == pytest.approx(width_mm / height_mm, rel=1e-3)


@pytest.mark.parametrize(
    ("file", "scale"),
    [
        ("larkfield-orchard-bungalow.pdf", 50),
        ("larkfield-school-wing.tif", 100),
    ],
)
def test_the_stated_scale_is_the_true_one(file, scale):
    plan, sheet = truth(file), SHEETS[file]

    # ISO 5455: 1:n, one unit on paper for n in truth
    assert plan.scale.metres_per_px == pytest.approx(0.0254 / sheet.px_per_inch * scale)
    assert any(f"1:{scale}" in text for _, text in sheet.cells)


@pytest.mark.parametrize("file", SHEETS)
def test_pixels_and_metres_tell_the_same_areas_within_the_picture(file):
    plan = truth(file)
    source = plan.storeys[0].source
    sheet = shapely.box(0, 0, source.width_px, source.height_px)
    for room in plan.rooms:
        assert room.outline.area > 1.0
        assert room.outline_px.within(sheet)
        assert room.outline.area == pytest.approx(
            room.outline_px.area * plan.scale.metres_per_px**2, rel=2e-3
        )


@pytest.mark.parametrize("file", SHEETS)
def test_rooms_keep_a_wall_between_them(file):
    rooms = truth(file).rooms
    for at, room in enumerate(rooms):
        for other in rooms[at + 1 :]:
            assert room.outline.distance(other.outline) > 0.08


@pytest.mark.parametrize("file", SHEETS)
def test_openings_lie_on_their_walls_clear_of_each_other(file):
    for room in truth(file).rooms:
        spans = []
        for opening in room.openings:
            span = shapely.LineString([opening.start, opening.end])
            assert span.within(room.outline.boundary.buffer(1e-4))
            span_px = shapely.LineString([opening.start_px, opening.end_px])
            assert span_px.within(room.outline_px.boundary.buffer(0.1))
            assert all(span.distance(other) > 0.04 for other in spans)
            spans.append(span)


@pytest.mark.parametrize("file", SHEETS)
def test_every_room_can_be_walked_to_from_outside(file):
    plan = truth(file)
    beyond = {
        room.id: {o.leads_to or "outside" for o in room.openings if o.kind.value != "window"}
        for room in plan.rooms
    }
    reached, found = set(), {"outside"}
    while found - reached:
        reached |= found
        found = {room for room, ways in beyond.items() if ways & reached} | reached

    assert set(beyond) <= reached


@pytest.mark.parametrize("file", SHEETS)
def test_furniture_stands_in_its_room(file):
    for room in truth(file).rooms:
        for piece in room.furnishings:
            assert piece.footprint.within(room.outline.buffer(0.03)), (room.name, piece.kind)
