"""An archive brought into a store that may hold other things already: all is kept, nothing twice.

What is the same here and there is left as it is. Texts and versions of quotes that are new are
added after those that are here; the one saved last counts. A job that was changed on both sides
comes in as another job.
"""

import hashlib
import json
from collections.abc import Mapping
from decimal import Decimal
from typing import Any, BinaryIO, TypeVar

from attrs import define, evolve
from sqlalchemy import func, insert, select, update
from sqlalchemy.orm import Session

from estimator.store.archive.gathering import Data
from estimator.store.archive.reading import OpenArchive, damaged, opened
from estimator.store.clients import client_row, site_row
from estimator.store.converting import converter, json_of
from estimator.store.files import drop_unneeded, is_named_by, names_kept
from estimator.store.jobs import JobText, put_job
from estimator.store.outcomes import outcome_row
from estimator.store.quotes import need_files
from estimator.store.searching import folded
from estimator.store.store import Store
from estimator.store.tables import (
    FileRow,
    JobRow,
    QuoteRow,
    TextRow,
    VersionRow,
)
from estimator.store.values import Client, KeptOutcome, Key, Site, Status

Kind = TypeVar("Kind", Client, Site, KeptOutcome)


@define
class Brought:
    """How many of each came in new."""

    clients: int = 0
    sites: int = 0
    quotes: int = 0
    versions: int = 0
    outcomes: int = 0
    jobs: int = 0


def read_archive(store: Store, file: BinaryIO, where: str) -> Brought:
    """Bring an archive in, all of it or, when something is wrong with it, nothing.

    Raises
    ------
    StoreError
        When it is none, of another version, or damaged.
    """
    with opened(file, where) as archive, store.database.writing() as session:
        return _Merge(session, archive).run()


