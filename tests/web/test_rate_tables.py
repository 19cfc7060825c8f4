import pytest

from estimator.catalogue.editing import edited
from estimator.catalogue.spelled import spelled
from estimator.web.rates.tables import (
    OPTIONS,
    PACES,
    PLACES,
    PREMIUMS,
    PRICES,
    TABLES,
    misread,
    shown_rows,
    told_rows,
)

ROWS = spelled({})
TOLD = {"source": "ours", "as_of": "2026-11"}


@pytest.mark.parametrize("table", TABLES, ids=lambda table: table.section)
def test_a_table_that_nobody_touched_changes_nothing(table):
    told = told_rows(table, shown_rows(table, ROWS[table.section]))
    assert edited({}, table.section, told, **TOLD) == {}


def changed(table, name, **cells):
    lines = shown_rows(table, ROWS[table.section])
    for line in lines:
        if line["name"] == name:
            line.update(cells)
    return edited({}, table.section, told_rows(table, lines), **TOLD)


def test_only_what_differs_is_the_firms_own():
    assert changed(PREMIUMS, "night", share=75.0) == {
        "premiums": {"night": {"share": 0.75, **TOLD}}
    }
    spelled_as = {"paces": {"kitchen": {"spray": "9.5 m^2/min", **TOLD}}}
    assert changed(PACES, "kitchen", spray="9.5 m²/min") == spelled_as
    assert changed(PRICES, "liquid_5", amount=1.25) == {
        "prices": {"liquid_5": {"amount": 1.25, **TOLD}}
    }


def test_taxes_of_a_place_are_told_together():
    lines = [
        {"name": "qc", "label": "Québec", "tax": "GST", "share": 5.0, "on_taxes": None},
        {"name": "qc", "label": None, "tax": "QST", "share": 9.5, "on_taxes": True},
        {"name": None, "label": "nobody", "tax": "x", "share": 1.0, "on_taxes": False},
    ]
    assert told_rows(PLACES, lines) == {
        "qc": {
            "label": "Québec",
            "taxes": [
                {"label": "GST", "share": 0.05},
                {"label": "QST", "share": 0.095, "on_taxes": True},
            ],
        }
    }


def test_an_empty_cell_takes_the_packaged_value_and_a_row_taken_out_comes_back():
    own = {"premiums": {"night": {"share": 0.75, **TOLD}}}
    emptied = {"night": {"share": None}, "evening": {"share": 0.25}}
    assert edited(own, "premiums", emptied, **TOLD) == {}
    assert edited(own, "premiums", {}, **TOLD) == {}


def test_a_row_that_stays_as_it_was_keeps_its_source():
    own = {"premiums": {"night": {"share": 0.75, "source": "the union", "as_of": "2025-01"}}}
    rows = {"night": {"share": 0.75}, "evening": {"share": 0.3}}
    assert edited(own, "premiums", rows, **TOLD) == {
        "premiums": {
            "night": {"share": 0.75, "source": "the union", "as_of": "2025-01"},
            "evening": {"share": 0.3, **TOLD},
        }
    }


def test_another_currency_takes_every_amount_along():
    row = {key: value for key, value in ROWS["rates"].items() if key not in TOLD}
    own = edited({}, "rates", {"": {**row, "currency": "EUR"}}, **TOLD)
    assert own["rates"] == {**row, "currency": "EUR", **TOLD}


def test_an_option_is_a_list_of_surfaces():
    scope = "floors, walls to 2 m, doors, reveals, furniture, touch points, ceilings"
    own = changed(OPTIONS, "ceilings", scope=scope)
    assert own == {
        "options": {"ceilings": {"scope": {"ceilings": True, "walls_to": "2 m"}, **TOLD}}
    }
    lines = [{"name": "roof", "label": "Roof", "scope": "roof"}]
    (says,) = misread(told_rows(OPTIONS, lines))
    assert says.startswith("“roof”: it is no surface; choose among floors")
