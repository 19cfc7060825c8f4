import time

import pytest

from estimator.batch.background import Background
from estimator.batch.kept import keep_batch, kept_batches
from estimator.batch.row import Status
from estimator.errors import StoreError
from estimator.workflow.pages import File

TYPED = [File(name=f"site-{at}.txt", content=f"hall {at} x 3 m".encode()) for at in (2, 3, 4)]


@pytest.fixture(autouse=True)
def own_folder(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))


def worked_out(there, kept):
    there.start(kept)
    while there.is_running(kept):
        time.sleep(0.01)
    return kept.rows


def test_a_batch_is_kept_with_what_it_is_priced_with(basis):
    first = keep_batch(TYPED[:1], basis.book, basis.job)
    latest = keep_batch(TYPED, basis.book, basis.job)

    assert kept_batches() == (latest, first)
    assert latest.names == ("site-2.txt", "site-3.txt", "site-4.txt")
    assert latest.basis().digest == basis.digest
    assert latest.file("site-3.txt") == TYPED[1]
    latest.remove()
    assert kept_batches() == (first,)


def test_files_of_one_name_and_names_that_lead_elsewhere_stay_apart_and_inside(basis):
    files = [File(name=name, content=b"hall 2 x 3 m") for name in ("a.txt", "../a.txt", ".a.txt")]
    kept = keep_batch(files, basis.book, basis.job)
    assert kept.names == ("a (2).txt", "a (3).txt", "a.txt")


def test_a_batch_is_carried_on_beside_everything_else(basis):
    kept = keep_batch([*TYPED, File(name="x.txt", content=b"ballroom")], basis.book, basis.job)
    rows = worked_out(Background(), kept)
    assert [row.status for row in rows] == [Status.QUOTED] * 3 + [Status.FAILED]


def test_a_stopped_batch_keeps_its_rows_and_goes_on_when_asked(basis):
    there = Background()
    many = [File(name=f"{at:03}.txt", content=f"hall {at} x 3 m".encode()) for at in range(2, 60)]
    kept = keep_batch(many, basis.book, basis.job)
    there.start(kept)
    while not kept.rows:
        time.sleep(0.002)
    there.stop(kept)
    while there.is_running(kept):
        time.sleep(0.01)

    done = len(kept.rows)
    assert 1 <= done < len(many)
    assert kept.is_stopped
    assert there.problem(kept) == ""
    assert len(worked_out(there, kept)) == len(many)
    assert not kept.is_stopped


def test_a_batch_whose_basis_or_list_was_damaged_says_so(basis):
    there = Background()
    kept = keep_batch(TYPED, basis.book, basis.job)
    kept.results.write_text("a,b\n")
    assert worked_out(there, kept) == ()
    assert "it is no list of results" in there.problem(kept)

    (kept.folder / "basis.json").write_text("{}")
    with pytest.raises(StoreError, match="damaged"):
        kept.basis()
    worked_out(there, kept)
    assert "damaged" in there.problem(kept)
