"""The call view as a client may see it, and work that outlives the page."""

import re
from pathlib import Path

from calls import SLOWLY, add, begin_sketch, settled_on_call
from playwright.sync_api import Page, expect

INSIDE = r"\b(?:overhead|mark-?up|margin|labour|wage|discount|digest|protective wear)\b"


def text_of(page: Page) -> str:
    """Return all text and all attributes of the page but styles, those of shadow roots too."""
    return page.evaluate(
        """() => {
          const said = [];
          const walk = node => {
            if (["STYLE", "SCRIPT", "LINK"].includes(node.nodeName)) return;
            if (node.nodeType === 3) said.push(node.data);
            for (const one of node.attributes ?? [])
              if (!["class", "style", "d"].includes(one.name)) said.push(one.value);
            if (node.shadowRoot) node.shadowRoot.childNodes.forEach(walk);
            node.childNodes.forEach(walk);
          };
          walk(document.body);
          return said.join("\\n");
        }"""
    )


def told(page: Page, rooms: int) -> None:
    """Wait until the drawing table has been told of so many rooms."""
    page.wait_for_function(
        "rooms => [...document.querySelectorAll('*')].some(one => one.shadowRoot"
        "?.querySelector('.table')?.drawingTable?.data?.rooms.length === rooms)",
        arg=rooms,
        timeout=SLOWLY,
    )


def test_a_flat_is_sketched_shown_on_a_call_and_a_question_answered(drawing, tmp_path: Path):
    page = drawing.page
    page.set_viewport_size({"width": 1280, "height": 720})
    begin_sketch(page)
    page.get_by_label("Add a room as you hear it").click()
    for words in ("hall 6x1.5", "kitchen 4x3 off the hall", "bath off the hall", "2 offices 20x12"):
        add(page, words)

    page.get_by_role("button", name="Call view").click()
    expect(page.get_by_text("Likely between")).to_be_visible(timeout=SLOWLY)
    expect(page.get_by_role("button", name="Call view")).to_have_count(0, timeout=SLOWLY)
    settled_on_call(page)
    said = text_of(page)
    assert "Spraying" in said
    assert re.findall(INSIDE, said, re.IGNORECASE) == []
    assert page.locator("[data-testid=stPageLink]").count() == 0
    likely = page.get_by_text("Likely between").inner_text()
    page.get_by_text("Empty", exact=True).first.click()
    expect(page.get_by_text(likely)).to_have_count(0, timeout=SLOWLY)
    page.screenshot(path=tmp_path / "call.png")
    size = page.locator(".st-key-call-price [data-testid=stMetricValue] p").evaluate(
        "one => parseFloat(getComputedStyle(one).fontSize)"
    )
    assert size >= 48

    page.reload()
    expect(page.get_by_text("Likely between")).to_be_visible(timeout=SLOWLY)
    settled_on_call(page)
    assert re.findall(INSIDE, text_of(page), re.IGNORECASE) == []
    page.get_by_role("button", name="⋯").click()
    page.get_by_role("button", name="Back to the desk").click()
    expect(page.get_by_role("button", name="Call view")).to_be_visible(timeout=SLOWLY)


def test_work_outlives_the_page_and_its_tab(drawing, browser):
    page = drawing.page
    begin_sketch(page)
    page.get_by_label("Add a room as you hear it").click()
    add(page, "hall 6x2")
    add(page, "store 3x3 off the hall")
    told(page, 2)
    page.wait_for_url("**job=*")
    address = page.url
    page.close()
    again = browser.new_page()
    again.goto(address)
    table = again.locator(".table")
    expect(table).to_be_visible(timeout=SLOWLY)
    told(again, 2)
    names = table.evaluate("table => table.drawingTable.data.rooms.map(room => room.name)")
    assert names == ["Hall", "Store"]
    again.get_by_role("button", name="Undo").click()
    told(again, 1)
    again.close()


def test_rooms_are_typed_as_fast_as_one_can_and_refused_words_come_back(drawing):
    page = drawing.page
    begin_sketch(page)
    line = page.get_by_label("Add a room as you hear it")
    line.click()
    for words in ("hall 6x2", "bath off the hall", "store 3x3"):
        page.keyboard.type(words, delay=60)  # a fast typist: 200 words a minute
        page.keyboard.press("Enter")
    told(page, 3)
    assert drawing.rooms().keys() == {"Hall", "Bath", "Store"}
    page.keyboard.type("ballroom")
    page.keyboard.press("Enter")
    expect(page.get_by_text("it has no size")).to_be_visible(timeout=SLOWLY)
    expect(line).to_have_value("ballroom", timeout=SLOWLY)


def test_a_restarted_server_goes_on_with_the_last_stroke(browser, tmp_path, run_app, open_app):
    with run_app(tmp_path) as address:
        page = browser.new_page()
        drawing = open_app(page, address)
        begin_sketch(page)
        page.get_by_label("Add a room as you hear it").click()
        add(page, "hall 6x2")
        told(page, 1)
        drawing.tool("rectangle")
        sides = drawing.table.get_by_label("Sides")
        sides.fill("4 x 3")
        sides.press("Enter")
        told(page, 2)
        made = drawing.rooms()
        page.wait_for_url("**job=*")
        job = page.url.partition("?")[2]
        page.close()
    with run_app(tmp_path) as address:
        page = browser.new_page()
        assert open_app(page, f"{address}/?{job}").rooms() == made
        page.close()
    assert sorted(made.values()) == [12.0, 12.0]
