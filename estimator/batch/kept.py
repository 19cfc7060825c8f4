"""Batches kept in the user's folder: their plans, what they are priced with, and their results.

One folder a batch::

    plans/…        the files as they were given
    basis.json     the book and the job
    results.csv    a row for each plan that is worked out
    stopped        there while somebody wants it left alone
"""

import json
import secrets
import shutil
import time
from collections.abc import Sequence
from pathlib import Path, PurePath

from attrs import frozen

from estimator.batch.basis import Basis
from estimator.batch.batch import Batch, batch_of
from estimator.batch.inputs import sources
from estimator.batch.results import results
from estimator.batch.row import Row
from estimator.errors import DocumentError, StoreError
from estimator.estimation.book import Book
from estimator.estimation.job import Job
from estimator.store.converting import MISREAD, converter
from estimator.workflow.files import save
from estimator.workflow.pages import File, told_apart
from estimator.workflow.places import user_folder

_SCHEMA = "batch/1"


@frozen(kw_only=True)
class KeptBatch:
    """A batch and its folder."""

    folder: Path

    @property
    def began_at(self) -> float:
        """When it was given, in seconds since 1970."""
        return (self.folder / "basis.json").stat().st_mtime

    @property
    def names(self) -> tuple[str, ...]:
        """Names of its plans."""
        return tuple(source.name for source in sources(self._plans, besides=self.results))

    @property
    def results(self) -> Path:
        """Its list of results."""
        return self.folder / "results.csv"

    @property
    def rows(self) -> tuple[Row, ...]:
        """What is worked out, in the order of the plans; nothing of a list that was damaged."""
        try:
            return tuple(sorted(results(self.results), key=lambda row: row.file))
        except DocumentError:  # carrying the batch on says so
            return ()

    @property
    def is_stopped(self) -> bool:
        """Whether somebody wants it left alone."""
        return (self.folder / "stopped").exists()

    def set_stopped(self, stopped: bool) -> None:
        """Say whether it is to be left alone."""
        if stopped:
            (self.folder / "stopped").touch()
        else:
            (self.folder / "stopped").unlink(missing_ok=True)

    def file(self, name: str) -> File:
        """Return one of its plans as it was given."""
        found = {source.name: source for source in sources(self._plans, besides=self.results)}
        return File(name=name, content=found[name].content())

    def basis(self) -> Basis:
        """Return what it is priced with.

        Raises
        ------
        StoreError
            When that was damaged, or another version wrote it.
        """
        try:
            data = json.loads((self.folder / "basis.json").read_bytes())
            made = converter()
            return Basis(
                book=made.structure(data["book"], Book), job=made.structure(data["job"], Job)
            )
        except (OSError, *MISREAD) as error:
            raise StoreError(
                "the batch", "what it is priced with was damaged", "give its plans once more"
            ) from error

    def batch(self) -> Batch:
        """Return it as it stands, to be carried on."""
        return batch_of(self._plans, self.results, self.basis())

    def remove(self) -> None:
        """Remove it with its plans."""
        shutil.rmtree(self.folder, ignore_errors=True)

    @property
    def _plans(self) -> Path:
        return self.folder / "plans"


def keep_batch(files: Sequence[File], book: Book, job: Job) -> KeptBatch:
    """Keep files as a new batch, all of it or nothing.

    Raises
    ------
    StoreError
        When it cannot be written.
    """
    draft = _folder() / f".{secrets.token_hex(4)}"
    made = converter()
    data = {
        "schema": _SCHEMA,
        "book": made.unstructure(book, Book),
        "job": made.unstructure(job, Job),
    }
    try:
        (draft / "plans").mkdir(parents=True)
        for file in told_apart([File(name=_safe(one.name), content=one.content) for one in files]):
            save(draft / "plans" / file.name, file.content)
        save(draft / "basis.json", json.dumps(data))
        place = _folder() / f"{time.time_ns():020}"
        draft.rename(place)
    except (OSError, DocumentError) as error:
        shutil.rmtree(draft, ignore_errors=True)
        raise StoreError(
            "the batch", f"it cannot be kept ({error})", "make room or give fewer plans"
        ) from error
    return KeptBatch(folder=place)


def kept_batches() -> tuple[KeptBatch, ...]:
    """Return the batches kept for the user of this machine, the latest first."""
    try:
        places = sorted(_folder().iterdir(), reverse=True)
    except OSError:
        return ()
    return tuple(
        KeptBatch(folder=place)
        for place in places
        if not place.name.startswith(".") and next((place / "plans").glob("*"), None)
    )


def _folder() -> Path:
    return user_folder() / "batches"


def _safe(name: str) -> str:
    """Return a name that stays within its folder and is not hidden in it."""
    return PurePath(name.replace("\\", "/")).name.replace("\0", "").lstrip(".") or "plan"
