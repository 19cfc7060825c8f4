import json
from pathlib import Path

from attrs import evolve

from estimator.workflow.jobs import Jobs
from estimator.workflow.measuring import standard_book
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

BOOK = standard_book()
JOB = "abcdef012345"
LATER_FACTS = ("uses", "registration", "expires", "mix_keeps", "strong_first")


def as_first_kept(book):
    """The book as data in the form of the first jobs kept: one speed of drying, no air."""
    for section in ("air", "measuring", "precautions", "working_time", "zoning"):
        del book[section]
    for product in book["products"]:
        for fact in (*LATER_FACTS, "droplet_least", "droplet_most"):
            del product[fact]
    source = {"source": "common practice", "as_of": "2026-11"}
    return {**book, "drying": {"evaporation": 0.15 / 3600 / 1000, **source}}


def test_a_job_kept_with_a_speed_of_drying_opens_and_can_be_quoted(tmp_path: Path):
    plan = evolve(sketch_plan("Kitchen 3 x 4 m, hall 5 x 2 m"), title="Larkfield flat")
    kept = Jobs(tmp_path)
    kept.save(JOB, History(now=Work(plan=plan, book=BOOK, job=usual_job(BOOK))), after=0)
    (file,) = tmp_path.rglob("books/*.json")
    file.write_text(json.dumps(as_first_kept(json.loads(file.read_text()))))

    work = Jobs(tmp_path).load(JOB).history.now

    assert (work.plan, work.job) == (plan, usual_job(BOOK))
    assert work.book == evolve(BOOK, zoning=())
    assert estimate(work.plan, book=work.book, job=work.job).solution.volume > 0
