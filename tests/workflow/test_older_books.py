import json

from attrs import evolve

from estimator.catalogue.loader import packaged_book
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.records import read, record_of
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

BOOK = packaged_book()
LATER_FACTS = ("uses", "registration", "expires", "mix_keeps", "strong_first")


def as_first_kept(book):
    """The book as data in the form of the first jobs kept: one speed of drying, no air, one tax."""
    for section in ("air", "measuring", "precautions", "working_time", "zoning", "firm"):
        book.pop(section, None)
    for product in book["products"]:
        for fact in (*LATER_FACTS, "droplet_least", "droplet_most"):
            del product[fact]
    rates = {**book["rates"], "tax": "0.07", "tax_label": "Sales tax"}
    for later in ("place", "places"):
        rates.pop(later, None)
    source = {"source": "common practice", "as_of": "2026-11"}
    drying = {"evaporation": 0.15 / 3600 / 1000, **source}
    return {**book, "rates": rates, "drying": drying}


def test_a_job_kept_with_a_speed_of_drying_opens_and_can_be_quoted():
    plan = evolve(sketch_plan("Kitchen 3 x 4 m, hall 5 x 2 m"), title="Larkfield flat")
    record = record_of(History(now=Work(plan=plan, book=BOOK, job=usual_job(BOOK))))
    files = {name: make() for name, make in record.files.items()}
    (book,) = [name for name in files if name.startswith("books/")]
    files[book] = json.dumps(as_first_kept(json.loads(files[book]))).encode()

    work = read(record.text, files).now

    assert (work.plan, work.job) == (plan, usual_job(BOOK))
    assert (work.book.air, work.book.precautions) == (BOOK.air, BOOK.precautions)
    assert (work.book.zones, work.book.zoning) == (BOOK.zones, ())
    quote = estimate(work.plan, book=work.book, job=work.job)
    assert quote.solution.volume > 0
    assert [line.label for line in quote.price.taxes] == ["Sales tax"]
