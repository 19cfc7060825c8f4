"""Everything that is kept, written to a file and brought in from one."""

from io import BytesIO
from pathlib import Path

from estimator.errors import SourceError
from estimator.quantities.counted import counted
from estimator.store.archive.merging import Brought, read_archive
from estimator.store.archive.writing import write_archive
from estimator.store.store import Store
from estimator.workflow.files import replacing


def export_to(store: Store, path: Path) -> None:
    """Write the archive of a store to a file, whole or not at all.

    Raises
    ------
    DocumentError
        When the file cannot be written.
    """
    with replacing(path) as file:
        write_archive(store, file)


def exported(store: Store) -> bytes:
    """Return the archive of a store."""
    file = BytesIO()
    write_archive(store, file)
    return file.getvalue()


def import_from(store: Store, path: Path) -> Brought:
    """Bring the archive in a file into a store, all of it or nothing.

    Raises
    ------
    SourceError
        When the file cannot be opened.
    StoreError
        When it is no archive, of another version, or damaged.
    """
    try:
        with path.open("rb") as file:
            return read_archive(store, file, path.name)
    except OSError as error:
        raise SourceError(
            str(path), f"it cannot be opened ({error.strerror})", "check its name and place"
        ) from error


def brought_words(brought: Brought) -> str:
    """Return what came in, in words.

    >>> brought_words(Brought(clients=1, versions=3))
    'New: 1 client and 3 versions of quotes.'
    >>> brought_words(Brought())
    'Nothing was new.'
    """
    counts = (
        (brought.clients, "client", "clients"),
        (brought.sites, "site", "sites"),
        (brought.quotes, "quote", "quotes"),
        (brought.versions, "version of a quote", "versions of quotes"),
        (brought.outcomes, "outcome", "outcomes"),
        (brought.jobs, "job", "jobs"),
    )
    said = [counted(count, one, many) for count, one, many in counts if count]
    if not said:
        return "Nothing was new."
    *most, last = said
    return f"New: {', '.join(most)} and {last}." if most else f"New: {last}."
