"""From a stroke on the drawing table to the new price, beside the bare cost of a Streamlit rerun.

Both are measured in one run and one Chromium, from the pointer going up to the figure changing on
the page: 60 rooms on a picture of 3000 by 2000 pixels against a page with one button and one
figure. What our own code takes of it in Python is measured in this process.
"""

import os
import runpy
import shutil
import statistics
import subprocess
import sys
import time
from contextlib import contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import sync_playwright
from serving import free_port, wait_for

from estimator.plan.ground import ground_of
from estimator.plan.pulling import wall_moved
from estimator.quantities import Units
from estimator.web.table.showing import storey_data
from estimator.web.theme import options
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import estimate, usual_job

PAGES = Path(__file__).parent / "pages"
STROKES = 40
PRICE = "[data-testid=stMetric]:has-text('Price') [data-testid=stMetricValue]"
WATCH = """
() => {
  window.taken = [];
  let from = null;
  window.addEventListener('pointerup', () => { from = performance.now(); }, true);
  const figures = () => [...document.querySelectorAll('[data-testid=stMetricValue]')];
  let shown = figures().at(-1).innerText;
  new MutationObserver(() => {
    const now = figures().at(-1)?.innerText;
    if (now && now !== shown) {
      shown = now;
      if (from !== null) window.taken.push(performance.now() - from);
      from = null;
    }
  }).observe(document.body, {subtree: true, childList: true, characterData: true});
}
"""
ANSWERED = """
table => new Promise(done => {
  const look = () => {
    const {outbox, later, tool} = table.drawingTable;
    if (outbox.isEmpty && !later && !tool.isBusy) done(); else setTimeout(look, 20);
  };
  look();
})
"""
PAN = """
async table => {
  const {map} = table.drawingTable.paper, viewport = map.getViewport();
  const box = viewport.getBoundingClientRect();
  const tell = (kind, x, y) => viewport.dispatchEvent(new PointerEvent(kind, {
    clientX: x, clientY: y, button: 0, buttons: kind === 'pointerup' ? 0 : 1, isPrimary: true,
    pointerId: 1, pointerType: 'mouse', bubbles: true, composed: true,
  }));
  const [left, top] = [box.left + box.width / 3, box.top + box.height / 2];
  let drawn = 0;
  map.on('postrender', () => { drawn += 1; });
  tell('pointerdown', left, top);
  const from = performance.now();
  for (let at = 0; performance.now() - from < 3000; at += 1) {
    tell('pointermove', left + 4 * (at % 60), top + 2 * (at % 45));
    await new Promise(requestAnimationFrame);
  }
  const seconds = (performance.now() - from) / 1000;
  tell('pointerup', left, top);
  return drawn / seconds;
}
"""


@contextmanager
def served(script, folder):
    port = free_port()
    command = [sys.executable, "-m", "streamlit", "run", str(PAGES / script), *options()]
    environment = os.environ | {"XDG_DATA_HOME": str(folder)}
    with Path(folder / f"{script}.log").open("wb") as log:
        app = subprocess.Popen(
            [*command, f"--server.port={port}", "--server.headless=true"],
            env=environment,
            stdout=log,
            stderr=log,
        )
        try:
            wait_for(port)
            yield f"http://localhost:{port}"
        finally:
            app.terminate()
            app.wait(timeout=20)


@pytest.fixture
def chromium():
    found = os.environ.get("CHROMIUM") or shutil.which("chromium")
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=found, args=["--no-sandbox"])
        yield browser
        browser.close()


def ninety_fifth(taken):
    return statistics.quantiles(taken, n=20)[-1]


def bare(browser, address):
    page = browser.new_page()
    page.goto(address)
    page.locator(PRICE).wait_for(timeout=60_000)
    page.evaluate(WATCH)
    for at in range(STROKES):
        page.get_by_role("button", name="More").click()
        page.wait_for_function("count => window.taken.length > count", arg=at)
    taken = page.evaluate("window.taken")
    page.close()
    return taken


def strokes(browser, address):
    """Return seconds to the first page, milliseconds of each stroke, and frames a second."""
    page = browser.new_page(viewport={"width": 1440, "height": 900})
    page.goto(address)  # the server makes its caches with the first visitor
    page.locator(".table .sheet").wait_for(timeout=90_000)
    page.wait_for_timeout(3000)
    began = time.perf_counter()
    page.goto(address)
    table = page.locator(".table")
    table.locator(".sheet").wait_for(timeout=60_000)
    page.locator(PRICE).wait_for()
    table.evaluate(
        "table => new Promise(done => { const {map} = table.drawingTable.paper;"
        " map.once('rendercomplete', () => done()); map.render(); })"
    )
    first_page = time.perf_counter() - began
    page.evaluate(WATCH)

    def seen(x, y):
        left, top = table.evaluate("(t, p) => t.drawingTable.paper.pixel(p)", [x, y])
        box = table.locator(".sheet").bounding_box()
        return box["x"] + left, box["y"] + top

    for at in range(STROKES):
        rings = table.evaluate("t => t.drawingTable.data.rooms[23].rings[0]")
        right = max(x for x, _ in rings)
        middle = sum(y for _, y in rings) / len(rings)
        by = 45 if at % 2 == 0 else -45
        page.mouse.move(*seen(right, middle))
        page.mouse.down()
        page.mouse.move(*seen(right + by, middle), steps=6)
        page.mouse.up()
        page.wait_for_function("count => window.taken.length > count", arg=at, timeout=20_000)
        table.evaluate(ANSWERED)
    taken = page.evaluate("window.taken")

    page.keyboard.press("Escape")
    table.locator("[data-tool=door]").click()  # so that a drag moves the paper, and nothing on it
    center = "table => table.drawingTable.paper.map.getView().getCenter()[0]"
    before = table.evaluate(center)
    frames = table.evaluate(PAN)
    assert table.evaluate(center) != before
    page.close()
    return first_page, taken, frames


def own_milliseconds():
    """Return what correcting, quoting and telling the table takes of one stroke in Python."""
    book = standard_book()
    job = usual_job(book)
    plan = runpy.run_path(str(PAGES / "sixty.py"))["plan"]()
    ground = ground_of(plan, 0)
    taken = []
    for at in range(20):
        _, top, right, bottom = ground.outline(plan.room("23")).bounds
        began = time.perf_counter()
        by = 45.0 * (-1) ** at
        plan = wall_moved(plan, "23", (right, top), (right, bottom), (by, 0.0))
        estimate(plan, book=book, job=job)
        storey_data(plan, 0, book.surfaces, Units.METRIC)
        taken.append(1000 * (time.perf_counter() - began))
    return statistics.median(taken)


def test_a_stroke_changes_the_price_while_the_client_watches(chromium, tmp_path, capsys):
    with served("bare.py", tmp_path) as address:
        rerun = bare(chromium, address)
    with served("sixty_rooms.py", tmp_path) as address:
        first_page, taken, frames = strokes(chromium, address)
    own = own_milliseconds()
    with capsys.disabled():
        print(
            f"\nstroke to price {statistics.median(taken):.0f} ms, 95th percentile "
            f"{ninety_fifth(taken):.0f} ms; bare rerun {statistics.median(rerun):.0f} ms, 95th "
            f"{ninety_fifth(rerun):.0f} ms; our Python {own:.0f} ms of a stroke "
            f"({own / statistics.median(taken):.0%}); panning {frames:.0f} frames/s; "
            f"first page {first_page:.2f} s"
        )
    assert len(taken) == STROKES
