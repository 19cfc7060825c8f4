"""A new user's first call, told in pictures: correct a read plan, sketch, show, answer."""

import io
import re
from pathlib import Path

from calls import SLOWLY, add, begin_sketch, settled_on_call
from PIL import Image
from playwright.sync_api import Page, expect

PLAN = Path(__file__).parents[2] / "sample_plans" / "larkfield-corner-cafe-sketch.webp"
STEP_MS = 1600


class Recording:
    """A film of the page, one picture a step."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.pictures: list[Image.Image] = []

    def take(self) -> None:
        self.page.wait_for_timeout(300)
        picture = Image.open(io.BytesIO(self.page.screenshot())).convert("RGB")
        self.pictures.append(picture.resize((picture.width * 2 // 3, picture.height * 2 // 3)))

    def kept(self, path: Path) -> Path:
        first, *rest = self.pictures
        first.save(path, save_all=True, append_images=rest, duration=STEP_MS, loop=0, quality=60)
        return path


def width_of(said: str) -> float:
    """Return the width of a range of prices, such as "Likely between USD 180 and USD 260"."""
    low, high, *_ = (float(one.replace(",", "")) for one in re.findall(r"\d[\d,]*\.?\d*", said))
    return high - low


def test_a_new_user_corrects_a_plan_sketches_a_flat_and_answers_on_a_call(drawing, tmp_path):
    page, film = drawing.page, Recording(drawing.page)
    page.set_viewport_size({"width": 1280, "height": 720})
    page.get_by_role("button", name="Open a plan").click()
    page.locator("input[type=file]").set_input_files(PLAN)
    page.wait_for_function(
        "() => [...document.querySelectorAll('*')].some(one => one.shadowRoot"
        "?.querySelector('.table')?.drawingTable?.data?.rooms.length === 5)",
        timeout=2 * SLOWLY,
    )
    drawing.settled()
    film.take()

    price = drawing.figure("Price")
    read = drawing.rooms()
    largest = max(read, key=read.get)
    rings = drawing.table.evaluate(
        "(table, name) => table.drawingTable.data.rooms.find(one => one.name === name).rings",
        largest,
    )
    across, down = zip(*rings[0], strict=True)
    edge, middle = min(across), (min(down) + max(down)) / 2
    drawing.sheet.scroll_into_view_if_needed()
    drawing.drag((edge, middle), (edge - (max(across) - edge) / 8, middle))
    drawing.settled()
    expect(page.get_by_text(price, exact=True)).to_have_count(0, timeout=SLOWLY)
    assert drawing.rooms()[largest] > read[largest]
    film.take()

    begin_sketch(page)
    page.get_by_label("Add a room as you hear it").click()
    for words in ("hall 6x1.5", "kitchen 4x3 off the hall", "bath off the hall", "bedroom 4x3.5"):
        add(page, words)
        film.take()
    site = page.get_by_label("Site", exact=True)
    expect(site).to_have_count(1, timeout=SLOWLY)
    expect(site).to_have_value("")
    assert drawing.callout.count() == 0 or not drawing.callout.is_visible()
    page.get_by_role("button", name="Call view").click()
    settled_on_call(page)
    before = page.get_by_text("Likely between").inner_text()
    film.take()

    page.get_by_text("Empty", exact=True).first.click()
    expect(page.get_by_text(before)).to_have_count(0, timeout=SLOWLY)
    settled_on_call(page)
    assert width_of(page.get_by_text("Likely between").inner_text()) < width_of(before)
    film.take()

    with Image.open(film.kept(tmp_path / "first-call.webp")) as told:
        assert told.n_frames == len(film.pictures) == 8
