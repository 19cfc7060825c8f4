"""The firm's own book: the rows it put in the place of the packaged ones."""

import tomllib
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from estimator.catalogue.loader import book, book_from_text, packaged_book
from estimator.catalogue.writing import toml_text
from estimator.errors import CatalogueError
from estimator.estimation.book import Book
from estimator.workflow.files import save
from estimator.workflow.places import user_folder

FILE = "firm.toml"
LARGEST_BYTES = 2_000_000

Rows = dict[str, dict[str, Any]]


def firm_folder() -> Path:
    """Return the folder of the firm's book and of what it names, such as a logo."""
    folder = _folder()
    folder.mkdir(exist_ok=True)
    return folder


def firm_book(*over: Path) -> Book:
    """Return the packaged book with the firm's rows laid over it, and those of further files.

    Raises
    ------
    CatalogueError
        Naming every mistake in the files.
    """
    own = _folder() / FILE
    files = (own, *over) if own.exists() else over
    return book(*files) if files else packaged_book()


def usable_book() -> tuple[Book, str]:
    """Return the firm's book, or what of it can be used, and the sentence that says what is wrong.

    A logo that cannot be shown costs the logo alone; any other mistake costs the whole file, since
    half of a firm's rates are nobody's.
    """
    try:
        return firm_book(), ""
    except CatalogueError as error:
        says = f"In {_folder()}: {error}"
    try:
        rows = firm_rows()
        firm = {key: value for key, value in rows["firm"].items() if key != "logo"}
        return book_with(
            toml_text({**rows, "firm": firm})
        ), f"{says} Papers have no logo till then."
    except (CatalogueError, LookupError, AttributeError, TypeError):
        return packaged_book(), f"{says} The packaged book is used till then."


def firm_text() -> str:
    """Return the firm's file as it is written; empty where there is none.

    Raises
    ------
    CatalogueError
        When it cannot be read.
    """
    path = _folder() / FILE
    try:
        return path.read_text("utf-8-sig") if path.exists() else ""
    except (OSError, UnicodeDecodeError):
        raise CatalogueError(FILE, "it cannot be read", "put another in its place") from None


def firm_rows() -> Rows:
    """Return the firm's rows as they are spelled.

    Raises
    ------
    CatalogueError
        When the firm's file is no TOML.
    """
    return rows_of(firm_text())


def rows_of(text: str) -> Rows:
    """Return the rows of a file's text as they are spelled.

    Raises
    ------
    CatalogueError
        When it is no TOML.
    """
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise CatalogueError(FILE, f"it is not TOML: {error}", "mend it or begin anew") from None


def text_of(given: bytes) -> str:
    """Return the text of a file that was handed in.

    Raises
    ------
    CatalogueError
        When it is too large for a book or no text.
    """
    if len(given) > LARGEST_BYTES:
        raise CatalogueError(FILE, "it is too large for a book", "give a TOML file of rows")
    try:
        return given.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise CatalogueError(FILE, "it is not a text file", "save it as UTF-8") from None


def book_with(text: str) -> Book:
    """Return the packaged book with the rows of a text laid over it; nothing is kept.

    Raises
    ------
    BadEntries
        Naming every mistake in it.
    """
    return book_from_text(FILE, text, _folder())


def keep_firm_rows(rows: Mapping[str, Mapping[str, Any]]) -> Book:
    """Keep rows as the firm's and return the book they make.

    Raises
    ------
    BadEntries
        Naming every mistake; what was kept before stays.
    DocumentError
        When they cannot be written.
    """
    return keep_firm_text(toml_text(rows))


def keep_firm_text(text: str) -> Book:
    """Keep a text as the firm's file and return the book it makes.

    Raises
    ------
    BadEntries
        Naming every mistake; what was kept before stays.
    DocumentError
        When it cannot be written.
    """
    made = book_with(text)
    save(firm_folder() / FILE, text)
    return made


def _folder() -> Path:
    return user_folder() / "book"
