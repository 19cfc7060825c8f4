import re
from pathlib import Path

from playwright.sync_api import Page, expect

from estimator.workflow.samples import samples

PICTURES = [sample.picture for sample in samples() if sample.picture.suffix == ".png"][:2]


def test_many_plans_go_on_after_the_server_was_restarted(page: Page, run_app, tmp_path: Path):
    typed = tmp_path / "annex.txt"
    typed.write_text("hall 12 x 8 m, office 4 x 3 m")
    empty = tmp_path / "empty.txt"
    empty.write_text("nothing of use")
    some = re.compile("[23] of 4 plans, 1 without a price")
    with run_app(tmp_path) as address:
        page.goto(f"{address}/many")
        page.locator("input[type=file]").set_input_files([typed, empty, *PICTURES])
        page.get_by_role("button", name="Work out 4 plans").click()
        expect(page.get_by_text(some)).to_be_visible(timeout=60_000)
        # The page stays usable while the pictures are read.
        page.get_by_role("link", name="Quote").click()
        expect(page.get_by_text("What the quote assumes")).to_be_visible(timeout=20_000)

    with run_app(tmp_path) as address:
        page.goto(f"{address}/many")
        expect(page.get_by_text("4 of 4 plans, 1 without a price")).to_be_visible(timeout=90_000)
        expect(page.get_by_text("empty.txt: “nothing of use”")).to_be_visible()
        with page.expect_download() as downloading:
            page.get_by_role("button", name="Download results.csv").click()
        text = Path(downloading.value.path()).read_text("utf-8-sig")

    assert [line.split(",")[:2] for line in text.splitlines()[1:]] == [
        ["annex.txt", "quoted"],
        ["empty.txt", "failed"],
        *([picture.name, "quoted"] for picture in PICTURES),
    ]
