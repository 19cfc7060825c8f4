"""From three sites to what is learned of one: quoted, compared, explained, sent, visited."""

import re
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from calls import SLOWLY
from playwright.sync_api import Page, expect

CLIENT, ADDRESS = "Larkfield Trust", "14 Mill Lane"
SITES = {
    "Family home": "",
    "Village hall": "Hall 12 x 8 m, kitchen 4 x 3 m",
    "Annex": "Office 6 x 4 m, store 3 x 2 m",
}


@pytest.fixture
def app(run_app, tmp_path, empty_database, monkeypatch):
    """Run the app on each kind of database in turn, and yield its address."""
    if empty_database.get_backend_name() == "sqlite":
        Path(empty_database.database).parent.mkdir(exist_ok=True)
    monkeypatch.setenv("DATABASE_URL", empty_database.render_as_string(hide_password=False))
    with run_app(tmp_path) as address:
        yield address


def to(page: Page, name: str) -> None:
    page.get_by_role("link", name=name, exact=True).click()


def settled(page: Page) -> None:
    """Wait until the page has answered, also where it has not begun to yet."""
    page.wait_for_timeout(200)
    expect(page.locator("[data-testid=stApp]")).to_have_attribute(
        "data-test-script-state", "notRunning", timeout=SLOWLY
    )


def fill(page: Page, label: str, words: str) -> None:
    """Fill a field and leave it, which is when the app hears of it."""
    field = page.get_by_label(label, exact=True).first
    field.fill(words)
    field.press("Tab")
    settled(page)


def kept(page: Page, site: str, *, client_is_new: bool) -> str:
    """Keep the work on the screen as a quote of a new site and return its price."""
    to(page, "Sites")
    expect(page.get_by_role("heading", name="Keep this work")).to_be_visible(timeout=SLOWLY)
    settled(page)
    if client_is_new:
        fill(page, "Name of the client", CLIENT)
        fill(page, "Address of the client", ADDRESS)
    else:
        page.get_by_role("combobox", name="Client").click()
        page.get_by_role("option", name=CLIENT).click()
        settled(page)
    fill(page, "Name of the site", site)
    page.get_by_role("button", name="Keep as a quote").click()
    expect(page.get_by_text("Kept as version 1 of a new quote.")).to_be_visible(timeout=SLOWLY)
    settled(page)
    row = page.locator("[class*=st-key-quote-row-]").filter(has_text=site)
    return row.locator(".cells > :last-child").inner_text()


def taken(page: Page) -> bytes:
    """Take the version that is open in the list as PDF."""
    with page.expect_download(timeout=SLOWLY) as downloading:
        page.get_by_role("button", name="PDF", exact=True).click()
    return Path(downloading.value.path()).read_bytes()


def read_and_seen(pdf: bytes) -> list[str]:
    """Return the text of each page, which must show ink, and none of it beyond the margins."""
    document = pypdfium2.PdfDocument(pdf)
    try:
        for page in document:
            seen = np.asarray(page.render().to_pil().convert("L"))
            assert seen[20:-20, 20:-20].min() < 100
            for edge in (seen[:12], seen[-12:], seen[:, :12], seen[:, -12:]):
                assert edge.min() == 255
        return [" ".join(page.get_textpage().get_text_range().split()) for page in document]
    finally:
        document.close()


def test_three_sites_are_quoted_compared_sent_visited_and_learned_from(
    app: str, page: Page, open_app
):
    drawing = open_app(page, app)
    prices = {}
    for site, rooms in SITES.items():
        if rooms:
            to(page, "Plan")
            expect(drawing.sheet).to_be_visible(timeout=SLOWLY)
            drawing.type_rooms(rooms)
            settled(page)
        prices[site] = kept(page, site, client_is_new=not rooms)
    assert len(set(prices.values())) == 3

    to(page, "Compare")
    expect(page.get_by_role("heading", name="Why two of them differ")).to_be_visible(timeout=SLOWLY)
    assert drawing.figure("Quotes") == "3"
    expect(page.get_by_text("Each step is what its cause adds")).to_be_visible(timeout=SLOWLY)
    expect(page.get_by_text(re.compile("costs .* (more|less) than")).first).to_be_visible()
    settled(page)

    to(page, "Sites")
    rows = page.locator("[class*=st-key-quote-row-]")
    row = rows.get_by_role("button", name="Alder House, ground floor")
    expect(row).to_be_visible(timeout=SLOWLY)
    row.click()
    expect(page.get_by_role("button", name="PDF", exact=True)).to_be_visible(timeout=SLOWLY)
    settled(page)
    draft = taken(page)
    pages = read_and_seen(draft)
    assert len(pages) == 2
    for words in (CLIENT, ADDRESS, "Family home", prices["Family home"], "version 1"):
        assert words in pages[0], words
    page.get_by_role("radio", name="Sent").click()
    settled(page)
    assert taken(page) == draft

    to(page, "Write down what a visit took →")
    expect(page.get_by_role("heading", name="Outcomes")).to_be_visible(timeout=SLOWLY)
    fill(page, "Minutes on site", "190")
    for at in range(page.get_by_label("Minutes", exact=True).count()):
        page.get_by_label("L sprayed", exact=True).nth(at).fill("3")
        page.get_by_label("Minutes", exact=True).nth(at).fill("20")
    page.get_by_role("button", name="Save what it took").click()
    expect(page.get_by_text("Saved.")).to_be_visible(timeout=SLOWLY)
    to(page, "Look at it beside the quote →")
    expect(page.get_by_text("3 h 10 min on site")).to_be_visible(timeout=SLOWLY)

    to(page, "Outcomes")
    page.get_by_text("Estimate and actual").click()
    offered = page.get_by_role("heading", name="Change offered to the book")
    expect(offered).to_be_visible(timeout=SLOWLY)
    expect(page.get_by_text("more time than the book says").first).to_be_visible()
    expect(page.get_by_role("button", name="Take this over into the book")).to_be_visible()
