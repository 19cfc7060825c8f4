"""One process that works out one input at a time; asked and answered through its pipes."""

import os
import pickle
import sys
from contextlib import suppress
from pathlib import Path

from estimator.batch.basis import Basis
from estimator.batch.inputs import Source
from estimator.batch.row import Row
from estimator.batch.work import refused, worked_out
from estimator.errors import EstimatorError

READY = "ready"


def row_of(source: Source, basis: Basis) -> Row:
    """Return the row of a file of this machine."""
    try:
        content = source.content()
    except EstimatorError as error:
        return refused(source.name, str(error), basis)
    return worked_out(source.name, content, basis)


def main() -> None:
    """Take the basis, say that all is ready, and answer each input until nobody asks any more."""
    _step_back()
    asked = sys.stdin.buffer
    answers = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    # Whatever a library prints must not get among the answers.
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    with suppress(EOFError, BrokenPipeError):
        basis = pickle.load(asked)
        answer: object = READY
        while True:
            pickle.dump(answer, answers)
            answers.flush()
            answer = row_of(pickle.load(asked), basis)


def _step_back() -> None:
    """Let the rest of the machine go first, and be the first to go where memory runs out."""
    with suppress(OSError, AttributeError):
        os.nice(5)
    with suppress(OSError):
        Path("/proc/self/oom_score_adj").write_text("1000")


if __name__ == "__main__":
    main()
