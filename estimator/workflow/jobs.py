"""Jobs kept as they are made, brought back to the last stroke."""

import re
import secrets

from attrs import frozen

from estimator.errors import NotFound
from estimator.store.jobs import JobText
from estimator.store.store import Store
from estimator.store.values import JobHead, Key
from estimator.workflow.records import read, record_of
from estimator.workflow.storing import store
from estimator.workflow.work import History

MOST_STEPS = 20
"""Steps back, and as many forth, that are kept."""

_ID = re.compile(r"[a-z0-9]{6,40}")


@frozen(kw_only=True, eq=False)
class Stored:
    """A job brought back, and the revision it stood at.

    Parameters
    ----------
    kept_as
        The version of a quote that it was last kept as, or opened from.
    """

    history: History
    revision: int
    kept_as: Key | None = None


def new_id() -> str:
    """Return a name for a job that no other has."""
    return secrets.token_hex(6)


class Jobs:
    """The jobs of one store."""

    def __init__(self, store: Store) -> None:
        self.store = store

    def save(self, job: str, history: History, *, after: int, kept_as: Key | None = None) -> int:
        """Keep a job as it stands and return its new revision.

        Parameters
        ----------
        after
            The revision it was changed from; 0 for a new job.

        Raises
        ------
        StaleVersion
            When somebody else saved since that revision; theirs is kept.
        StoreError
            When it cannot be written.
        """
        record = record_of(_short(history))
        text = JobText(
            title=record.title,
            rooms=record.rooms,
            record=record.text,
            files=record.files,
            kept_as=kept_as,
        )
        return self.store.jobs.save(_checked(job), text, after=after)

    def load(self, job: str) -> Stored:
        """Return a job as it was last saved.

        Raises
        ------
        NotFound
            When there is no such job.
        StoreError
            When it was damaged.
        """
        kept = self.store.jobs.load(_checked(job))
        history = read(kept.record, kept.files, kept.head.title or "the job")
        return Stored(history=history, revision=kept.head.revision, kept_as=kept.head.kept_as)

    def revision(self, job: str) -> int:
        """Return the number of the last revision of a job; 0 when it was never saved."""
        return self.store.jobs.revision(_checked(job))

    def recent(self, most: int = 12) -> tuple[JobHead, ...]:
        """Return the jobs last saved, the latest first."""
        return self.store.jobs.recent(most)


def jobs() -> Jobs:
    """Return the jobs kept for the user.

    Raises
    ------
    StoreError
        When nothing can be kept there.
    """
    return Jobs(store())


def _checked(job: str) -> str:
    if not _ID.fullmatch(job):
        raise NotFound("the address", "it names no job", "open one of the recent jobs")
    return job


def _short(history: History) -> History:
    return History(
        now=history.now,
        past=history.past[-MOST_STEPS:],
        future=history.future[-MOST_STEPS:],
    )
