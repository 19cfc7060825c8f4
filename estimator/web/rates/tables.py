"""The tables of the book that are edited on the page of rates: their columns, in words."""

from collections.abc import Iterator
from enum import StrEnum
from typing import Any

from attrs import frozen

from estimator.errors import EstimatorError
from estimator.price.hours import Hours
from estimator.price.rates import Per
from estimator.surfaces.schedule import Lie
from estimator.surfaces.scope import PARTS
from estimator.workflow.scopes import scope_of, scope_row, scope_words


class Kind(StrEnum):
    """What stands in a column."""

    WORDS = "words"
    SHARE = "per cent"
    AMOUNT = "amount"
    COUNT = "count"
    YES = "yes or no"
    MEASURE = "measure"
    SCOPE = "surfaces"


@frozen(kw_only=True)
class Column:
    """One key of a row.

    Parameters
    ----------
    choices
        What may stand in it; anything where there are none.
    names
        The section whose rows it names, by their labels.
    """

    key: str
    label: str
    kind: Kind = Kind.WORDS
    choices: tuple[str, ...] = ()
    names: str = ""


@frozen(kw_only=True)
class Table:
    """A section of the book as a table.

    Parameters
    ----------
    name
        The column of the rows' names.
    says
        What to know before changing it.
    more
        Whether rows may be added.
    """

    section: str
    title: str
    name: Column
    columns: tuple[Column, ...]
    says: str
    more: bool = True


_AS_SPELLED = str.maketrans({"²": "^2", "³": "^3"})

NAME = "name"
"""The key of the column that names a row."""

PREMIUMS = Table(
    section="premiums",
    title="Hours",
    name=Column(key=NAME, label="Hours", choices=tuple(Hours)),
    columns=(Column(key="share", label="Added to all labour, %", kind=Kind.SHARE),),
    says="What evening, night and weekend add to the wage, on site and on the road.",
)
TERM_DISCOUNTS = Table(
    section="term_discounts",
    title="Terms",
    name=Column(key=NAME, label="Name"),
    columns=(
        Column(key="visits", label="From so many visits", kind=Kind.COUNT),
        Column(key="discount", label="Off every visit, %", kind=Kind.SHARE),
    ),
    says="What a longer term takes off every visit; the longest row that it reaches counts.",
)
PLACES = Table(
    section="places",
    title="Taxes",
    name=Column(key=NAME, label="Place"),
    columns=(
        Column(key="label", label="Name on screen"),
        Column(key="tax", label="Tax"),
        Column(key="share", label="Rate, %", kind=Kind.SHARE),
        Column(key="on_taxes", label="On the taxes above, too", kind=Kind.YES),
    ),
    says="A line for each tax of a place, in the order they are reckoned in. A place without tax "
    "has one line with no tax in it.",
)
PRICES = Table(
    section="prices",
    title="Products",
    name=Column(key=NAME, label="Product", names="products"),
    columns=(
        Column(key="amount", label="Price", kind=Kind.AMOUNT),
        Column(key="per", label="For each", choices=tuple(Per)),
        Column(key="currency", label="Currency"),
    ),
    says="What one tablet, kilogram or litre costs. The products are rows of the book's file.",
)
PACES = Table(
    section="paces",
    title="Paces",
    name=Column(key=NAME, label="Use of the room", names="uses"),
    columns=(
        Column(key="spray", label="Sprayed", kind=Kind.MEASURE),
        Column(key="prepare", label="Prepared and undone", kind=Kind.MEASURE),
        Column(key="wipe", label="Wiped", kind=Kind.MEASURE),
        Column(key="air_changes", label="Air changes", kind=Kind.MEASURE),
    ),
    says="How fast one person works, with units: 10 m²/min; 6 s/m² of floor; 2 1/h.",
)
FILMS = Table(
    section="films",
    title="Films",
    name=Column(key=NAME, label="Surface", choices=tuple(Lie)),
    columns=(
        Column(key="volume", label="Laid in a pass", kind=Kind.MEASURE),
        Column(key="most", label="Most before it runs", kind=Kind.MEASURE),
        Column(key="loss", label="Missing the surface, %", kind=Kind.SHARE),
    ),
    says="Liquid on each area, with units: 40 mL/m². The label of the product prevails.",
    more=False,
)
OPTIONS = Table(
    section="options",
    title="Options",
    name=Column(key=NAME, label="Short name"),
    columns=(
        Column(key="label", label="Name on papers"),
        Column(key="scope", label="Covers", kind=Kind.SCOPE),
    ),
    says="Scopes that a quote may offer beside its own, at their own price; what they cover: "
    f"{', '.join(PARTS.values())}, walls to 2 m.",
)
SPREAD = (
    Column(key="film", label="Film strays by, %", kind=Kind.SHARE),
    Column(key="pace", label="Pace strays by, %", kind=Kind.SHARE),
)
"""One standard deviation each, which widens the range of every price."""

