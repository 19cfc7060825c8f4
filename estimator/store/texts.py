"""What people typed, kept in every version; of two who change one text the later is told."""

import time
from typing import Generic, TypeVar
from uuid import uuid4

from attrs import evolve
from sqlalchemy import ColumnElement, func, select
from sqlalchemy.orm import Session

from estimator.errors import NotFound, StaleVersion, StoreError
from estimator.store.converting import json_of, value_of
from estimator.store.database import Database
from estimator.store.searching import occurring
from estimator.store.tables import ClientRow, SiteRow, TextRow
from estimator.store.values import Client, KeptOutcome, Site

Kind = TypeVar("Kind", Client, Site, KeptOutcome)


def new_id() -> str:
    """Return a name that nothing else has."""
    return uuid4().hex[:16]


def add_text(session: Session, value: Kind, *, after: int) -> Kind:
    """Keep a value as the next version of its text and return it with its id and version.

    Parameters
    ----------
    after
        The version it was changed from; 0 for a new one.

    Raises
    ------
    StaleVersion
        When somebody else saved since.
    """
    kind = type(value).__name__
    value = evolve(value, id=value.id or new_id())
    last = last_version(session, kind, value.id)
    if last != after:
        raise StaleVersion(
            getattr(value, "name", f"this {kind.lower()}"),
            "somebody else changed it meanwhile",
            "look at theirs, then save yours again; both are kept",
        )
    value = evolve(value, version=after + 1)
    session.add(
        TextRow(
            kind=kind,
            id=value.id,
            version=value.version,
            content=json_of(value),
            saved_at=time.time(),
        )
    )
    return value


def last_version(session: Session, kind: str, name: str) -> int:
    """Return the number of the last version of a text; 0 when there is none."""
    found = session.scalar(
        select(func.max(TextRow.version)).where(TextRow.kind == kind, TextRow.id == name)
    )
    return found or 0


class Texts(Generic[Kind]):
    """All that is kept of one kind: each as it stands, and as it was."""

    def __init__(
        self, database: Database, kind: type[Kind], row: type[ClientRow] | type[SiteRow]
    ) -> None:
        self._database = database
        self._kind: type[Kind] = kind
        self._row = row

    def get(self, name: str) -> Kind:
        """Return the one of that id as it stands.

        Raises
        ------
        NotFound
            When there is none.
        """
        return self.texts(name)[0]

    def texts(self, name: str) -> tuple[Kind, ...]:
        """Return every text of the one of that id, the newest first.

        Raises
        ------
        NotFound
            When there is none.
        """
        with self._database.reading() as session:
            rows = session.scalars(
                select(TextRow.content)
                .where(TextRow.kind == self._kind.__name__, TextRow.id == name)
                .order_by(TextRow.version.desc())
            )
            found = tuple(value_of(content, self._kind) for content in rows)
        if not found:
            what = self._kind.__name__.lower()
            raise NotFound(name or what, f"no such {what} is kept", "choose one of the list")
        return found

    def find(self, words: str = "", *, first: int = 0, most: int = 50) -> tuple[Kind, ...]:
        """Return those in which each of the words occurs, by name."""
        return self._found(occurring(words, self._row.words), first, most)

    def _found(
        self, conditions: list[ColumnElement[bool]], first: int, most: int
    ) -> tuple[Kind, ...]:
        row = self._row
        query = (
            select(TextRow.content)
            .join(row, (row.id == TextRow.id) & (row.version == TextRow.version))
            .where(TextRow.kind == self._kind.__name__, *conditions)
            .order_by(row.words, row.id)
            .offset(first)
            .limit(most)
        )
        with self._database.reading() as session:
            return tuple(value_of(content, self._kind) for content in session.scalars(query))

    def _named(self, name: str) -> None:
        if not name.strip():
            what = self._kind.__name__.lower()
            raise StoreError(what, "it has no name", f"name the {what}")
