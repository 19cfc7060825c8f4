"""How the time of a batch grows with its inputs, beside working them out one after the other.

Run with ``pytest tests/benchmarks/bench_batch.py -s``. Inputs are typed rooms, the quickest there
are, so that what the batch itself costs shows most.
"""

import resource
import time
from pathlib import Path

import pytest

from estimator.batch.basis import Basis
from estimator.batch.batch import batch_of, carried_out
from estimator.batch.inputs import sources
from estimator.batch.local import LocalWorkers
from estimator.batch.worker import row_of
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import usual_job

MOST_TIMES = 3.0  # that the last of 800 inputs may cost of what one of 100 costs
MOST_OVERHEAD = 2.0  # of working them out one after the other in this process
MOST_MEBIBYTES = 40.0  # that 800 inputs may add to this process


def typed(folder: Path, count: int) -> Path:
    folder.mkdir()
    for at in range(count):
        (folder / f"{at:05}.txt").write_text(f"office {3 + at % 7} x {4 + at / 1000} m, hall 6x2 m")
    return folder


def carried(folder: Path, basis: Basis, workers: LocalWorkers) -> float:
    """Return how long a batch takes."""
    began = time.perf_counter()
    batch = batch_of(folder, folder.with_suffix(".csv"), basis)
    for _ in carried_out(batch, workers):
        pass
    return time.perf_counter() - began


def test_the_time_grows_with_the_inputs_and_the_memory_hardly(tmp_path, capsys):
    book = standard_book()
    basis = Basis(book=book, job=usual_job(book))
    with LocalWorkers(basis, count=1) as workers:
        carried(typed(tmp_path / "first", 5), basis, workers)  # until the process is warm
        few = carried(typed(tmp_path / "few", 100), basis, workers)
        before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
        many = carried(typed(tmp_path / "many", 800), basis, workers)
        again = carried(tmp_path / "many", basis, workers)
        more = (resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before) / 1024  # Linux: KiB
    began = time.perf_counter()
    for source in sources(tmp_path / "few", besides=tmp_path / "none"):
        row_of(source, basis)
    alone = time.perf_counter() - began
    growth = many / few / 8
    with capsys.disabled():
        print(
            f"\n100 inputs take {few / alone:.2f} × one after the other; of 800 one costs "
            f"{growth:.2f} × as much; going on where all is done {again / many:.1%} of it; "
            f"{more:.0f} MiB more in memory"
        )
    assert growth <= MOST_TIMES
    assert few / alone <= MOST_OVERHEAD
    assert more <= MOST_MEBIBYTES
    assert again / many == pytest.approx(0, abs=0.2)
