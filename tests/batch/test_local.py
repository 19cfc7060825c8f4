import shutil
import signal
import subprocess
import sys
import threading
import time
from concurrent.futures import CancelledError

import psutil
import pytest

from estimator.batch.inputs import Source, sources
from estimator.batch.local import LocalWorkers
from estimator.batch.results import results, results_text
from estimator.batch.row import Status
from estimator.batch.worker import row_of
from estimator.workflow.samples import samples

SLOW = next(sample.picture for sample in samples() if "clinic" in sample.title)
"""Reading it takes a second or more."""


def typed(folder, name, text="hall 6 x 2 m"):
    path = folder / name
    path.write_text(text)
    return Source(name=name, path=path)


def slow():
    return Source(name=SLOW.name, path=SLOW)


def workers_of(process):
    return [child for child in process.children() if "estimator.batch.worker" in child.cmdline()]


def test_an_input_that_takes_its_process_down_is_a_row_and_the_next_is_worked_out(tmp_path, basis):
    with LocalWorkers(basis, count=1) as workers:
        workers.submit(typed(tmp_path, "a.txt")).result()
        doomed = workers.submit(slow())
        time.sleep(0.2)
        (process,) = workers_of(psutil.Process())
        process.send_signal(signal.SIGKILL)  # as the kernel does where memory runs out

        row = doomed.result()
        assert row.status is Status.LOST
        assert row.file == SLOW.name
        assert "killed, most likely for lack of memory" in row.says
        assert workers.submit(typed(tmp_path, "b.txt")).result().status is Status.QUOTED
    assert workers_of(psutil.Process()) == []


def test_an_input_that_takes_too_long_is_given_up(basis):
    with LocalWorkers(basis, count=1, longest=0.2) as workers:
        row = workers.submit(slow()).result()
    assert row.status is Status.LOST
    assert "took too long" in row.says


def test_a_file_that_is_gone_is_a_row(tmp_path, basis):
    with LocalWorkers(basis, count=1) as workers:
        row = workers.submit(Source(name="gone.png", path=tmp_path / "gone.png")).result()
    assert row.status is Status.FAILED
    assert "gone.png" in row.says


def test_closing_cancels_what_is_worked_on(basis):
    workers = LocalWorkers(basis, count=1)
    row = workers.submit(slow())
    threading.Timer(1.0, workers.close).start()
    with pytest.raises(CancelledError):
        row.result()
    with pytest.raises(CancelledError):
        workers.submit(slow()).result()


def test_a_batch_killed_in_the_middle_ends_with_the_same_results(plans, basis, tmp_path):
    folder = plans(30)
    output = tmp_path / "results.csv"
    expected = results_text(
        row_of(source, basis) for source in sources(folder, besides=output)
    ).encode()
    program = "import sys; from estimator.cli.main import main; sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", program, "batch", str(folder), "-o", str(output)]

    killed = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    while killed.poll() is None and len(results(output)) < 3:
        time.sleep(0.005)
    killed.kill()
    killed.wait()
    assert 3 <= len(results(output)) < 30
    left = subprocess.run(command, capture_output=True, text=True, check=True)

    assert output.read_bytes() == expected
    assert "from before" in left.stdout


def test_ctrl_c_ends_with_what_is_done_and_what_is_left(plans, tmp_path):
    folder = plans(2)
    shutil.copy(SLOW, folder / "b.png")
    shutil.copy(SLOW, folder / "c.png")
    program = "import sys; from estimator.cli.main import main; sys.exit(main(sys.argv[1:]))"
    command = [sys.executable, "-c", program, "batch", str(folder), "-o", str(tmp_path / "r.csv")]
    batch = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
    while batch.poll() is None and not (tmp_path / "r.csv").exists():
        time.sleep(0.005)
    batch.send_signal(signal.SIGINT)
    said, complained = batch.communicate()

    assert batch.returncode == 130
    assert "left: the same command goes on from here" in said
    assert "Traceback" not in complained
