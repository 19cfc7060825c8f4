import json

import numpy as np
import pypdfium2
import pytest
from openpyxl import load_workbook
from PIL import Image

from estimator.cli.main import main
from estimator.workflow.samples import samples

HOME = next(sample for sample in samples() if "family home" in sample.title)


@pytest.fixture(autouse=True)
def folder(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    return tmp_path


def run(*arguments):
    return main([str(argument) for argument in arguments])


def refused(capsys, *arguments):
    """Run a command that must end with status 2 and one sentence; return the sentence."""
    assert run(*arguments) == 2
    sentence = capsys.readouterr().err
    assert sentence.count("\n") == 1
    assert sentence.strip().endswith(".")
    return sentence


def test_a_picture_becomes_a_plan_of_its_true_size_and_an_overlay(folder, capsys):
    between = ["--between", "140,60", "1488,60", "13.48 m"]  # printed along its upper edge
    assert run("read", HOME.picture, "-o", "p.json", "--overlay", "o.png", *between) == 0

    plan = json.loads((folder / "p.json").read_text())
    truth = HOME.truth()
    assert plan["schema"] == "plan/1"
    with Image.open("o.png") as overlay:
        assert (plan["source"]["width_px"], plan["source"]["height_px"]) == overlay.size
    assert len(plan["rooms"]) == len(truth.rooms)
    assert plan["scale"]["metres_per_px"] == pytest.approx(truth.scale.metres_per_px, rel=0.01)
    assert "9 rooms" in capsys.readouterr().out


def test_a_known_floor_area_sizes_a_plan(capsys):
    area = sum(room.outline.area for room in HOME.truth().rooms)
    run("read", HOME.picture, "-o", "p.json", "--floor-area", f"{area:.2f} m²")
    assert f"{area:.1f} m² of floor by a total of" in capsys.readouterr().out


def test_typed_rooms_become_a_quote_with_all_its_papers(folder, capsys):
    assert (
        run("sketch", "2 offices 4 x 3 m, corridor 8 x 1.5 m, ceilings 9 ft", "-o", "p.json") == 0
    )
    papers = ["--json", "q.json", "--pdf", "q.pdf", "--worksheet", "w.pdf"]
    tables = ["--csv", "s.csv", "--xlsx", "q.xlsx"]
    assert run("quote", "p.json", *papers, *tables, "--date", "2026-11-25") == 0

    said = capsys.readouterr().out
    quote = json.loads((folder / "q.json").read_text())
    assert quote["schema"] == "quote/1"
    assert "floor          36 m²" in said
    for pdf in ("q.pdf", "w.pdf"):
        page = pypdfium2.PdfDocument(folder / pdf)[0].get_textpage().get_text_bounded()
        assert "Office 1" in page
    assert run("quote", "p.json", "--worksheet", "w.html") == 0
    assert "<h3>Office 1</h3>" in (folder / "w.html").read_text("utf-8")
    assert (folder / "s.csv").stat().st_size > 500
    assert (folder / "q.xlsx").stat().st_size > 5000


def test_two_plans_are_two_storeys(capsys):
    run("sketch", "hall 4 x 3 m", "-o", "a.json")
    run("sketch", "hall 5 x 3 m", "-o", "b.json")
    run("quote", "a.json", "b.json")
    assert "floor          27 m²" in capsys.readouterr().out


def test_papers_are_written_in_the_clients_language_on_the_paper_asked_for(folder):
    run("sketch", "Office 5 x 4 m", "-o", folder / "plan.json")
    pdf, book = folder / "devis.pdf", folder / "devis.xlsx"
    asked = ("--language", "fr", "--paper", "Letter", "--units", "metric")
    assert run("quote", folder / "plan.json", *asked, "--pdf", pdf, "--xlsx", book) == 0

    document = pypdfium2.PdfDocument(pdf.read_bytes())
    text, size = document[0].get_textpage().get_text_range(), document[0].get_size()
    document.close()
    assert "DEVIS" in text
    assert "20 m²" in text
    assert size == (612, 792)  # letter, 8.5 × 11 in at 72 points
    assert "Surfaces" in load_workbook(book).sheetnames


def test_a_firms_book_changes_the_price_and_its_mistakes_are_all_named(folder, capsys):
    run("sketch", "hall 4 x 3 m", "-o", "a.json")
    (folder / "dear.toml").write_text(
        '[rates]\nminimum_charge = 1000.00\nsource = "ours"\nas_of = "2026-11"\n'
    )
    (folder / "bad.toml").write_text(
        '[rates]\noverhead = "much"\nbonus = 1\nsource = "x"\nas_of = "x"\n'
    )
    run("quote", "a.json", "--book", "dear.toml")
    assert "$1,070.00 with tax" in capsys.readouterr().out
    sentence = refused(capsys, "quote", "a.json", "--book", "bad.toml")
    assert "2 mistakes" in sentence
    assert "overhead" in sentence
    assert "bonus" in sentence


def test_what_is_agreed_changes_the_price_and_is_told(folder, capsys):
    run("sketch", "hall 8 x 6 m", "-o", "a.json")
    agreed = ("--hours", "night", "--visits", "12", "--every", "month", "--place", "exempt")
    options = ("--option", "floors, touch points", "--option", "floors, walls to 2 m")
    run("quote", "a.json", "--distance", "12 km", "--drive", "20 min", *agreed, *options,
        "--discount", "90", "--range", "--date", "2026-11-25", "--json", "q.json")  # fmt: skip
    said = capsys.readouterr().out
    quote = json.loads((folder / "q.json").read_text())

    assert "12 visits, one every month: $" in said
    assert "valid until    2026-12-25" in said
    assert said.count("  option  ") == 3
    assert "for the firm alone:\n  - The charge of USD 180.00 is USD" in said
    kinds = {line["kind"]: line for line in quote["price"]["costs"] + quote["price"]["additions"]}
    assert kinds["vehicle"]["quantity"] == "24.0"
    assert {"premium", "term discount", "discount"} <= set(kinds)
    assert quote["price"]["taxes"] == []
    assert quote["terms"] | {"deposit": 0, "term_total": 0} == {
        "valid_until": "2026-12-25",
        "deposit": 0,
        "visits": 12,
        "every": "month",
        "term_total": 0,
        "term_discount": "0.1",
        "fixed": False,
    }
    assert [option["name"] for option in quote["options"]][1:] == [
        "Without walls, doors, reveals and furniture",
        "With walls to 2 m, without doors, reveals, furniture and touch points",
    ]


def blank(path):
    Image.new("RGB", (400, 300), "white").save(path)


def noise(path):
    pixels = np.random.default_rng(1).integers(0, 255, (300, 400, 3), dtype=np.uint8)
    Image.fromarray(pixels).save(path)


def tiny(path):
    Image.new("RGB", (1, 1)).save(path)


@pytest.mark.parametrize("draw", [blank, noise, tiny])
def test_a_picture_without_a_plan_is_refused_and_writes_nothing(folder, capsys, draw):
    draw(folder / "x.png")
    assert "x.png" in refused(capsys, "read", "x.png", "-o", "p.json")
    assert not (folder / "p.json").exists()


@pytest.mark.parametrize(
    ("arguments", "part"),
    [
        (["read", "missing.png", "-o", "p.json"], "missing.png"),
        (["quote", "missing.json"], "cannot be opened"),
        (["quote", "text.json"], "it is not JSON"),
        (["quote", "other.json"], "it is not a plan/1 document"),
        (["quote", "plan.json", "--crew", "0"], "crew"),
        (["quote", "plan.json", "--walls-to", "2"], "unit"),
        (["quote", "plan.json", "--product", "elixir"], "no such product"),
        (["quote", "plan.json", "--place", "atlantis"], "which taxes are charged there"),
        (["quote", "plan.json", "--visits", "0"], "visits: there are 0"),
        (["quote", "plan.json", "--discount", "some"], "it is no per cent"),
        (["quote", "plan.json", "--option", "floors, roofs"], "“roofs”: it is no surface"),
        (["quote", "plan.json", "--pdf", "no/folder/q.pdf"], "cannot be written"),
        (["sketch", "ballroom", "-o", "p.json"], "ballroom"),
        (["read", "plan.json", "-o", "p.json", "--between", "1;2", "3,4", "1 m"], "1;2"),
        (["read", "plan.json", "-o", "p.json", "--drawn-at", "half"], "half"),
    ],
)
def test_what_cannot_be_used_is_refused_in_one_sentence(folder, capsys, arguments, part):
    (folder / "text.json").write_text("hello")
    (folder / "other.json").write_text("{}")
    run("sketch", "hall 4 x 3 m", "-o", "plan.json")
    capsys.readouterr()
    assert part in refused(capsys, *arguments)


def test_a_plan_without_a_size_asks_for_one(folder, capsys):
    room = {"id": "a", "name": "Hall", "outline_px": [[0, 0], [9, 0], [9, 9]], "outline": None}
    (folder / "p.json").write_text(json.dumps({"schema": "plan/1", "rooms": [room]}))
    assert "Hall" in refused(capsys, "quote", "p.json")