TABLES = (PREMIUMS, TERM_DISCOUNTS, PLACES, PRICES, PACES, FILMS, OPTIONS)


def shown_rows(table: Table, rows: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the rows of a section as lines of its table."""
    if table is PLACES:
        return [line for name, row in rows.items() for line in _tax_lines(name, row)]
    return [
        {NAME: name} | {column.key: _shown(column, row.get(column.key)) for column in table.columns}
        for name, row in rows.items()
    ]


def told_rows(table: Table, lines: list[dict[str, Any]]) -> dict[str, dict[str, Any]]:
    """Return the rows that the lines of a table tell; lines without a name are left out."""
    rows: dict[str, dict[str, Any]] = {}
    for line in lines:
        name = str(line.get(NAME) or "").strip()
        if not name:
            continue
        row = {column.key: told(column, line.get(column.key)) for column in table.columns}
        rows[name] = _with_tax(rows.get(name), row) if table is PLACES else row
    return rows


def misread(rows: dict[str, dict[str, Any]]) -> Iterator[str]:
    """Yield a sentence on each option whose surfaces cannot be read."""
    for row in rows.values():
        if isinstance(row["scope"], str):
            try:
                scope_of(row["scope"])
            except EstimatorError as error:
                yield str(error)


def percent(share: Any) -> float | None:
    """Return a share as per cent without the dust of binary fractions."""
    return None if share in (None, "") else round(float(share) * 100, 6)


def told(column: Column, value: Any) -> Any:
    """Return what a cell tells as the book spells it; nothing where it is empty."""
    if value in (None, ""):
        return None
    match column.kind:
        case Kind.SHARE:
            return round(float(value) / 100, 8)
        case Kind.COUNT:
            return int(value)
        case Kind.AMOUNT:
            return float(value)
        case Kind.YES:
            return bool(value)
        case Kind.MEASURE:
            return str(value).strip().translate(_AS_SPELLED)
        case Kind.SCOPE:
            return _scope(str(value))
        case Kind.WORDS:
            return str(value).strip()


def _shown(column: Column, value: Any) -> Any:
    if column.kind is Kind.MEASURE and value is not None:
        return str(value).replace("^2", "²").replace("^3", "³")
    if column.kind is Kind.SCOPE:
        return scope_words(value)
    return percent(value) if column.kind is Kind.SHARE else value


def _scope(words: str) -> Any:
    """Return a scope as the book spells it, or the words where they are none."""
    try:
        return scope_row(words)
    except EstimatorError:
        return words


def _tax_lines(name: str, row: dict[str, Any]) -> list[dict[str, Any]]:
    place = {NAME: name, "label": row.get("label")}
    taxes = row.get("taxes") or [{}]
    return [
        {
            **place,
            "tax": tax.get("label"),
            "share": percent(tax.get("share")),
            "on_taxes": tax.get("on_taxes", False),
        }
        for tax in taxes
    ]


def _with_tax(before: dict[str, Any] | None, line: dict[str, Any]) -> dict[str, Any]:
    """Return a place with the tax of one more line."""
    place = before or {"label": line["label"], "taxes": []}
    if line["tax"] is None and line["share"] is None:
        return place
    tax = {"label": line["tax"], "share": line["share"]}
    if line["on_taxes"]:
        tax["on_taxes"] = True
    named = {key: value for key, value in tax.items() if value is not None}
    return {**place, "label": place["label"] or line["label"], "taxes": [*place["taxes"], named]}
