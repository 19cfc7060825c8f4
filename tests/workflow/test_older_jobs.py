import shutil
from decimal import Decimal
from pathlib import Path

import pytest

from estimator.store.store import Store
from estimator.workflow.jobs import Jobs
from estimator.workflow.older_jobs import take_over
from estimator.workflow.quoting import estimate
from estimator.workflow.storing import store as user_store

FOLDERS = Path(__file__).parents[1] / "store" / "schemas" / "folders"
"""A job as the last version that kept folders of files left it."""

JOB = "abcdef012345"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return Path(shutil.copytree(FOLDERS, tmp_path / "jobs"))


def test_a_job_kept_as_files_is_taken_over_with_every_step(store: Store, folder: Path):
    take_over(store.jobs, folder)
    stored = Jobs(store).load(JOB)
    now, (first,), (third,) = (
        stored.history.now,
        stored.history.past,
        stored.history.future,
    )

    assert stored.revision == 3
    assert now.plan.title == "=Larkfield café 廚房"
    assert [room.ceiling_height for room in now.plan.rooms] == [2.7, None]
    assert first.plan.rooms[0].ceiling_height is None
    assert (third.job.crew, third.job.discount) == (3, Decimal("0.125"))
    assert now.pages[0].file.name == "Plan ü.png"
    assert now.pages[0].file.content == b"\x89PNG not really"
    assert now.pages[0].votes[0].says == "Hall"


def test_what_was_taken_over_can_still_be_quoted(store: Store, folder: Path):
    take_over(store.jobs, folder)
    now = Jobs(store).load(JOB).history.now
    quote = estimate(now.plan, book=now.book, job=now.job, date="2026-11-25")
    assert quote.price.total.currency == "USD"
    assert quote.price.total.amount > 0


def test_the_files_stay_and_are_taken_over_once(store: Store, folder: Path):
    before = {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}
    take_over(store.jobs, folder)
    kept = Jobs(store)
    history = kept.load(JOB).history
    assert kept.save(JOB, history, after=3) == 4
    take_over(store.jobs, folder)

    assert kept.revision(JOB) == 4
    assert {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()} == before


@pytest.mark.parametrize("part", ["plans", "books", "pictures", "revisions"])
@pytest.mark.parametrize("damage", [b"{", b"\xff\xfe", None])
def test_a_damaged_folder_is_left_alone_and_does_no_harm(
    store: Store, folder: Path, part: str, damage: bytes | None
):
    shutil.copytree(folder / JOB, folder / "fedcba543210")
    for path in (folder / JOB / part).iterdir():
        path.unlink() if damage is None else path.write_bytes(damage)
    take_over(store.jobs, folder)
    assert "fedcba543210" in {entry.id for entry in Jobs(store).recent()}


def test_a_record_cannot_name_files_elsewhere(store: Store, folder: Path):
    (folder.parent / "secret.json").write_text("{}")
    record = folder / JOB / "revisions" / "00000003.json"
    text = record.read_text().replace("plans/ba1819c86ad3c1a6.json", "plans/../../../secret.json")
    assert "secret" in text
    record.write_text(text)
    take_over(store.jobs, folder)
    assert Jobs(store).recent() == ()


def test_the_users_store_takes_over_when_it_is_opened(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("DATABASE_URL", raising=False)
    shutil.copytree(FOLDERS, tmp_path / "floor-plan-estimator" / "jobs")
    assert [entry.id for entry in Jobs(user_store()).recent()] == [JOB]
