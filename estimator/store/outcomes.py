"""Outcomes: what visits really took, by the version of the quote they were planned by."""

import time

from attrs import evolve
from sqlalchemy import Select, select

from estimator.errors import NotFound
from estimator.store.converting import MISREAD, json_of, value_of
from estimator.store.database import Database
from estimator.store.tables import OutcomeRow, VersionRow
from estimator.store.texts import add_text
from estimator.store.values import KeptOutcome


class Outcomes:
    """The outcomes of a database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, outcome: KeptOutcome, *, after: int) -> KeptOutcome:
        """Keep an outcome, a new one where it has no id, and return it as kept.

        Raises
        ------
        NotFound
            When the version of the quote is not kept.
        StaleVersion
            When somebody else corrected it since the version ``after``; theirs is kept.
        """
        with self._database.writing() as session:
            if session.get(VersionRow, (outcome.key.quote, outcome.key.number)) is None:
                raise NotFound(outcome.key.quote, "no such quote is kept", "save the quote first")
            kept = add_text(session, evolve(outcome, saved_at=time.time()), after=after)
            session.merge(outcome_row(kept))
        return kept

    def of(self, quote: str) -> tuple[KeptOutcome, ...]:
        """Return the outcomes of a quote, the oldest visit first."""
        return self._found(_ALL.where(OutcomeRow.quote == quote))

    def all(self) -> tuple[KeptOutcome, ...]:
        """Return every outcome, the oldest visit first; those nobody can read are left out."""
        return self._found(_ALL)

    def _found(self, query: Select[str]) -> tuple[KeptOutcome, ...]:
        found = []
        with self._database.reading() as session:
            for content in session.scalars(query):
                try:
                    found.append(value_of(content, KeptOutcome))
                except MISREAD:
                    continue
        return tuple(found)


_ALL = select(OutcomeRow.content).order_by(OutcomeRow.visited, OutcomeRow.saved_at)


def outcome_row(kept: KeptOutcome) -> OutcomeRow:
    """Return what stands in the table of an outcome."""
    return OutcomeRow(
        id=kept.id,
        version=kept.version,
        quote=kept.key.quote,
        number=kept.key.number,
        visited=kept.outcome.visited,
        content=json_of(kept),
        saved_at=kept.saved_at,
    )
