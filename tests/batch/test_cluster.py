import time
from collections.abc import Iterator

import dask
import psutil
import pytest
from distributed import LocalCluster

from estimator.batch.basis import Basis
from estimator.batch.batch import batch_of, carried_out
from estimator.batch.cluster import ClusterWorkers
from estimator.batch.inputs import Source
from estimator.batch.local import LocalWorkers
from estimator.batch.row import Status
from estimator.cli.main import main
from estimator.errors import BatchError
from estimator.workflow.samples import samples

SLOW = next(sample.picture for sample in samples() if "clinic" in sample.title)


@pytest.fixture(scope="module")
def cluster() -> Iterator[LocalCluster]:
    """A real cluster of one process, which gives a task up once it has taken the process down."""
    with (
        dask.config.set({"distributed.scheduler.allowed-failures": 0}),
        LocalCluster(n_workers=1, threads_per_worker=2, dashboard_address=":0") as made,
    ):
        yield made


def test_a_cluster_gives_the_same_results_as_this_machine(plans, basis, tmp_path, cluster, capsys):
    folder = plans(6)
    (folder / "bad.txt").write_text("ballroom")
    here = tmp_path / "here.csv"
    with LocalWorkers(basis, count=1) as workers:
        for _ in carried_out(batch_of(folder, here, basis), workers):
            pass
    there = tmp_path / "there.csv"
    arguments = ["batch", str(folder), "-o", str(there), "--scheduler", cluster.scheduler_address]
    assert main(arguments) == 0

    assert there.read_bytes() == here.read_bytes()
    assert "7 plans: 6 quoted, 1 failed" in capsys.readouterr().out


def test_an_input_that_takes_a_worker_of_the_cluster_down_is_a_row(tmp_path, basis, cluster):
    text = tmp_path / "a.txt"
    text.write_text("hall 6 x 2 m")
    with ClusterWorkers(basis, cluster.scheduler_address) as workers:
        doomed = workers.submit(Source(name=SLOW.name, path=SLOW))
        time.sleep(0.3)
        for nanny in cluster.workers.values():
            psutil.Process(nanny.process.pid).kill()

        assert doomed.result().status is Status.LOST
        assert workers.submit(Source(name="a.txt", path=text)).result().status is Status.QUOTED


def test_a_file_that_is_gone_is_a_row_there_too(tmp_path, basis, cluster):
    with ClusterWorkers(basis, cluster.scheduler_address) as workers:
        row = workers.submit(Source(name="gone.png", path=tmp_path / "gone.png")).result()
    assert row.status is Status.FAILED


def test_workers_of_another_version_are_refused(basis, cluster):
    other = Basis(book=basis.book, job=basis.job, version="99")
    with pytest.raises(BatchError, match="install 99 for every worker"):
        ClusterWorkers(other, cluster.scheduler_address)


def test_a_lost_cluster_ends_the_batch_and_what_is_written_stays(
    plans, basis, tmp_path, monkeypatch
):
    monkeypatch.setattr("estimator.batch.cluster._PATIENCE", 5.0)
    folder = plans(4)
    output = tmp_path / "results.csv"
    batch = batch_of(folder, output, basis)
    with (
        LocalCluster(n_workers=1, threads_per_worker=1, dashboard_address=":0") as lost,
        ClusterWorkers(basis, lost.scheduler_address) as workers,
    ):
        rows = carried_out(batch, workers)
        next(rows)
        lost.close()
        with pytest.raises(BatchError, match="the cluster is lost"):
            for _ in rows:
                pass
    assert len(batch_of(folder, output, basis).left) < 4


@pytest.mark.parametrize("address", ["nonsense", "", "tls://127.0.0.1:1"])
def test_an_address_where_no_scheduler_answers_is_refused(basis, address):
    with pytest.raises(BatchError, match="no scheduler answers there"):
        ClusterWorkers(basis, address)
