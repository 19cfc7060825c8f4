from decimal import Decimal

import pytest

from estimator.errors import BadEntries, CatalogueError
from estimator.workflow.firm_book import (
    firm_book,
    firm_folder,
    firm_rows,
    firm_text,
    keep_firm_rows,
    rows_of,
    text_of,
)
from estimator.workflow.measuring import standard_book

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
