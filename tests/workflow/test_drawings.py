import io
import json

import ezdxf
import numpy as np
import pytest
from PIL import Image

from estimator.cli.main import main
from estimator.errors import EstimatorError
from estimator.workflow.drawings import drawing_plan, sheet_png
from estimator.workflow.files import plan_from_text
from estimator.workflow.pages import File
from estimator.workflow.quoting import estimate
from estimator.workflow.reading import read_files


@pytest.fixture
def drawing():
    """A DXF in millimetres with a kitchen of 4 m x 3 m and a bedroom of 4 m x 5 m."""
    document = ezdxf.new(units=4)
    space = document.modelspace()
    for name, left, depth in (("Kitchen", 0, 3000), ("Bedroom", 4100, 5000)):
        corners = [(left, 0), (left + 4000, 0), (left + 4000, depth), (left, depth)]
        space.add_lwpolyline(corners, close=True, dxfattribs={"layer": "ROOMS"})
        space.add_text(name, height=200).set_placement((left + 500, 500))
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue().encode()


def test_a_drawing_is_read_to_size_without_a_picture(drawing):
    found = read_files([File(name="house.dxf", content=drawing)])
    assert found.pages == ()
    assert found.plan.is_scaled
    assert {room.name: round(room.outline.area, 6) for room in found.plan.rooms} == {
        "Kitchen": 12.0,
        "Bedroom": 20.0,
    }
    assert {room.use for room in found.plan.rooms} == {"kitchen", "bedroom"}


def test_a_file_that_is_no_drawing_is_left_to_others():
    assert drawing_plan(b"%PDF-1.7", "plan.pdf") is None
    assert drawing_plan(b"\x89PNG\r\n\x1a\n", "plan.png") is None


def test_a_plan_without_a_picture_is_drawn_on_a_white_sheet(drawing):
    plan = drawing_plan(drawing, "house.dxf")
    with Image.open(io.BytesIO(sheet_png(plan))) as sheet:
        pixels = np.asarray(sheet.convert("L"))
    assert max(pixels.shape) == 1600
    inked = float((pixels < 250).mean())
    assert 0.5 < inked < 0.95


def test_the_command_reads_a_drawing_and_its_plan_is_priced(drawing, tmp_path, capsys):
    (tmp_path / "house.dxf").write_bytes(drawing)
    plan, overlay = tmp_path / "plan.json", tmp_path / "overlay.png"
    arguments = ["read", str(tmp_path / "house.dxf"), "-o", str(plan), "--overlay", str(overlay)]
    assert main(arguments) == 0
    assert "2 rooms, 32.0 m² of floor by the sizes in the drawing" in capsys.readouterr().out
    assert json.loads(plan.read_text())["schema"] == "plan/1"
    assert overlay.read_bytes().startswith(b"\x89PNG")
    quote = estimate(plan_from_text("plan.json", plan.read_text()))
    assert quote.schedule.floor_area == pytest.approx(32)


def test_a_drawing_without_rooms_is_refused_in_one_sentence(tmp_path, capsys):
    stream = io.StringIO()
    ezdxf.new().write(stream)
    with pytest.raises(EstimatorError, match="enclose a room"):
        read_files([File(name="empty.dxf", content=stream.getvalue().encode())])
    (tmp_path / "empty.dxf").write_text(stream.getvalue())
    assert main(["read", str(tmp_path / "empty.dxf"), "-o", str(tmp_path / "p.json")]) == 2
    sentence = capsys.readouterr().err
    assert sentence.count("\n") == 1
    assert sentence.startswith("empty.dxf: ")
