"""The app in a real browser: the system's Chromium, or the one that CHROMIUM names."""

import os
import re
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Locator, Page, expect
from serving import free_port, wait_for

_NAMES = ("chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome")


@pytest.fixture(scope="session")
def browser_type_launch_args(browser_type_launch_args, lacking):
    named = os.environ.get("CHROMIUM")
    found = named or next((path for name in _NAMES if (path := shutil.which(name))), None)
    if found is None:
        lacking("There is no Chromium: install it (apt-get install chromium) or set CHROMIUM.")
    return {**browser_type_launch_args, "executable_path": found, "args": ["--no-sandbox"]}


@pytest.fixture(scope="session")
def browser_context_args(browser_context_args):
    return {**browser_context_args, "viewport": {"width": 1440, "height": 900}}


@contextmanager
def running(folder: Path) -> Iterator[str]:
    """Run the app that keeps its data in a folder, and yield its address."""
    port = free_port()
    environment = os.environ | {"XDG_DATA_HOME": str(folder), "HOME": str(folder)}
    command = [sys.executable, "-m", "estimator.web", f"--server.port={port}"]
    with Path(folder / "app.log").open("ab") as log:
        app = subprocess.Popen(
            [*command, "--server.headless=true"], env=environment, stdout=log, stderr=log
        )
        try:
            wait_for(port)
            yield f"http://localhost:{port}"
        finally:
            app.terminate()
            app.wait(timeout=20)


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """Yield the address of a running app that keeps its data in a folder of the tests."""
    with running(tmp_path_factory.mktemp("app")) as address:
        yield address


@pytest.fixture
def run_app() -> Callable[[Path], AbstractContextManager[str]]:
    """Run an app of the test's own in a folder."""
    return running


@pytest.fixture
def open_app() -> Callable[[Page, str], "Drawing"]:
    """Open the app at an address."""
    return _opened


class Drawing:
    """The drawing table as somebody at the screen sees and uses it."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.table: Locator = page.locator(".table")
        self.sheet: Locator = page.locator(".table .sheet")
        self.callout: Locator = page.locator(".table .callout")

    def rooms(self) -> dict[str, float]:
        """Return the floor area of each room as Python last told it, in m²."""
        told = self.table.evaluate(
            "table => table.drawingTable.data.rooms.map(room => [room.name, room.area])"
        )
        return {name: float(re.sub(r"[^\d.]", "", area)) for name, area in told}

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return where a place of the plan is seen on the page."""
        left, top = self.table.evaluate(
            "(table, place) => table.drawingTable.paper.pixel(place)", [x, y]
        )
        box = self.sheet.bounding_box()
        assert box is not None
        return box["x"] + left, box["y"] + top

    def tool(self, name: str) -> None:
        self.page.locator(f"[data-tool={name}]").click()

    def click(self, x: float, y: float) -> None:
        self.page.mouse.click(*self.at(x, y))

    def drag(self, start: Sequence[float], end: Sequence[float]) -> None:
        self.page.mouse.move(*self.at(*start))
        self.page.mouse.down()
        middle = [(a + b) / 2 for a, b in zip(start, end, strict=True)]
        self.page.mouse.move(*self.at(*middle), steps=4)
        self.page.mouse.move(*self.at(*end), steps=4)
        self.page.mouse.up()

    def settled(self) -> None:
        """Wait until Python has answered everything that was drawn."""
        self.page.wait_for_function(
            "() => { const [host] = [...document.querySelectorAll('*')].filter(one =>"
            " one.shadowRoot?.querySelector('.table'));"
            " const table = host?.shadowRoot.querySelector('.table').drawingTable;"
            " return table?.data && table.outbox.isEmpty && !table.later; }"
        )

    def type_rooms(self, words: str) -> None:
        """Begin anew with typed rooms."""
        self.page.get_by_role("button", name="Open a plan").click()
        self.page.get_by_label("Rooms as you would say them").fill(words)
        self.page.get_by_role("button", name="Lay out these rooms").click()
        first = words.split()[0]
        self.page.wait_for_function(
            "name => [...document.querySelectorAll('*')].some(one => one.shadowRoot"
            "?.querySelector('.table')?.drawingTable?.data?.rooms[0]?.name.startsWith(name))",
            arg=first,
        )
        self.sheet.scroll_into_view_if_needed()
        self.page.wait_for_timeout(150)  # the view is fitted in the next frame

    def figure(self, label: str) -> str:
        """Return a figure of the strip of totals."""
        strip = self.page.locator("[data-testid=stMetric]").filter(has_text=label)
        return strip.locator("[data-testid=stMetricValue]").inner_text()


class Finger:
    """Touches of a screen, as the browser gets them from its device."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.device = page.context.new_cdp_session(page)

    def tap(self, place: Sequence[float]) -> None:
        self.page.touchscreen.tap(*place)

    def drag(self, *ways: Sequence[Sequence[float]]) -> None:
        """Drag one finger or several, each from its first place to its last."""
        self._touch("touchStart", [way[0] for way in ways])
        for step in range(1, 9):
            self._touch("touchMove", [_between(way[0], way[-1], step / 8) for way in ways])
        self._touch("touchEnd", [])

    def _touch(self, kind: str, places: Sequence[Sequence[float]]) -> None:
        points = [{"x": x, "y": y, "id": at} for at, (x, y) in enumerate(places)]
        self.device.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": points})


def _between(start: Sequence[float], end: Sequence[float], share: float) -> list[float]:
    return [a + share * (b - a) for a, b in zip(start, end, strict=True)]


@pytest.fixture
def drawing(page: Page, server: str) -> Drawing:
    """The app with its first sample on the table."""
    return _opened(page, server)


@pytest.fixture
def tablet(browser: Browser, server: str) -> Iterator[Drawing]:
    """The same on a tablet without a mouse."""
    context = browser.new_context(
        viewport={"width": 820, "height": 1180}, has_touch=True, is_mobile=True
    )
    yield _opened(context.new_page(), server)
    context.close()


@pytest.fixture
def finger(tablet: Drawing) -> Finger:
    return Finger(tablet.page)


def _opened(page: Page, server: str) -> Drawing:
    page.goto(server)
    drawing = Drawing(page)
    expect(drawing.sheet).to_be_visible(timeout=60_000)
    drawing.settled()
    page.wait_for_timeout(150)
    return drawing
