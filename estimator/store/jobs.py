"""Jobs: the work on one site as it is made, each with the files it needs."""

import time
from collections.abc import Collection, Mapping

from attrs import field, frozen
from sqlalchemy import delete, insert, select, update
from sqlalchemy.orm import Session

from estimator.errors import NotFound, StaleVersion
from estimator.store.database import Database
from estimator.store.files import Files, contents, drop_unneeded, keep_files, parts
from estimator.store.tables import JobFileRow, JobRow
from estimator.store.values import JobHead, Key


@frozen(kw_only=True, eq=False)
class JobText:
    """A job to be kept: its record, and the files that the record names."""

    title: str
    rooms: int
    record: str
    files: Files = field(repr=False)
    kept_as: Key | None = None


@frozen(kw_only=True, eq=False)
class KeptJob:
    """A job brought back."""

    head: JobHead
    record: str
    files: Mapping[str, bytes] = field(repr=False)


class Jobs:
    """The jobs of a database."""

    def __init__(self, database: Database) -> None:
        self._database = database

    def save(self, job: str, text: JobText, *, after: int) -> int:
        """Keep a job as it stands and return its new revision.

        Raises
        ------
        StaleVersion
            When somebody else saved since the revision ``after``; theirs is kept.
        """
        with self._database.writing() as session:
            last = session.scalar(select(JobRow.revision).where(JobRow.id == job)) or 0
            if last != after:
                raise StaleVersion(
                    text.title or "this job",
                    "it was changed in another tab meanwhile",
                    "go on with one of both versions",
                )
            put_job(session, job, text, revision=after + 1, saved_at=time.time())
        return after + 1

    def load(self, job: str) -> KeptJob:
        """Return a job as it was last saved.

        Raises
        ------
        NotFound
            When there is no such job.
        """
        with self._database.reading() as session:
            row = session.get(JobRow, job)
            if row is None:
                raise NotFound(job, "no such job is kept here", "open another or begin anew")
            names = session.scalars(select(JobFileRow.file).where(JobFileRow.job == job)).all()
            return KeptJob(head=_head(row), record=row.record, files=contents(session, names))

    def revision(self, job: str) -> int:
        """Return the number of the last revision of a job; 0 when it was never saved."""
        with self._database.reading() as session:
            return session.scalar(select(JobRow.revision).where(JobRow.id == job)) or 0

    def recent(self, most: int) -> tuple[JobHead, ...]:
        """Return the jobs last saved, the latest first."""
        query = select(JobRow).order_by(JobRow.saved_at.desc(), JobRow.id).limit(most)
        with self._database.reading() as session:
            return tuple(map(_head, session.scalars(query)))

    def kept_among(self, jobs: Collection[str]) -> set[str]:
        """Return those of the names under which a job is kept."""
        with self._database.reading() as session:
            return {
                job
                for part in parts(jobs)
                for job in session.scalars(select(JobRow.id).where(JobRow.id.in_(part)))
            }

    def take_over(self, job: str, text: JobText, *, revision: int, saved_at: float) -> None:
        """Keep a job that was kept elsewhere before, unless one of its name is here."""
        with self._database.writing() as session:
            if session.get(JobRow, job) is None:
                put_job(session, job, text, revision=revision, saved_at=saved_at)


def put_job(session: Session, job: str, text: JobText, *, revision: int, saved_at: float) -> None:
    """Put a job in place of its last revision, with the files it needs and no others."""
    keep_files(session, text.files)
    columns = {
        "revision": revision,
        "title": text.title,
        "rooms": text.rooms,
        "record": text.record,
        "quote": text.kept_as.quote if text.kept_as else None,
        "number": text.kept_as.number if text.kept_as else None,
        "saved_at": saved_at,
    }
    there = update(JobRow).where(JobRow.id == job).values(**columns).returning(JobRow.id)
    if session.scalar(there) is None:
        session.execute(insert(JobRow).values(id=job, **columns))
    needed = set(text.files)
    before = set(session.scalars(select(JobFileRow.file).where(JobFileRow.job == job)))
    if newly := needed - before:
        session.execute(insert(JobFileRow), [{"job": job, "file": name} for name in newly])
    if gone := before - needed:
        session.execute(delete(JobFileRow).where(JobFileRow.job == job, JobFileRow.file.in_(gone)))
        drop_unneeded(session, gone)


def _head(row: JobRow) -> JobHead:
    return JobHead(
        id=row.id,
        title=row.title,
        rooms=row.rooms,
        revision=row.revision,
        saved_at=row.saved_at,
        kept_as=Key(quote=row.quote, number=row.number or 0) if row.quote else None,
    )
