import json
import os
import subprocess
import sys
import time
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve

from estimator.errors import NotFound, StaleVersion, StoreError
from estimator.lettering.consensus import Vote
from estimator.plan.edits import renamed, with_height
from estimator.workflow.files import load_plan
from estimator.workflow.jobs import MOST_STEPS, Jobs, new_id
from estimator.workflow.measuring import standard_book
from estimator.workflow.pages import File, Page
from estimator.workflow.quoting import usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

BOOK = standard_book()
VOTE = Vote(says="Hall", kind="sides", metres_per_px=0.01, relative_error=0.1, agrees=True)
PAGE = Page(
    file=File(name="a/../Plan ü.PNG", content=b"\x89PNG not really"), dpi=96.0, votes=(VOTE,)
)
JOB = "abcdef012345"


@pytest.fixture
def kept(tmp_path: Path) -> Jobs:
    return Jobs(tmp_path / "jobs")


def work(words: str = "Kitchen 3 x 4 m, hall 5 x 2 m", **changes) -> Work:
    plan = evolve(sketch_plan(words), title="Larkfield flat")
    return evolve(Work(plan=plan, book=BOOK, job=usual_job(BOOK), pages=(PAGE,)), **changes)


def same(one: Work, other: Work) -> bool:
    def parts(work: Work) -> tuple[object, ...]:
        return work.plan, work.book, work.job, work.pages, work.document

    return parts(one) == parts(other)


def higher(before: Work, height: float) -> Work:
    return evolve(before, plan=with_height(before.plan, "room-1", height))


def test_a_job_comes_back_with_every_step_there_and_back(kept: Jobs):
    first = work()
    second = higher(first, 2.7)
    job = evolve(first.job, crew=3, discount=Decimal("0.125"), distance=12_000.5)
    third = evolve(second, job=job, document=4)
    zones = (evolve(BOOK.zones[0], strength=1.25, source="set by hand"), *BOOK.zones[1:])
    fourth = evolve(third, book=evolve(BOOK, zones=zones))
    kept.save(JOB, History(now=third, past=(first, second), future=(fourth,)), after=0)

    stored = Jobs(kept.folder).load(JOB)
    assert stored.revision == 1
    assert same(stored.history.now, third)
    assert [same(*pair) for pair in zip(stored.history.past, (first, second), strict=True)] == [
        True,
        True,
    ]
    assert same(stored.history.future[0], fourth)


def test_a_plan_comes_back_as_it_was_even_when_it_contradicts_itself(kept: Jobs):
    before = work("Kitchen 3 x 4 m, hall 5 x 4 m")
    kitchen, hall = before.plan.rooms
    over = evolve(before.plan, rooms=(kitchen, evolve(hall, outline=kitchen.outline.buffer(0.3))))
    kept.save(JOB, History(now=evolve(before, plan=over)), after=0)
    assert kept.load(JOB).history.now.plan == over


def test_what_is_kept_is_in_open_formats(kept: Jobs):
    now = work()
    kept.save(JOB, History(now=now), after=0)
    place = kept.folder / JOB

    (plan,) = (place / "plans").iterdir()
    (picture,) = (place / "pictures").iterdir()
    (record,) = (place / "revisions").iterdir()
    assert load_plan(plan) == now.plan
    assert picture.read_bytes() == PAGE.file.content
    assert picture.suffix == ".png"
    assert json.loads(record.read_text())["title"] == "Larkfield flat"


def test_pictures_are_written_once(kept: Jobs):
    now = work()
    kept.save(JOB, History(now=now), after=0)
    (picture,) = (kept.folder / JOB / "pictures").iterdir()
    number = picture.stat().st_ino
    kept.save(JOB, History(now=higher(now, 3.0), past=(now,)), after=1)
    assert picture.stat().st_ino == number


def test_of_two_tabs_that_saved_after_the_same_revision_the_later_is_told(kept: Jobs):
    first = work()
    kept.save(JOB, History(now=first), after=0)
    mine, theirs = higher(first, 2.6), higher(first, 3.1)
    kept.save(JOB, History(now=theirs, past=(first,)), after=1)
    with pytest.raises(StaleVersion, match="changed in another tab"):
        kept.save(JOB, History(now=mine, past=(first,)), after=1)

    assert same(kept.load(JOB).history.now, theirs)
    other = new_id()
    kept.save(other, History(now=mine, past=(first,)), after=0)
    assert same(kept.load(other).history.now, mine)
    assert same(kept.load(JOB).history.now, theirs)


def test_a_revision_that_appears_at_the_last_moment_is_not_overwritten(
    kept: Jobs, monkeypatch: pytest.MonkeyPatch
):
    first = work()
    kept.save(JOB, History(now=first), after=0)
    theirs = higher(first, 3.1)
    late = Jobs(kept.folder)
    monkeypatch.setattr(late, "_last", lambda _: 1)
    kept.save(JOB, History(now=theirs), after=1)
    with pytest.raises(StaleVersion):
        late.save(JOB, History(now=higher(first, 2.6)), after=1)
    assert same(kept.load(JOB).history.now, theirs)
    assert not list(kept.folder.rglob(".*"))


