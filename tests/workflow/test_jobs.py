import json
from decimal import Decimal
from pathlib import Path

import pytest
from attrs import evolve
from sqlalchemy import select

from estimator.catalogue.loader import packaged_book
from estimator.errors import NotFound, StaleVersion, StoreError
from estimator.lettering.consensus import Vote
from estimator.plan.edits import renamed, with_height
from estimator.store.store import Store
from estimator.store.tables import FileRow
from estimator.workflow.files import plan_from_text
from estimator.workflow.jobs import MOST_STEPS, Jobs, new_id
from estimator.workflow.pages import File, Page
from estimator.workflow.quoting import usual_job
from estimator.workflow.records import read, record_of
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

BOOK = packaged_book()
VOTE = Vote(says="Hall", kind="sides", metres_per_px=0.01, relative_error=0.1, agrees=True)
PAGE = Page(
    file=File(name="a/../Plan ü.PNG", content=b"\x89PNG not really"), dpi=96.0, votes=(VOTE,)
)
JOB = "abcdef012345"


@pytest.fixture
def kept(store: Store) -> Jobs:
    return Jobs(store)


def names(kept: Jobs) -> list[str]:
    """Return the names of all files that are kept."""
    with kept.store.database.reading() as session:
        return list(session.scalars(select(FileRow.name).order_by(FileRow.name)))


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

    stored = kept.load(JOB)
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
    job = kept.store.jobs.load(JOB)

    book, picture, plan = sorted(job.files)
    assert plan_from_text("plan.json", job.files[plan]) == now.plan
    assert json.loads(job.files[book])["rates"]["currency"] == "USD"
    assert job.files[picture] == PAGE.file.content
    assert picture.endswith(".png")
    assert json.loads(job.record)["title"] == "Larkfield flat"


def test_pictures_and_books_are_kept_once_for_all_jobs(kept: Jobs):
    now = work()
    kept.save(JOB, History(now=now), after=0)
    kept.save(JOB, History(now=higher(now, 3.0), past=(now,)), after=1)
    kept.save(new_id(), History(now=higher(now, 3.1)), after=0)
    assert [name.split("/")[0] for name in names(kept)] == [
        "books",
        "pictures",
        "plans",
        "plans",
        "plans",
    ]


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


def test_only_so_many_steps_are_kept_and_what_nobody_needs_goes(kept: Jobs):
    past: tuple[Work, ...] = ()
    now = work()
    for step in range(MOST_STEPS + 8):
        kept.save(JOB, History(now=now, past=past), after=step)
        past, now = (*past, now), higher(now, 2.5 + 0.01 * step)

    assert len(kept.load(JOB).history.past) == MOST_STEPS
    assert len([name for name in names(kept) if name.startswith("plans")]) == MOST_STEPS + 1


def test_what_another_job_needs_stays(kept: Jobs):
    first, other = work(), new_id()
    kept.save(JOB, History(now=first), after=0)
    kept.save(other, History(now=first), after=0)
    kept.save(JOB, History(now=higher(first, 3.0)), after=1)
    assert same(kept.load(other).history.now, first)


def test_recent_jobs_are_listed_the_latest_first(kept: Jobs):
    for at, name in enumerate(("Clinic", "Cafe", "School wing")):
        now = work()
        titled = evolve(now, plan=evolve(now.plan, title=name))
        kept.save(f"job00{at}", History(now=titled), after=0)

    assert [entry.title for entry in kept.recent()] == ["School wing", "Cafe", "Clinic"]
    assert [entry.title for entry in kept.recent(1)] == ["School wing"]
    assert kept.recent()[0].rooms == 2


@pytest.mark.parametrize(
    "job", ["", "../../etc", "a/b", "ABCDEF", "x" * 80, "é" * 8, "abcdef012345"]
)
def test_a_job_that_is_not_there_is_said_so(kept: Jobs, job: str):
    with pytest.raises(NotFound):
        kept.load(job)


@pytest.mark.parametrize("part", ["plans", "books"])
@pytest.mark.parametrize("damage", [b"", b"[]", b"{}", b"\xff", None])
def test_a_damaged_file_is_one_sentence(part: str, damage: bytes | None):
    record = record_of(History(now=work()))
    files = {name: make() for name, make in record.files.items()}
    (name,) = (name for name in files if name.startswith(part))
    del files[name]
    if damage is not None:
        files[name] = damage
    with pytest.raises(StoreError, match=r"\.$"):
        read(record.text, files)


@pytest.mark.parametrize("damage", ["", "[]", "{}", '{"schema": "job/2"}'])
def test_a_damaged_record_is_one_sentence(damage: str):
    with pytest.raises(StoreError, match=r"\.$"):
        read(damage, {})


def test_a_folder_that_cannot_be_written_is_one_sentence(tmp_path: Path):
    (tmp_path / "here").write_text("in the way")
    with pytest.raises(StoreError, match="can be kept"):
        Store.in_folder(tmp_path / "here")


def test_names_of_rooms_in_any_script_come_back(kept: Jobs):
    now = work()
    named = evolve(now, plan=renamed(now.plan, "room-1", "<script>Küche 廚房</script>"))
    kept.save(JOB, History(now=named), after=0)
    assert kept.load(JOB).history.now.plan.rooms[0].name == "<script>Küche 廚房</script>"
