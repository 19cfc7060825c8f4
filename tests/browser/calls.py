"""What somebody on a call does with the app, for several tests."""

from playwright.sync_api import Page, expect

SLOWLY = 30_000  # milliseconds that a busy machine may take


def begin_sketch(page: Page) -> None:
    page.get_by_role("button", name="Open a plan").click()
    page.get_by_role("button", name="Begin an empty sketch").click()
    expect(page.get_by_text("it has no rooms")).to_be_visible(timeout=SLOWLY)
    _drawn_to_its_end(page)
    expect(page.get_by_label("Add a room as you hear it")).to_have_count(1, timeout=SLOWLY)


def add(page: Page, words: str, price: str = "$") -> None:
    """Type a line at the keyboard alone; the field must be empty and focused for the next."""
    line = page.get_by_label("Add a room as you hear it")
    page.keyboard.type(words)
    page.keyboard.press("Enter")
    expect(line).to_have_value("", timeout=SLOWLY)
    expect(line).to_be_focused()
    figure = page.locator("[data-testid=stMetricValue]").filter(has_text=price)
    expect(figure).to_be_visible(timeout=SLOWLY)


def settled_on_call(page: Page) -> None:
    """Wait until the page has been drawn to its end, and what stood there before is gone."""
    expect(page.get_by_role("button", name="⋯")).to_be_visible(timeout=SLOWLY)
    expect(page.locator("[data-testid=stDownloadButton]")).to_have_count(1, timeout=SLOWLY)
    _drawn_to_its_end(page)


def _drawn_to_its_end(page: Page) -> None:
    expect(page.locator("[data-testid=stApp]")).to_have_attribute(
        "data-test-script-state", "notRunning", timeout=SLOWLY
    )
