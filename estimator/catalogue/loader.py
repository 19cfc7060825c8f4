"""The book from its data files: the packaged ones, then the firm's, then the job's.

A row given again changes only the keys it names; it must say its own source and date, and the
source of the row before is kept beside it for the keys that still come from there.
"""

import tomllib
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

from attrs import asdict, evolve, frozen

from estimator.catalogue.entries import Mistake, Unreadable, fields, keyed, lacking, made
from estimator.catalogue.logo import logo_file
from estimator.catalogue.overlaying import Row, left_in_another_currency, over
from estimator.catalogue.references import dangling
from estimator.errors import BadEntries, CatalogueError, EstimatorError
from estimator.estimation.book import Book
from estimator.estimation.spread import Spread
from estimator.price.hours import Premium
from estimator.price.rates import ProductPrice, Rates
from estimator.price.recurrence import TermDiscount
from estimator.price.taxes import TaxPlace
from estimator.quantities import declared_strength
from estimator.quantities.counted import counted
from estimator.quote.firm import Firm
from estimator.surfaces.book import SurfaceBook, UsualOpening
from estimator.surfaces.furniture import FurnitureKind
from estimator.surfaces.uses import RoomUse
from estimator.surfaces.usual_option import UsualOption
from estimator.treatment.air import Air
from estimator.treatment.film import Film
from estimator.treatment.measuring import Measuring
from estimator.treatment.product import Form, Product
from estimator.treatment.zone import Zone
from estimator.treatment.zoning import ZoneRule
from estimator.visit.equipment import Pace, SiteTimes, Sprayer, WorkingTime
from estimator.visit.precautions import Precaution


@frozen
class Section:
    """A section of a data file: what its rows are, and the key their name stands for."""

    kind: type
    named: str


TABLES = {
    "uses": Section(RoomUse, "slug"),
    "furniture": Section(FurnitureKind, "slug"),
    "openings": Section(UsualOpening, "kind"),
    "zones": Section(Zone, "slug"),
    "zoning": Section(ZoneRule, "slug"),
    "films": Section(Film, "lie"),
    "products": Section(Product, "slug"),
    "sprayers": Section(Sprayer, "slug"),
    "paces": Section(Pace, "use"),
    "precautions": Section(Precaution, "slug"),
    "prices": Section(ProductPrice, "product"),
    "premiums": Section(Premium, "hours"),
    "term_discounts": Section(TermDiscount, "slug"),
    "places": Section(TaxPlace, "slug"),
    "options": Section(UsualOption, "slug"),
}
"""Sections of many rows: ``[furniture.desk]``."""

SINGLE = {
    "air": Air,
    "measuring": Measuring,
    "site_times": SiteTimes,
    "working_time": WorkingTime,
    "spread": Spread,
    "rates": Rates,
    "firm": Firm,
}
"""Sections that are one row: ``[rates]``."""

_RATES_PARTS = {
    "products": "prices",
    "premiums": "premiums",
    "term_discounts": "term_discounts",
    "places": "places",
}
"""Keys of the rates that are sections of their own."""

WHOLE = {"firm"}
"""Sections that a further file replaces: no firm sends papers with another's address."""


@frozen
class _File:
    """A data file: its name, what it says, and how a logo beside it is read."""

    name: str
    text: str
    logo: Callable[[str], bytes]


@frozen
class _Found:
    """A row read so far: its values, and the last file that said anything about it."""

    file: str
    values: Row


Place = tuple[str, str]
"""A section and the name of a row in it; the name of a single row is empty."""


@cache
def packaged_book() -> Book:
    """Return the book that comes with the estimator."""
    return book()


def book(*paths: Path) -> Book:
    """Return the packaged book with the rows of further files laid over it, in order.

    Raises
    ------
    BadEntries
        Naming every mistake in every file.
    CatalogueError
        When a file cannot be opened.
    """
    return _laid_book(map(_opened, paths))


