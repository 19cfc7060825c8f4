"""What is large, kept once: plans, books and pictures under names that tell their content."""

import hashlib
import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import islice

from sqlalchemy import delete, exists, insert, select
from sqlalchemy.orm import Session

from estimator.store.tables import FileRow, JobFileRow, VersionFileRow

Files = Mapping[str, Callable[[], bytes]]
"""Files by name, each with what makes its content, which is asked for only where it lacks."""

_DIGITS = 24
_CONTENT_NAME = re.compile(rf"(?:plans|books|pictures)/([0-9a-f]{{{_DIGITS}}})(?:\.\w{{1,6}})?")
_EARLIER_NAME = re.compile(r"(?:plans|books)/[0-9a-f]{16}\.json")
"""Told what the values were to an earlier program, and nothing of the bytes."""

_AT_ONCE = 500  # names in one question; SQLite takes 32,766


def content_name(folder: str, content: bytes, ending: str = ".json") -> str:
    """Return the name of a file that holds a content.

    >>> content_name("plans", b"{}")
    'plans/44136fa355b3678a1146ad16.json'
    """
    return f"{folder}/{hashlib.sha256(content).hexdigest()[:_DIGITS]}{ending}"


def is_named_by(name: str, content: bytes) -> bool:
    """Whether a file may bear its name: one of now tells its content, one of before tells nothing.

    >>> is_named_by("plans/44136fa355b3678a1146ad16.json", b"{}")
    True
    >>> is_named_by("plans/44136fa355b3678a1146ad16.json", b"{ }")
    False
    """
    if found := _CONTENT_NAME.fullmatch(name):
        return hashlib.sha256(content).hexdigest().startswith(found[1])
    return _EARLIER_NAME.fullmatch(name) is not None


def keep_files(session: Session, files: Files) -> None:
    """Keep the files that are not kept yet."""
    there = names_kept(session, files)
    missing = [{"name": name, "content": files[name]()} for name in files if name not in there]
    if missing:
        session.execute(insert(FileRow), missing)


def names_kept(session: Session, names: Iterable[str]) -> set[str]:
    """Return those of the names under which something is kept."""
    return {
        name
        for part in parts(names)
        for name in session.scalars(select(FileRow.name).where(FileRow.name.in_(part)))
    }


def contents(session: Session, names: Iterable[str]) -> dict[str, bytes]:
    """Return the contents of files by name; what is not kept is left out."""
    return {
        row.name: row.content
        for part in parts(names)
        for row in session.scalars(select(FileRow).where(FileRow.name.in_(part)))
    }


def drop_unneeded(session: Session, names: Iterable[str]) -> None:
    """Remove those of the files that nobody needs any more."""
    for part in parts(names):
        session.execute(
            delete(FileRow).where(
                FileRow.name.in_(part),
                ~exists().where(JobFileRow.file == FileRow.name),
                ~exists().where(VersionFileRow.file == FileRow.name),
            )
        )


def parts(names: Iterable[str]) -> Iterator[list[str]]:
    """Yield names, so many at once as one question takes."""
    rest = iter(names)
    while part := list(islice(rest, _AT_ONCE)):
        yield part