def test_only_so_many_steps_are_kept_and_old_files_are_removed(kept: Jobs):
    past: tuple[Work, ...] = ()
    now = work()
    for step in range(MOST_STEPS + 8):
        kept.save(JOB, History(now=now, past=past), after=step)
        past, now = (*past, now), higher(now, 2.5 + 0.01 * step)
    plans = kept.folder / JOB / "plans"
    for path in plans.iterdir():
        os.utime(path, (time.time() - 9999, time.time() - 9999))
    kept.save(JOB, History(now=now, past=past), after=MOST_STEPS + 8)

    assert len(kept.load(JOB).history.past) == MOST_STEPS
    assert len(list((kept.folder / JOB / "revisions").iterdir())) == 3
    # The last three revisions refer to two more plans than the last alone.
    assert len(list(plans.iterdir())) == MOST_STEPS + 1 + 2


def test_recent_jobs_are_listed_the_latest_first(kept: Jobs):
    for at, name in enumerate(("Clinic", "Cafe", "School wing")):
        now = work()
        job = f"job00{at}"
        kept.save(job, History(now=evolve(now, plan=evolve(now.plan, title=name))), after=0)
        os.utime(kept.folder / job / "revisions" / "00000001.json", (at, at))
    (kept.folder / "job000" / "revisions" / "00000001.json").write_text("{")

    assert [entry.title for entry in kept.recent()] == ["School wing", "Cafe"]
    assert [entry.title for entry in kept.recent(1)] == ["School wing"]
    assert kept.recent()[0].rooms == 2


@pytest.mark.parametrize(
    "job", ["", "../../etc", "a/b", "ABCDEF", "x" * 80, "é" * 8, "abcdef012345"]
)
def test_a_job_that_is_not_there_is_said_so(kept: Jobs, job: str):
    with pytest.raises(NotFound):
        kept.load(job)


@pytest.mark.parametrize(
    ("part", "damage"),
    [(part, damage) for part in ("plans", "books") for damage in ("", "[]", "{}", None)]
    + [("pictures", None), ("revisions", ""), ("revisions", "[]"), ("revisions", "{}")],
)
def test_a_damaged_job_is_one_sentence(kept: Jobs, part: str, damage: str | None):
    kept.save(JOB, History(now=work()), after=0)
    (path,) = (kept.folder / JOB / part).iterdir()
    path.unlink() if damage is None else path.write_text(damage)
    with pytest.raises(StoreError, match=r"\.$"):
        kept.load(JOB)


def test_a_record_cannot_name_files_elsewhere(kept: Jobs):
    kept.save(JOB, History(now=work()), after=0)
    (record,) = (kept.folder / JOB / "revisions").iterdir()
    data = json.loads(record.read_text())
    data["steps"][0]["plan"] = "plans/../../../secret.json"
    record.write_text(json.dumps(data))
    with pytest.raises(StoreError):
        kept.load(JOB)


def test_a_folder_that_cannot_be_written_is_one_sentence(tmp_path: Path):
    (tmp_path / "jobs").write_text("in the way")
    with pytest.raises(StoreError, match="cannot be kept"):
        Jobs(tmp_path / "jobs").save(JOB, History(now=work()), after=0)


def test_a_killed_process_loses_nothing_that_was_saved(tmp_path: Path):
    script = """
import os, sys
from pathlib import Path
from attrs import evolve
from estimator.plan.edits import with_height
from estimator.workflow.jobs import Jobs
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

book = standard_book()
now = Work(plan=sketch_plan("Hall 5 x 2 m"), book=book, job=usual_job(book))
jobs, past = Jobs(Path(sys.argv[1])), ()
for step in range(10_000):
    jobs.save("abcdef012345", History(now=now, past=past[-3:]), after=step)
    os.write(1, b"%d\\n" % step)
    past, now = (*past, now), evolve(now, plan=with_height(now.plan, "room-1", 2 + step / 10_000))
"""
    for attempt in range(2):
        folder = tmp_path / str(attempt)
        with subprocess.Popen(
            [sys.executable, "-c", script, str(folder)], stdout=subprocess.PIPE
        ) as process:
            assert process.stdout
            for _ in range(5 + 7 * attempt):
                process.stdout.readline()
            process.kill()
            said = process.stdout.read().split()
        last = int(said[-1]) if said else 4 + 7 * attempt
        stored = Jobs(folder).load(JOB)
        assert stored.revision >= last + 1
        step = stored.revision - 1
        height = stored.history.now.plan.rooms[0].ceiling_height
        assert height == (2 + (step - 1) / 10_000)


def test_names_of_rooms_in_any_script_come_back(kept: Jobs):
    now = work()
    named = evolve(now, plan=renamed(now.plan, "room-1", "<script>Küche 廚房</script>"))
    kept.save(JOB, History(now=named), after=0)
    assert kept.load(JOB).history.now.plan.rooms[0].name == "<script>Küche 廚房</script>"