def book_from_text(name: str, text: str, folder: Path) -> Book:
    """Return the packaged book with the rows of a text laid over it.

    Parameters
    ----------
    name
        What mistakes call it.
    folder
        Where a logo that it names lies.

    Raises
    ------
    BadEntries
        Naming every mistake.
    """
    return _laid_book([_File(name, text, _logos(folder))])


def _laid_book(given: Iterable[_File]) -> Book:
    rows, mistakes = _laid_over(_packaged(), given)
    made_rows = _made(rows, mistakes)
    mistakes += [
        Mistake(rows[place].file, _shown(place), "", says)
        for place, says in dangling(made_rows, known=rows)
    ]
    rates = rows["rates", ""]
    if ("places", usual := str(rates.values.get("place"))) not in rows:
        says = f"it names {usual}, which is not among the places"
        mistakes.append(Mistake(rates.file, "[rates]", "place", says))
    _refuse(mistakes)
    return _book(made_rows)


@cache
def _packaged() -> Mapping[Place, _Found]:
    """Return the rows of the packaged files; reading their measures takes a while."""
    data = Path(str(files("estimator.catalogue"))) / "data"
    rows, mistakes = _laid_over({}, map(_opened, sorted(data.glob("*.toml"))))
    _refuse(mistakes)
    return rows


def _laid_over(
    before: Mapping[Place, _Found], given: Iterable[_File]
) -> tuple[dict[Place, _Found], list[Mistake]]:
    """Return the rows with those of further files laid over them, and what was wrong there."""
    rows = dict(before)
    mistakes: list[Mistake] = []
    for file in given:
        for place, raw in _rows(file.name, file.text, mistakes):
            values = _values(file, place, raw, mistakes)
            found = None if place[0] in WHOLE else rows.get(place)
            if found:
                if says := left_in_another_currency(place[0], found.values, values):
                    mistakes.append(Mistake(file.name, _shown(place), "currency", says))
                values = over(place[0], found.values, values)
            rows[place] = _Found(file.name, values)
    return rows, mistakes


def _refuse(mistakes: list[Mistake]) -> None:
    if mistakes:
        listed = "; ".join(dict.fromkeys(map(str, mistakes)))
        count = counted(len(mistakes), "mistake")
        raise BadEntries("book", f"{count}: {listed}", "mend the file and load it again")


def _opened(path: Path) -> _File:
    return _File(path.name, _text(path), _logos(path.parent))


def _logos(folder: Path) -> Callable[[str], bytes]:
    return lambda name: logo_file(folder / Path(name).name)


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8-sig")  # editors on Windows begin a file with a mark
    except UnicodeDecodeError:
        raise CatalogueError(path.name, "it is not a text file", "save it as UTF-8") from None
    except OSError:
        raise CatalogueError(
            path.name, "it cannot be opened", "give the path of a data file"
        ) from None


def _rows(file: str, text: str, mistakes: list[Mistake]) -> Iterator[tuple[Place, Row]]:
    """Yield every row of a file with its place."""
    try:
        sections = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        mistakes.append(Mistake(file, "file", "", f"it is not TOML: {error}"))
        return
    for section, content in sections.items():
        if section not in TABLES and section not in SINGLE:
            says = f"no such section; the sections are {', '.join([*TABLES, *SINGLE])}"
            mistakes.append(Mistake(file, f"[{section}]", "", says))
        elif not isinstance(content, dict):
            says = f"it must be a table headed [{section}]"
            mistakes.append(Mistake(file, section, "", says))
        elif section in SINGLE:
            yield (section, ""), content
        else:
            for name, row in content.items():
                if isinstance(row, dict):
                    yield (section, name), row
                else:
                    says = f"a row must be a table headed [{section}.name]"
                    mistakes.append(Mistake(file, f"[{section}]", name, says))


