"""The rates as they are being edited: kept while the page is left, told as rows of the book."""

from typing import Any, cast

import pandas as pd
import streamlit as st
from attrs import Factory, define

from estimator.catalogue.editing import edited
from estimator.catalogue.spelled import spelled
from estimator.catalogue.writing import toml_text
from estimator.web.rates.fields import rates_fields, spread_fields
from estimator.web.rates.tables import (
    OPTIONS,
    PLACES,
    TABLES,
    Column,
    Kind,
    Table,
    misread,
    shown_rows,
    told_rows,
)
from estimator.web.wording import plain
from estimator.workflow.firm_book import Rows, firm_text, rows_of
from estimator.workflow.rates import this_month

USUAL_SOURCE = "Our own figures"

Lines = list[dict[str, Any]]


@define(kw_only=True, eq=False)
class Sheet:
    """What was typed so far.

    Parameters
    ----------
    after
        The firm's text that it was changed from.
    own
        The firm's rows in that text.
    labels
        What rows that others name are called, by section.
    lines
        The tables as they are shown at first, by section.
    singles
        The fields as they are shown at first, by section.
    now
        The rows of every section as they stand.
    edition
        Counts beginnings, so that fields start anew.
    """

    after: str
    own: Rows
    labels: dict[str, dict[str, str]]
    lines: dict[str, Lines]
    singles: dict[str, dict[str, Any]]
    now: dict[str, Any] = Factory(dict)
    source: str = USUAL_SOURCE
    edition: int = 0

    def key(self, name: str) -> str:
        """Return the key of a field."""
        return f"rates-{name}-{self.edition}"

    @property
    def text(self) -> str:
        """The firm's file as it would be kept; the one there is where nothing was changed."""
        rows: Any = self.own
        for section, content in self.now.items():
            told = {"source": self.source.strip() or USUAL_SOURCE, "as_of": this_month()}
            rows = edited(rows, section, content, **told)
        return self.after if rows == self.own else toml_text(rows)

    def lay_over(self, text: str) -> None:
        """Lay what was typed over another text of the firm's in place of the one there was."""
        self.after, self.own = text, rows_of(text)


def sheet() -> Sheet:
    """Return the sheet of this browser tab; a page come back to shows what was typed there.

    Raises
    ------
    CatalogueError
        When the firm's file is no TOML.
    """
    found = cast(Sheet | None, st.session_state.get(_KEY))
    latest = firm_text()
    if found is None or (latest != found.after and found.text == found.after):
        return begin_anew(latest)
    if latest != found.after and not _others_changed(found, rows_of(latest)):
        found.lay_over(latest)
    if found.now and found.key("source") not in st.session_state:
        found.edition += 1
        found.lines = {
            table.section: shown_rows(table, found.now[table.section]) for table in TABLES
        }
        found.singles = {section: dict(found.now[section][""]) for section in found.singles}
    return found


def begin_anew(after: str, *, text: str | None = None) -> Sheet:
    """Show the rows of a text, changed from the firm's own or that itself.

    Raises
    ------
    CatalogueError
        When the text is no TOML.
    """
    before = cast(Sheet | None, st.session_state.get(_KEY))
    own = rows_of(after if text is None else text)
    rows = spelled(own)
    made = Sheet(
        after=after,
        own=own,
        labels={
            section: {name: str(row.get("label", name)) for name, row in rows[section].items()}
            for section in ("uses", "products")
        },
        lines={table.section: shown_rows(table, rows[table.section]) for table in TABLES},
        singles={section: dict(rows[section]) for section in ("rates", "spread")},
        edition=before.edition + 1 if before else 0,
    )
    st.session_state[_KEY] = made
    return made


def edit(made: Sheet) -> None:
    """Show every field and table of a sheet, and take what was typed."""
    tabs = st.tabs(["Rates", *(table.title for table in TABLES), "Spread"])
    for tab, table in zip(tabs[1:-1], TABLES, strict=True):
        with tab:
            st.caption(table.says)
            lines = _table(made, table)
            made.now[table.section] = told_rows(table, lines)
            if table is OPTIONS:
                for says in misread(made.now[table.section]):
                    st.error(plain(says))
    with tabs[0]:
        places = {slug: row.get("label") or slug for slug, row in made.now[PLACES.section].items()}
        made.now["rates"] = {"": rates_fields(made.singles["rates"], places, made.key)}
    with tabs[-1]:
        made.now["spread"] = {"": spread_fields(made.singles["spread"], made.key)}


def _others_changed(made: Sheet, latest: Rows) -> bool:
    """Whether somebody else changed what is edited here, and not only what lies beside it."""
    return any(latest.get(section) != made.own.get(section) for section in made.now)


_KEY = "rates-sheet"

_TYPES = {
    Kind.WORDS: "object",
    Kind.MEASURE: "object",
    Kind.SCOPE: "object",
    Kind.SHARE: "float64",
    Kind.AMOUNT: "float64",
    Kind.COUNT: "Int64",
    Kind.YES: "boolean",
}
"""Each can hold an empty cell."""


def _table(made: Sheet, table: Table) -> Lines:
    columns = (table.name, *table.columns)
    given = pd.DataFrame(
        {
            column.key: pd.Series(
                [line.get(column.key) for line in made.lines[table.section]],
                dtype=_TYPES[column.kind],
            )
            for column in columns
        }
    )
    found = st.data_editor(
        given,
        key=made.key(table.section),
        hide_index=True,
        num_rows="dynamic" if table.more else "fixed",
        disabled=() if table.more else (table.name.key,),
        column_config={
            column.key: _config(column, made.labels.get(column.names, {})) for column in columns
        },
        placeholder="–",
        height="content",
        row_height=36,
    )
    lines: Lines = found.astype(object).where(found.notna(), None).to_dict("records")
    return lines


def _config(column: Column, labels: dict[str, str]) -> Any:
    if column.names:
        every = {"*": "every other"} if column.names == "uses" else {}
        named = every | labels
        return st.column_config.SelectboxColumn(
            column.label,
            options=list(named),
            format_func=lambda name: named.get(str(name), str(name)),
        )
    if column.choices:
        return st.column_config.SelectboxColumn(column.label, options=list(column.choices))
    match column.kind:
        case Kind.SHARE:
            return st.column_config.NumberColumn(column.label, min_value=0.0, format="%.4g")
        case Kind.AMOUNT:
            return st.column_config.NumberColumn(column.label, min_value=0.0, format="%.2f")
        case Kind.COUNT:
            return st.column_config.NumberColumn(column.label, min_value=0, step=1)
        case Kind.YES:
            return st.column_config.CheckboxColumn(column.label)
        case Kind.WORDS | Kind.MEASURE | Kind.SCOPE:
            return st.column_config.TextColumn(column.label)
