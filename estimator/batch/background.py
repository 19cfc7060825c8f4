"""Batches carried on beside everything else that a process does."""

import threading
from concurrent.futures import CancelledError
from functools import cache
from pathlib import Path

from estimator.batch.batch import carried_out
from estimator.batch.kept import KeptBatch
from estimator.batch.local import LocalWorkers, usual_count
from estimator.errors import EstimatorError


class Background:
    """The batches that run in this process."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._running: dict[Path, LocalWorkers | None] = {}
        self._problems: dict[Path, str] = {}

    def start(self, kept: KeptBatch) -> None:
        """Carry a batch on, unless it runs already."""
        kept.set_stopped(False)
        with self._lock:
            if kept.folder in self._running:
                return
            self._running[kept.folder] = None
            self._problems.pop(kept.folder, None)
        threading.Thread(target=self._run, args=(kept,), daemon=True).start()

    def stop(self, kept: KeptBatch) -> None:
        """End the work on a batch; its rows stay."""
        kept.set_stopped(True)
        with self._lock:
            workers = self._running.get(kept.folder)
        if workers:
            workers.close()

    def is_running(self, kept: KeptBatch) -> bool:
        """Whether a batch is being worked on."""
        return kept.folder in self._running

    def problem(self, kept: KeptBatch) -> str:
        """Return the sentence on what ended the work on a batch, if anything did."""
        return self._problems.get(kept.folder, "")

    def _run(self, kept: KeptBatch) -> None:
        try:
            # One core stays for who looks on.
            with LocalWorkers(kept.basis(), count=max(1, usual_count() - 1)) as workers:
                self._running[kept.folder] = workers
                for _ in carried_out(kept.batch(), workers):
                    if kept.is_stopped:
                        break
        except CancelledError:
            pass  # somebody stopped it
        except EstimatorError as error:
            self._problems[kept.folder] = str(error)
        finally:
            with self._lock:
                del self._running[kept.folder]


@cache
def background() -> Background:
    """Return the batches that run in this process."""
    return Background()
