"""Workers of this machine: a process for each core, replaced where an input takes it down."""

import os
import pickle
import signal
import subprocess
import sys
import threading
from concurrent.futures import CancelledError, Future
from contextlib import suppress
from typing import Self

from estimator.batch.basis import Basis
from estimator.batch.inputs import Source, why_lost
from estimator.batch.row import Row, Status
from estimator.batch.work import refused
from estimator.batch.worker import READY
from estimator.errors import BatchError

LONGEST_WORK = 600.0
"""Seconds that one input may take."""

# Reading a large scan with its lettering took 0.9 GB.
_MEMORY_OF_ONE = 1_500_000_000


def usual_count() -> int:
    """Return how many processes this machine has cores and memory for."""
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count()
    try:
        memory = os.sysconf("SC_PHYS_PAGES") * os.sysconf("SC_PAGE_SIZE")
    except (AttributeError, ValueError, OSError):
        return cores or 1
    return max(1, min(cores or 1, memory // _MEMORY_OF_ONE))


class LocalWorkers:
    """Processes of this machine, ended with the block they are opened for."""

    def __init__(
        self, basis: Basis, *, count: int | None = None, longest: float = LONGEST_WORK
    ) -> None:
        self.at_once = count or usual_count()
        self._basis = basis
        self._longest = longest
        self._lock = threading.Lock()
        self._processes: set[_Process] = set()
        self._idle: list[_Process] = []
        self._closed = False

    def submit(self, source: Source) -> Future[Row]:
        """Begin with an input, in a thread that waits for its process."""
        row: Future[Row] = Future()

        def wait() -> None:
            try:
                row.set_result(self._row(source))
            except BaseException as error:
                row.set_exception(error)

        threading.Thread(target=wait, daemon=True).start()
        return row

    def close(self) -> None:
        """End every process; what they were at is cancelled."""
        with self._lock:
            self._closed = True
            for process in self._processes:
                process.kill()
            for process in self._idle:
                process.end()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def _row(self, source: Source) -> Row:
        process = self._process()
        try:
            row = process.row(source, self._longest)
        except _Died as death:
            self._let_go(process)
            says = str(why_lost(source, str(death)))
            return refused(source.name, says, self._basis, status=Status.LOST)
        with self._lock:
            if self._closed:
                process.end()
            else:
                self._idle.append(process)
        return row

    def _process(self) -> "_Process":
        """Return a process with nothing to do, begun anew where there is none."""
        with self._lock:
            if self._closed:
                raise CancelledError
            if self._idle:
                return self._idle.pop()
            process = _Process()
            self._processes.add(process)
        try:
            process.begin(self._basis)
        except _Died as death:
            self._let_go(process)
            raise BatchError(
                "this machine", f"no process can be started ({death})", "try it again"
            ) from death
        return process

    def _let_go(self, process: "_Process") -> None:
        with self._lock:
            self._processes.discard(process)
            if self._closed:
                raise CancelledError


class _Died(Exception):
    """A process ended before it answered."""


class _Process:
    """A process and the pipes to it."""

    def __init__(self) -> None:
        self._late = False
        self._process = subprocess.Popen(
            [sys.executable, "-P", "-m", "estimator.batch.worker"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            start_new_session=True,  # so that Ctrl-C reaches only who asks
        )

    def begin(self, basis: Basis) -> None:
        """Tell the basis and wait until all is ready."""
        if self._asked(basis) != READY:
            raise _Died("it answers out of turn")

    def row(self, source: Source, longest: float) -> Row:
        """Return the row of an input; a process that takes too long is ended."""
        timer = threading.Timer(longest, self._give_up)
        timer.daemon = True
        timer.start()
        try:
            row = self._asked(source)
        finally:
            timer.cancel()
        assert isinstance(row, Row)
        return row

    def kill(self) -> None:
        """Kill it; who waits for its answer learns of it."""
        self._process.kill()

    def end(self) -> int:
        """End it, when nobody waits for its answer, and return its exit status."""
        self._process.kill()
        for pipe in (self._process.stdin, self._process.stdout):
            assert pipe is not None
            with suppress(OSError):
                pipe.close()
        return self._process.wait()

    def _asked(self, question: object) -> object:
        asked, answers = self._process.stdin, self._process.stdout
        assert asked is not None
        assert answers is not None
        try:
            pickle.dump(question, asked)
            asked.flush()
            return pickle.load(answers)
        except (EOFError, OSError, pickle.UnpicklingError) as error:
            raise _Died(self._last_words()) from error

    def _give_up(self) -> None:
        self._late = True
        self.kill()

    def _last_words(self) -> str:
        status = self.end()
        if self._late:
            return "it took too long and was given up"
        if status == -signal.SIGKILL:
            return "the process that worked on it was killed, most likely for lack of memory"
        return f"the process that worked on it crashed (status {status})"