class _Merge:
    def __init__(self, session: Session, archive: OpenArchive) -> None:
        self.session = session
        self.archive = archive
        self.brought = Brought()
        self.moved: dict[Key, Key] = {}
        """Versions that have another number here than there."""

    def run(self) -> Brought:
        self._files()
        for one in self.archive.data("clients"):
            client, new = self._texts(one, Client)
            self.session.merge(client_row(client))
            self.brought.clients += new
        self.session.flush()
        for one in self.archive.data("sites"):
            site, new = self._texts(one, Site)
            self.session.merge(site_row(site))
            self.brought.sites += new
        self.session.flush()
        for one in self.archive.data("quotes"):
            self._quote(one)
        for one in self.archive.data("outcomes"):
            outcome, new = self._texts(self._moved(one), KeptOutcome)
            self.session.merge(outcome_row(outcome))
            self.brought.outcomes += new
        for one in self.archive.data("jobs"):
            self._job(one)
        drop_unneeded(self.session, self.archive.names())
        return self.brought

    def _files(self) -> None:
        names = self.archive.names()
        there = names_kept(self.session, names)
        for name in names:
            if name not in there:
                content = self.archive.content(name)
                if not is_named_by(name, content):
                    raise damaged(self.archive.where, f"{name} holds something else than it tells")
                self.session.execute(insert(FileRow).values(name=name, content=content))

    def _texts(self, one: Data, kind: type[Kind]) -> tuple[Kind, bool]:
        """Add the texts that are not here yet; return the one that counts, and if all is new."""
        rows = self.session.scalars(
            select(TextRow)
            .where(TextRow.kind == kind.__name__, TextRow.id == one["id"])
            .order_by(TextRow.version)
        )
        ours = [(row.saved_at, _read(json.loads(row.content), kind)) for row in rows]
        given = [(float(text["saved_at"]), _read(text["content"], kind)) for text in one["texts"]]
        known = {(at, evolve(value, version=0)) for at, value in ours}
        fresh = [(at, value) for at, value in given if (at, evolve(value, version=0)) not in known]
        if ours and fresh and ours[-1][0] > fresh[-1][0]:
            fresh.append(ours[-1])
        now = ours[-1][1] if ours else None
        for version, (at, value) in enumerate(fresh, len(ours) + 1):
            now = evolve(value, version=version)
            self.session.add(
                TextRow(
                    kind=kind.__name__,
                    id=one["id"],
                    version=version,
                    content=json_of(now),
                    saved_at=at,
                )
            )
        if now is None or now.id != one["id"]:
            raise damaged(self.archive.where, "a text lacks")
        return now, not ours

    def _quote(self, one: Data) -> None:
        quote, versions = str(one["id"]), one["versions"]
        ours = {
            (row.saved_at, row.record, row.figures): row
            for row in self.session.scalars(select(VersionRow).where(VersionRow.quote == quote))
        }
        if not ours:
            self.session.execute(
                insert(QuoteRow).values(id=quote, site=one["site"], number=one["number"])
            )
            self.brought.quotes += 1
        last = max((row.number for row in ours.values()), default=0)
        for version in versions:
            same = ours.get(
                (version["saved_at"], _json(version["record"]), _json(version["figures"]))
            )
            if same is not None:
                number = same.number
                if same.status == Status.DRAFT:
                    same.status = Status(version["status"]).value
                    same.sent = _sent(version)
            else:
                last += 1
                number = last
                self._version(quote, number, version)
            there = Key(quote=quote, number=int(version["number"]))
            self.moved[there] = Key(quote=quote, number=number)
        self._count_newest(quote)

    def _version(self, quote: str, number: int, version: Data) -> None:
        after = Key(quote=quote, number=int(version["after"]))
        self.session.execute(
            insert(VersionRow).values(
                quote=quote,
                number=number,
                after=self.moved.get(after, after).number,
                title=version["title"],
                words=folded(version["title"]),
                date=version["date"],
                status=Status(version["status"]).value,
                currency=version["currency"],
                total=Decimal(version["total"]),
                treated=float(version["treated_m2"]),
                floor_area=float(version["floor_area_m2"]),
                note=version["note"],
                record=_json(version["record"]),
                figures=_json(version["figures"]),
                sent=_sent(version),
                saved_at=float(version["saved_at"]),
            )
        )
        need_files(self.session, Key(quote=quote, number=number), version["files"])
        self.brought.versions += 1

    def _count_newest(self, quote: str) -> None:
        self.session.flush()
        newest = self.session.scalar(
            select(VersionRow.number)
            .where(VersionRow.quote == quote)
            .order_by(VersionRow.saved_at.desc(), VersionRow.number.desc())
            .limit(1)
        )
        self.session.execute(update(QuoteRow).where(QuoteRow.id == quote).values(number=newest))

    def _moved(self, one: Data) -> Data:
        """Return an outcome with the numbers that the versions have here."""

        def text(given: Data) -> Data:
            key = converter().structure(given["content"]["key"], Key)
            here = converter().unstructure(self.moved.get(key, key))
            return {**given, "content": {**given["content"], "key": here}}

        return {**one, "texts": [text(given) for given in one["texts"]]}

    def _job(self, one: Data) -> None:
        job, record = str(one["id"]), _json(one["record"])
        ours = self.session.scalar(select(JobRow.record).where(JobRow.id == job))
        if ours is not None and json.loads(ours) == one["record"]:
            return
        if ours is not None:
            job = hashlib.sha256(f"{job} {record}".encode()).hexdigest()[:16]
            if self.session.scalar(select(func.count()).where(JobRow.id == job)):
                return
        kept_as = None
        if one["quote"]:
            there = Key(quote=str(one["quote"]), number=int(one["number"]))
            kept_as = self.moved.get(there, there)
        text = JobText(
            title=str(one["title"]),
            rooms=int(one["rooms"]),
            record=record,
            files=dict.fromkeys(one["files"], _kept_already),
            kept_as=kept_as,
        )
        put_job(
            self.session,
            job,
            text,
            revision=int(one["revision"]),
            saved_at=float(one["saved_at"]),
        )
        self.brought.jobs += 1


def _read(content: Any, kind: type[Kind]) -> Kind:
    return converter().structure(content, kind)


def _sent(version: Data) -> str | None:
    """Return how a version was sent; archives of earlier programs do not tell."""
    told = version.get("sent")
    return _json(told) if told else None


def _json(data: Mapping[str, Any]) -> str:
    return json.dumps(data, allow_nan=False)


def _kept_already() -> bytes:
    raise LookupError("a file that the data name")
