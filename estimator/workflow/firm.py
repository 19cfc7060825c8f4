"""The firm in its own book: checked, and kept with its logo beside it."""

import hashlib
from datetime import UTC, datetime
from typing import Any

from attrs import evolve

from estimator.catalogue.logo import logo
from estimator.estimation.book import Book
from estimator.quantities.language import Language
from estimator.quote.firm import Firm
from estimator.workflow.files import save
from estimator.workflow.firm_book import firm_folder, firm_rows, keep_firm_rows

_SOURCE = "the firm's own"
_PNG = b"\x89PNG"


def firm_with_logo(firm: Firm, data: bytes | None, name: str) -> Firm:
    """Return the firm with a logo as it was given, or as it is where none was.

    Raises
    ------
    CatalogueError
        When it is no logo that papers can show.
    """
    return evolve(firm, logo=logo(data, name)) if data is not None else firm


def keep_firm(firm: Firm) -> Book:
    """Keep the firm in its own book and return that book.

    Raises
    ------
    BadEntries
        When it contradicts itself; what was kept before stays.
    DocumentError
        When it cannot be written.
    """
    row: dict[str, Any] = {
        "name": firm.name,
        "address": firm.address,
        "contact": firm.contact,
        "registration": firm.registration,
        "logo": _kept(firm.logo),
        "ink": firm.ink,
        "accent": firm.accent,
        "terms": {one.value: getattr(firm.terms, one.value) for one in Language},
        "source": _SOURCE,
        "as_of": datetime.now(UTC).date().isoformat(),
    }
    said = {key: value for key, value in row.items() if value}
    return keep_firm_rows({**firm_rows(), "firm": said})


def _kept(data: bytes | None) -> str:
    """Return the name of the file that a logo is kept in; it is never written over."""
    if data is None:
        return ""
    ending = "png" if data.startswith(_PNG) else "jpg"
    name = f"logo-{hashlib.sha256(data).hexdigest()[:16]}.{ending}"
    if not (firm_folder() / name).exists():
        save(firm_folder() / name, data)
    return name
