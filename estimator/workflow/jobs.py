"""Jobs kept on disk: saved as they are made, brought back to the last stroke.

One folder a job. What is large lies in files that are written once and named by their content, so
a stroke writes one plan and one small file of references::

    revisions/00000042.json   the work as it stands, and the steps there and back, by reference
    plans/93803c0d2a0905f3.json     each a plan.json
    books/b6b266e28e83a1fb.json     furniture, uses, strengths, paces and rates as they were used
    pictures/6f1c….png              what the plan was read from, as given

A revision comes to be in one step under a number that nobody used before (a hard link to a finished
file). A process that is killed therefore leaves the last revision whole, and of two tabs that save
after the same revision only one can; the other is told.
"""

import os
import re
import secrets
import time
from collections.abc import Iterator
from contextlib import suppress
from itertools import islice
from pathlib import Path

from attrs import frozen

from estimator.errors import DocumentError, NotFound, StaleVersion, StoreError
from estimator.workflow.files import save
from estimator.workflow.places import user_folder
from estimator.workflow.records import Kept, Record, read, record_of, summary
from estimator.workflow.work import History

MOST_STEPS = 20
"""Steps back, and as many forth, that are kept."""

_ID = re.compile(r"[a-z0-9]{6,40}")
_KEPT_REVISIONS = 3
_SPARED: float = 3600.0
"""Seconds that a file nobody refers to is left alone: another tab may be about to."""


@frozen(kw_only=True)
class Entry:
    """A job in the list of recent ones.

    Parameters
    ----------
    saved_at
        Seconds since 1970, when it was last saved.
    """

    id: str
    title: str
    rooms: int
    saved_at: float


@frozen(kw_only=True, eq=False)
class Stored:
    """A job brought back, and the revision it stood at."""

    history: History
    revision: int


def new_id() -> str:
    """Return a name for a job that no other has."""
    return secrets.token_hex(6)


class Jobs:
    """The jobs of one folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder

    def save(self, job: str, history: History, *, after: int) -> int:
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
        place = self._place(job)
        try:
            if self._last(place) != after:
                raise StaleVersion(
                    history.now.plan.title or "this job",
                    "it was changed in another tab meanwhile",
                    "go on with one of both versions",
                )
            record = record_of(_short(history))
            for kept in record.kept:
                _write_once(place, kept)
            _add_revision(place, after + 1, record)
        except (OSError, DocumentError) as error:
            raise StoreError(
                str(place), f"the job cannot be kept there ({error})", "make room or choose another"
            ) from error
        with suppress(OSError):
            _tidy(place, after + 1)
        return after + 1

    def load(self, job: str) -> Stored:
        """Return a job as it was last saved.

        Raises
        ------
        NotFound
            When there is no such job.
        StoreError
            When its files were damaged.
        """
        place = self._place(job)
        revision = self._last(place)
        if not revision:
            raise NotFound(job, "no such job is kept here", "open another or begin anew")
        try:
            history = read(_revision(place, revision).read_bytes(), place)
        except OSError as error:
            raise StoreError(job, f"a part of it is missing ({error})", "open another") from error
        return Stored(history=history, revision=revision)

    def revision(self, job: str) -> int:
        """Return the number of the last revision of a job; 0 when it was never saved."""
        return self._last(self._place(job))

    def recent(self, most: int = 12) -> tuple[Entry, ...]:
        """Return the jobs last saved, the latest first."""
        found = (_entry(*row) for row in sorted(self._heads(), reverse=True))
        return tuple(islice(filter(None, found), most))

    def _heads(self) -> Iterator[tuple[float, str, Path]]:
        with suppress(OSError):
            for place in self.folder.iterdir():
                if revision := self._last(place):
                    head = _revision(place, revision)
                    with suppress(OSError):
                        yield head.stat().st_mtime, place.name, head

    def _place(self, job: str) -> Path:
        if not _ID.fullmatch(job):
            raise NotFound("the address", "it names no job", "open one of the recent jobs")
        return self.folder / job

    def _last(self, place: Path) -> int:
        try:
            return max((int(name[:-5]) for name in _revisions(place)), default=0)
        except OSError:
            return 0


def jobs() -> Jobs:
    """Return the jobs kept for the user of this machine."""
    return Jobs(user_folder() / "jobs")


def _entry(saved_at: float, job: str, head: Path) -> Entry | None:
    """Return a row of the list; None for a job whose files were damaged."""
    try:
        title, rooms = summary(head.read_bytes())
    except (OSError, StoreError):
        return None
    return Entry(id=job, title=title, rooms=rooms, saved_at=saved_at)


def _short(history: History) -> History:
    return History(
        now=history.now,
        past=history.past[-MOST_STEPS:],
        future=history.future[-MOST_STEPS:],
    )


def _revisions(place: Path) -> list[str]:
    names = (path.name for path in (place / "revisions").iterdir())
    return [name for name in names if re.fullmatch(r"\d{8}\.json", name)]


def _revision(place: Path, number: int) -> Path:
    return place / "revisions" / f"{number:08}.json"


def _write_once(place: Path, kept: Kept) -> None:
    path = place / kept.name
    try:
        os.utime(path)
    except FileNotFoundError:
        path.parent.mkdir(parents=True, exist_ok=True)
        save(path, kept.content())


def _add_revision(place: Path, number: int, record: Record) -> None:
    """Put a revision under its number, unless another took it."""
    path = _revision(place, number)
    path.parent.mkdir(parents=True, exist_ok=True)
    draft = path.with_name(f".{path.name}-{secrets.token_hex(4)}")
    try:
        save(draft, record.text)
        os.link(draft, path)
    except FileExistsError:
        raise StaleVersion(
            record.title or "this job",
            "it was changed in another tab meanwhile",
            "go on with one of both versions",
        ) from None
    finally:
        draft.unlink(missing_ok=True)


def _tidy(place: Path, revision: int) -> None:
    """Remove old revisions, and what none of the others refers to."""
    for name in _revisions(place):
        if int(name[:-5]) <= revision - _KEPT_REVISIONS:
            (place / "revisions" / name).unlink(missing_ok=True)
    needed = "".join((place / "revisions" / name).read_text() for name in _revisions(place))
    long_ago = time.time() - _SPARED
    for folder in ("plans", "books", "pictures"):
        for path in (place / folder).iterdir():
            if path.name not in needed and path.stat().st_mtime < long_ago:
                path.unlink(missing_ok=True)
