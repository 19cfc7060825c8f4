"""How long comparing, explaining and learning take as sites and visits grow in number.

Each is told beside the same of fewer, in one run; limits are those that the page is held to.
"""

import pytest
from attrs import evolve
from bench_store import grown, least
from streamlit.testing.v1 import AppTest
from streamlit.util import calc_hash

from estimator.catalogue.loader import packaged_book
from estimator.estimation.comparison import Measure, outliers, portfolio, ranked
from estimator.estimation.differences import waterfall
from estimator.estimation.experience import experience
from estimator.estimation.figures import figures_of
from estimator.estimation.records import Visit
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.store.values import Search
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.samples import samples
from estimator.workflow.storing import store
from estimator.workflow.work import Work

BOOK = packaged_book()
JOB = usual_job(BOOK)
COMPARED_WITHIN, SHOWN_WITHIN = 0.3, 1.0  # seconds


@pytest.fixture(scope="module")
def works():
    return [Work(plan=one.truth(), book=BOOK, job=JOB) for one in samples()]


@pytest.fixture(scope="module")
def quotes(works):
    return [estimate(one.plan, book=BOOK, job=JOB, date="2026-11-25") for one in works]


@pytest.fixture(scope="module")
def sites(works, quotes):
    made = zip(works, quotes, strict=True)
    return [figures_of(work.plan, quote, BOOK, JOB) for work, quote in made]


def compared(sites):
    return [ranked(sites, one) for one in Measure], outliers(sites), portfolio(sites)


def test_comparing_explaining_and_learning(sites, capsys):
    def many(count):
        return [sites[at % len(sites)] for at in range(count)]

    def visit(at):
        site = sites[at % len(sites)]
        rows = tuple(
            RoomOutcome(room=one.room, use=one.use, volume=one.volume, time=1.1 * one.spray)
            for one in site.rooms
        )
        outcome = Outcome(visited="2026-12-01", crew=2, on_site=site.work.on_site, rows=rows)
        return Visit(figures=site, outcome=outcome)

    few, fifty, most = (least(lambda count=count: compared(many(count))) for count in (5, 50, 200))
    other = evolve(sites[1], job=evolve(JOB, crew=3, distance=9e3, road_time=900.0))
    explained = least(lambda: waterfall(sites[0], other))
    learned = {
        count: least(lambda count=count: experience(BOOK, [visit(at) for at in range(count)]), 3)
        for count in (10, 100, 500)
    }
    with capsys.disabled():
        print(
            f"\ncomparing 50 sites {fifty * 1e3:.1f} ms, {fifty / few:.0f}× 5 sites; 200 sites "
            f"{most / fifty:.1f}× 50; explaining two {explained / fifty:.0f}× comparing 50"
        )
        growth = ", ".join(
            f"{count} visits {took / learned[10]:.0f}×" for count, took in learned.items()
        )
        print(f"learning from 10 visits {learned[10] * 1e3:.0f} ms; {growth}")
    assert fifty < COMPARED_WITHIN
    assert explained < COMPARED_WITHIN


def test_the_page_of_comparison(tmp_path, monkeypatch, works, quotes, capsys):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    monkeypatch.delenv("DATABASE_URL", raising=False)
    took = {}
    for count in (100, 10_000):
        grown(store(), works[0], quotes[0], count)
        app = AppTest.from_file("../../app.py", default_timeout=60)
        app._page_hash = calc_hash("compare")
        app.run()
        assert not app.exception
        found = store().quotes.find(Search(most=50)).rows
        app.multiselect[0].set_value([one.quote for one in found]).run()
        assert next(one.value for one in app.metric if one.label == "Quotes") == "50"
        took[count] = least(app.run, 5)
    with capsys.disabled():
        print(
            f"\nthe page of 50 sites compared, of 10,000 quotes: {took[10_000] * 1e3:.0f} ms, "
            f"{took[10_000] / took[100]:.1f}× of 100",
            end="",
        )
    assert took[10_000] < SHOWN_WITHIN
