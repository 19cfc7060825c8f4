"""A batch: what is done already, what is left, and the list of results written as it goes."""

from collections.abc import Iterable, Iterator
from concurrent.futures import FIRST_COMPLETED, Future, wait
from itertools import islice
from pathlib import Path
from typing import Protocol

from attrs import frozen

from estimator.batch.basis import Basis
from estimator.batch.inputs import Source, sources
from estimator.batch.results import results, results_text, row_text
from estimator.batch.row import Row, Status
from estimator.errors import DocumentError
from estimator.workflow.files import save


class Workers(Protocol):
    """Whoever works out inputs, several at a time."""

    @property
    def at_once(self) -> int:
        """How many inputs they take at a time."""

    def submit(self, source: Source) -> Future[Row]:
        """Begin with an input."""


@frozen(kw_only=True)
class Batch:
    """The inputs of a folder and their list of results.

    Parameters
    ----------
    done
        Rows of an earlier run that still hold.
    left
        What is still to be worked out.
    """

    results: Path
    names: tuple[str, ...]
    done: tuple[Row, ...]
    left: tuple[Source, ...]


def batch_of(folder: Path, list_of_results: Path, basis: Basis) -> Batch:
    """Return the batch of a folder; an earlier run's rows hold for the inputs that are the same.

    An input is the same when its name and content, the book, the job and the version are. One that
    was lost with its process is tried again.

    Raises
    ------
    BatchError
        When there is no such folder or nothing in it.
    DocumentError
        When the list of results is a file of another kind.
    """
    found = sources(folder, besides=list_of_results)
    earlier = {
        row.file: row
        for row in results(list_of_results)
        if (row.basis, row.version) == (basis.digest, basis.version)
        and row.status is not Status.LOST
    }
    done = [
        earlier[source.name]
        for source in found
        if source.name in earlier
        and earlier[source.name].digest
        and earlier[source.name].digest == source.digest()
    ]
    names = {row.file for row in done}
    return Batch(
        results=list_of_results,
        names=tuple(source.name for source in found),
        done=tuple(done),
        left=tuple(source for source in found if source.name not in names),
    )


def carried_out(batch: Batch, workers: Workers) -> Iterator[Row]:
    """Work out what is left and yield each row once it is written; in the end, put all in order.

    Raises
    ------
    BatchError
        When the workers fail altogether; what is written stays.
    DocumentError
        When the list of results cannot be written.
    """
    save(batch.results, results_text(batch.done))
    rows = {row.file: row for row in batch.done}
    try:
        with batch.results.open("a", encoding="utf-8", newline="") as file:
            for row in _worked_out(batch.left, workers):
                file.write(row_text(row))
                file.flush()
                rows[row.file] = row
                yield row
    except OSError as error:
        raise DocumentError(
            str(batch.results),
            f"it cannot be written ({error.strerror})",
            "make room and run the same again",
        ) from error
    save(batch.results, results_text(rows[name] for name in batch.names))


def _worked_out(left: Iterable[Source], workers: Workers) -> Iterator[Row]:
    """Yield rows as they come, with only as many inputs begun as are worked on at once."""
    waiting = iter(left)
    begun: set[Future[Row]] = set()
    while True:
        begun |= set(map(workers.submit, islice(waiting, max(0, workers.at_once - len(begun)))))
        if not begun:
            return
        ready, begun = wait(begun, return_when=FIRST_COMPLETED)
        for future in ready:
            yield future.result()