def _values(given: _File, place: Place, raw: Row, mistakes: list[Mistake]) -> Row:
    """Return the values of the keys a row names, noting those that cannot be read."""
    section, name = place
    file = given.name
    hints = {key: hint for key, hint in fields(_kind(section)).items() if key not in _RATES_PARTS}
    values: Row = {}
    if section in TABLES:
        named = TABLES[section].named
        if named in raw:
            mistakes.append(Mistake(file, _shown(place), named, "the heading already says it"))
        raw = {**raw, named: name}
    if "declared" in raw and section == "products":
        raw, declared = _without(raw, "declared"), raw["declared"]
        values.update(_declared(file, place, raw, declared, mistakes))
    if section == "products" and "%" in str(raw.get("available_strength", "")):
        says = 'it does not say per cent of what; write declared = "12.5 % trade" in its place'
        mistakes.append(Mistake(file, _shown(place), "available_strength", says))
    if "logo" in raw and section == "firm":
        raw, named = _without(raw, "logo"), raw["logo"]
        try:
            values["logo"] = given.logo(str(named))
        except CatalogueError as error:
            says = f"{error.problem}, {error.remedy}"
            mistakes.append(Mistake(file, _shown(place), "logo", says))
    for key, said in raw.items():
        try:
            values[key] = keyed(hints, key, said)
        except Unreadable as mistake:
            mistakes.append(Mistake(file, _shown(place), key, str(mistake)))
    for key in ("source", "as_of"):
        if key not in raw:
            mistakes.append(Mistake(file, _shown(place), key, "every row must say it"))
    return values


def _declared(file: str, place: Place, raw: Row, declared: object, mistakes: list[Mistake]) -> Row:
    """Return the strength a label declares in the one way that its form asks for."""
    form = raw.get("form")
    if not isinstance(declared, str) or form not in list(Form):
        says = f"write it in quotes, in a row that says its form: {', '.join(Form)}"
        mistakes.append(Mistake(file, _shown(place), "declared", says))
        return {}
    try:
        return asdict(declared_strength(declared, Form(form)))
    except EstimatorError as error:
        says = f"{error.where} {error.problem}, {error.remedy}"
        mistakes.append(Mistake(file, _shown(place), "declared", says))
        return {"basis": declared}


def _without(row: Row, key: str) -> Row:
    return {name: value for name, value in row.items() if name != key}


def _made(rows: Mapping[Place, _Found], mistakes: list[Mistake]) -> dict[str, dict[str, Any]]:
    """Return the finished rows of every section, by name, as far as they can be made.

    A row with unreadable keys is made of the others where they suffice, so that what else is wrong
    with it is found, too.
    """
    finished: dict[str, dict[str, Any]] = {section: {} for section in [*TABLES, *SINGLE]}
    wrong = {(mistake.file, mistake.row) for mistake in mistakes}
    for place, found in rows.items():
        section, name = place
        values = (
            {**found.values, **dict.fromkeys(_RATES_PARTS, ())}
            if section == "rates"
            else found.values
        )
        if (found.file, _shown(place)) in wrong and lacking(_kind(section), values):
            continue
        try:
            finished[section][name] = made(_kind(section), values)
        except Unreadable as mistake:
            mistakes += [Mistake(found.file, _shown(place), "", says) for says in mistake.args]
    return finished


def _book(rows: Mapping[str, Mapping[str, Any]]) -> Book:
    listed = {section: tuple(rows[section].values()) for section in TABLES}
    return Book(
        surfaces=SurfaceBook(
            uses=listed["uses"], furniture=listed["furniture"], openings=listed["openings"]
        ),
        zones=listed["zones"],
        zoning=listed["zoning"],
        films=listed["films"],
        products=listed["products"],
        sprayers=listed["sprayers"],
        paces=listed["paces"],
        precautions=listed["precautions"],
        options=listed["options"],
        air=rows["air"][""],
        measuring=rows["measuring"][""],
        site_times=rows["site_times"][""],
        working_time=rows["working_time"][""],
        spread=rows["spread"][""],
        rates=evolve(
            rows["rates"][""], **{key: listed[section] for key, section in _RATES_PARTS.items()}
        ),
        firm=rows["firm"].get("", Firm()),
    )


def _kind(section: str) -> type:
    return TABLES[section].kind if section in TABLES else SINGLE[section]


def _shown(place: Place) -> str:
    section, name = place
    return f"[{section}.{name}]" if name else f"[{section}]"
