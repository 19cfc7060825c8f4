"""Quotes and their versions, which are added and never overwritten."""

import time
from collections.abc import Iterable, Mapping

from attrs import field, frozen
from sqlalchemy import (
    ColumnElement,
    func,
    insert,
    null,
    select,
    tuple_,
    update,
)
from sqlalchemy.orm import Session

from estimator.errors import NotFound, StaleVersion
from estimator.estimation.figures import Figures
from estimator.store.converting import MISREAD, json_of, value_of
from estimator.store.database import Database
from estimator.store.files import Files, contents, keep_files
from estimator.store.listing import VERSION_COLUMNS, found, listed, version_of
from estimator.store.searching import folded
from estimator.store.tables import QuoteRow, SiteRow, VersionFileRow, VersionRow
from estimator.store.texts import new_id
from estimator.store.values import Found, Key, Listed, Search, Status, Version

_KEYS_AT_ONCE = 400  # in one question


@frozen(kw_only=True, eq=False)
class Draft:
    """A version of a quote to be kept: its figures, and what it can be made from again.

    Parameters
    ----------
    record
        What it was reckoned from, in words of whoever keeps it, naming the files.
    """

    figures: Figures
    record: str
    files: Files = field(repr=False)
    note: str = ""


class Quotes:
    """The quotes of a database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, draft: Draft, *, site: str = "", quote: str = "", after: int = 0) -> Key:
        """Keep the first version of a new quote of a site, or the next of a quote.

        Raises
        ------
        NotFound
            When there is no such site or quote.
        StaleVersion
            When somebody else kept a version since ``after``; theirs is kept.
        """
        with self._database.writing() as session:
            key = _next(session, site, quote, after, draft.figures.title)
            figures, total = draft.figures, draft.figures.total
            session.execute(
                insert(VersionRow).values(
                    quote=key.quote,
                    number=key.number,
                    after=after,
                    title=figures.title,
                    words=folded(figures.title),
                    date=figures.date,
                    status=Status.DRAFT.value,
                    currency=total.currency,
                    total=total.amount,
                    treated=figures.treated,
                    floor_area=figures.floor_area,
                    note=draft.note,
                    record=draft.record,
                    figures=json_of(figures),
                    saved_at=time.time(),
                )
            )
            keep_files(session, draft.files)
            need_files(session, key, draft.files)
        return key

    def find(self, search: Search) -> Found:
        """Return one part of the list of all quotes that match, each as its version that counts."""
        with self._database.reading() as session:
            return found(session, search)

    def versions(self, quote: str) -> tuple[Version, ...]:
        """Return the versions of a quote, the newest first.

        Raises
        ------
        NotFound
            When there is no such quote.
        """
        query = (
            select(*VERSION_COLUMNS)
            .where(VersionRow.quote == quote)
            .order_by(VersionRow.number.desc())
        )
        with self._database.reading() as session:
            versions = tuple(map(version_of, session.execute(query)))
        if not versions:
            raise _none(quote)
        return versions

    def version(self, key: Key) -> Version:
        """Return one version.

        Raises
        ------
        NotFound
            When there is none of that name.
        """
        with self._database.reading() as session:
            row = session.execute(select(*VERSION_COLUMNS).where(*_named(key))).one_or_none()
        if row is None:
            raise _none(key.quote)
        return version_of(row)

    def listed(self, quote: str) -> Listed:
        """Return a quote as it stands in the list.

        Raises
        ------
        NotFound
            When there is no such quote.
        """
        with self._database.reading() as session:
            one = listed(session, quote)
        if one is None:
            raise _none(quote)
        return one

    def record(self, key: Key) -> tuple[str, Mapping[str, bytes]]:
        """Return what a version was reckoned from, with the files it names.

        Raises
        ------
        NotFound
            When there is no such version.
        """
        with self._database.reading() as session:
            record = self.written(key)
            names = session.scalars(
                select(VersionFileRow.file).where(
                    VersionFileRow.quote == key.quote, VersionFileRow.number == key.number
                )
            ).all()
            return record, contents(session, names)

    def written(self, key: Key) -> str:
        """Return what a version was reckoned from, without the files it names.

        Raises
        ------
        NotFound
            When there is no such version.
        """
        with self._database.reading() as session:
            record = session.scalar(select(VersionRow.record).where(*_named(key)))
        if record is None:
            raise _none(key.quote)
        return record

    def sent(self, key: Key) -> str:
        """Return how a version was sent, in words of whoever told so; empty for a draft."""
        with self._database.reading() as session:
            return session.scalar(select(VersionRow.sent).where(*_named(key))) or ""

    def figures(self, keys: Iterable[Key]) -> dict[Key, Figures]:
        """Return the figures of versions; those made by another version of us are left out."""
        wanted = [(key.quote, key.number) for key in keys]
        kept: dict[Key, Figures] = {}
        with self._database.reading() as session:
            for at in range(0, len(wanted), _KEYS_AT_ONCE):
                query = select(VersionRow.quote, VersionRow.number, VersionRow.figures).where(
                    tuple_(VersionRow.quote, VersionRow.number).in_(wanted[at : at + _KEYS_AT_ONCE])
                )
                for quote, number, text in session.execute(query):
                    try:
                        kept[Key(quote=quote, number=number)] = value_of(text, Figures)
                    except MISREAD:
                        continue
        return kept

    def set_status(self, key: Key, status: Status, sent: str = "") -> None:
        """Tell how far a version has come.

        Parameters
        ----------
        sent
            How it is sent, as JSON; kept with the first status beyond a draft, and until it is a
            draft again.

        Raises
        ------
        NotFound
            When there is no such version.
        """
        with self._database.writing() as session:
            kept = func.coalesce(VersionRow.sent, sent or null())
            there = update(VersionRow).where(*_named(key))
            told = there.values(
                status=status.value, sent=null() if status is Status.DRAFT else kept
            )
            if session.scalar(told.returning(VersionRow.number)) is None:
                raise _none(key.quote)


def need_files(session: Session, key: Key, files: Iterable[str]) -> None:
    """Say that a version needs files, which must be kept."""
    rows = [{"quote": key.quote, "number": key.number, "file": name} for name in files]
    if rows:
        session.execute(insert(VersionFileRow), rows)


def _next(session: Session, site: str, quote: str, after: int, title: str) -> Key:
    """Make room for the next version of a quote, or for the first of a new one."""
    if not quote:
        if session.get(SiteRow, site) is None:
            raise NotFound(site or "the site", "no such site is kept", "save the site first")
        key = Key(quote=new_id(), number=1)
        session.execute(insert(QuoteRow).values(id=key.quote, site=site, number=1))
        return key
    now = session.scalar(select(QuoteRow.number).where(QuoteRow.id == quote))
    if now is None:
        raise _none(quote)
    if now != after:
        raise StaleVersion(
            title or "this quote",
            f"somebody else kept version {now} of it meanwhile",
            "look at theirs, then keep yours as the next; both stay",
        )
    last = session.scalar(select(func.max(VersionRow.number)).where(VersionRow.quote == quote))
    key = Key(quote=quote, number=(last or 0) + 1)
    session.execute(update(QuoteRow).where(QuoteRow.id == quote).values(number=key.number))
    return key


def _named(key: Key) -> tuple[ColumnElement[bool], ColumnElement[bool]]:
    return VersionRow.quote == key.quote, VersionRow.number == key.number


def _none(quote: str) -> NotFound:
    return NotFound(quote or "the quote", "no such quote is kept", "choose one of the list")
