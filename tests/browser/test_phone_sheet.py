"""The work sheet on a phone: without a network, in one column, and nothing ticked is lost."""

from pathlib import Path

import pytest
from clinic import clinic
from playwright.sync_api import Browser, expect

from estimator.documents.worksheet_html import worksheet_html
from estimator.quantities import Units
from estimator.workflow.quoting import estimate


@pytest.fixture(scope="module")
def sheet(tmp_path_factory) -> Path:
    path = tmp_path_factory.mktemp("sheet") / "crew.html"
    plan = clinic()
    quote = estimate(plan, date="2026-11-25")
    path.write_text(worksheet_html(plan, quote, Units.METRIC), "utf-8")
    return path


def test_a_crew_works_with_it_offline(browser: Browser, sheet: Path, tmp_path: Path):
    phone = browser.new_context(
        viewport={"width": 390, "height": 844}, offline=True, has_touch=True, is_mobile=True
    )
    page = phone.new_page()
    said: list[str] = []
    page.on("console", lambda message: said.append(message.text))
    page.on("pageerror", lambda error: said.append(str(error)))
    page.goto(sheet.as_uri())
    wide, window = page.evaluate("[document.documentElement.scrollWidth, innerWidth]")
    assert wide <= window == 390

    page.get_by_label("Arrived at").fill("08:30")
    first = page.locator(".card[data-stop]").first
    expect(first.locator("time").first).to_have_text(" (8:57)")
    first.get_by_label("Unmasked").tap()
    first.get_by_label("Really sprayed").fill("=2.5 L")
    page.reload()
    expect(first.get_by_label("Unmasked")).to_be_checked()
    expect(first).to_have_class("card finished")

    with page.expect_download() as waiting:
        page.get_by_role("button", name="Save what was used").tap()
    waiting.value.save_as(tmp_path / "used.csv")
    rows = (tmp_path / "used.csv").read_text("utf-8-sig").splitlines()
    assert rows[0] == '"what","field","value"'
    assert any(row.endswith('"really sprayed","\'=2.5 L"') for row in rows)
    assert said == []
    phone.close()
