from decimal import Decimal

import pytest

from estimator.catalogue.loader import packaged_book
from estimator.errors import BadEntries, CatalogueError
from estimator.workflow.firm_book import (
    firm_book,
    firm_folder,
    firm_rows,
    firm_text,
    keep_firm_rows,
    rows_of,
    text_of,
    usable_book,
)
from estimator.workflow.measuring import standard_book
from estimator.workflow.sketching import sketch_plan

TOLD = {"source": "Our own ledger", "as_of": "2026-11"}


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))


def test_without_a_book_of_its_own_a_firm_uses_the_packaged_one():
    assert firm_text() == ""
    assert firm_book().rates.labour_per_hour == 26


def test_rows_that_are_kept_make_the_book_from_then_on():
    made = keep_firm_rows({"rates": {"labour_per_hour": Decimal("31.10"), **TOLD}})
    assert made.rates.labour_per_hour == Decimal("31.10")
    assert standard_book() == firm_book() == made
    assert firm_rows()["rates"]["labour_per_hour"] == 31.1


def test_wrong_rows_are_all_named_and_leave_the_book_as_it_was():
    keep_firm_rows({"rates": {"burden": 0.4, **TOLD}})
    rows = {
        "rates": {"margin": 1, "overhead": "much", "place": "sea", "currency": "Dollar", **TOLD},
        "premiums": {"dawn": {"share": 0.2, **TOLD}},
        "places": {"moon": {"label": "Moon", "taxes": [{"label": "Tax"}], **TOLD}},
        "term_discounts": {"one": {"visits": 1, "discount": 0.1, **TOLD}},
    }
    with pytest.raises(BadEntries) as refused:
        keep_firm_rows(rows)
    said = str(refused.value)
    assert "8 mistakes" in said
    for part in (
        "margin: 100% of the charge",
        "place: it names sea",
        "overhead: 'much'",
        "'dawn' is none of",
        "it lacks share",
        "at least 2 visits",
    ):
        assert part in said
    assert firm_book().rates.burden == Decimal("0.4")


def test_what_is_no_book_is_refused_in_a_sentence():
    with pytest.raises(CatalogueError, match="it is not TOML"):
        rows_of("labour = = 3")
    with pytest.raises(CatalogueError, match="it is not a text file"):
        text_of(b"\xff\xfe\x00")
    with pytest.raises(CatalogueError, match="too large"):
        text_of(bytes(3_000_000))


def test_a_logo_beside_the_book_is_looked_for_there():
    assert firm_folder().name == "book"
    with pytest.raises(BadEntries, match=r"\[firm\] logo: the logo cannot be opened"):
        keep_firm_rows({"firm": {"name": "Larkfield Care", "logo": "absent.png", **TOLD}})


BROKEN = {
    "no TOML": b"[rates\nlabour",
    "wrong rows": b'[rates]\nburden = "much"\nsource = "ours"\nas_of = "2026"\n',
    "no text": b"\xff\xfe\x00rates",
    "another kind of row": b'firm = "Oak Street"\n',
}


@pytest.mark.parametrize("broken", BROKEN.values(), ids=BROKEN)
def test_a_broken_book_leaves_the_packaged_one_and_says_where_and_what(broken):
    (firm_folder() / "firm.toml").write_bytes(broken)
    book, says = usable_book()

    assert book == packaged_book()
    assert str(firm_folder()) in says
    assert "firm.toml" in says
    assert says.endswith("The packaged book is used till then.")
    assert sketch_plan("hall 5 x 2 m").rooms, "so that plans are read and drawn meanwhile"


def test_a_folder_in_the_place_of_the_book_is_told():
    (firm_folder() / "firm.toml").mkdir()
    book, says = usable_book()
    assert book == packaged_book()
    assert "firm.toml" in says


def test_a_logo_that_lacks_costs_the_logo_alone():
    rates = 'labour_per_hour = 31\nsource = "ours"\nas_of = "2026"\n'
    firm = 'name = "Oak Street"\nlogo = "gone.png"\nsource = "ours"\nas_of = "2026"\n'
    (firm_folder() / "firm.toml").write_text(f"[rates]\n{rates}[firm]\n{firm}")
    book, says = usable_book()

    assert (book.firm.name, book.firm.logo, book.rates.labour_per_hour) == ("Oak Street", None, 31)
    assert "the logo cannot be opened" in says
    assert says.endswith("Papers have no logo till then.")
    with pytest.raises(CatalogueError):
        standard_book()


def test_a_book_without_mistakes_says_nothing():
    assert usable_book() == (packaged_book(), "")
