"""A process killed at any point of saving: what it said was kept is there, whole, and no more."""

import random
import subprocess
import sys
import time

import pytest
from sqlalchemy import text

from estimator.store.values import Search
from estimator.workflow.jobs import Jobs
from estimator.workflow.offers import work_of

SCRIPT = """
import os, sys
from attrs import evolve
from sqlalchemy import make_url
from estimator.plan.edits import with_height
from estimator.store.store import Store
from estimator.store.values import Client, Site
from estimator.workflow.jobs import Jobs
from estimator.catalogue.loader import packaged_book
from estimator.workflow.offers import keep_quote
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

store, book = Store(make_url(sys.argv[1])), packaged_book()
work = Work(plan=sketch_plan("Hall 5 x 2 m"), book=book, job=usual_job(book))
quote = estimate(work.plan, book=book, job=work.job, date="2026-11-25")
for step in range(1, 100_000):
    os.write(1, b"saving\\n")
    work = evolve(work, plan=with_height(work.plan, "room-1", 2 + step / 100_000))
    Jobs(store).save("abcdef012345", History(now=work), after=step - 1)
    with store.together():
        client = store.clients.save(Client(name=f"Client {step}"), after=0)
        site = store.sites.save(Site(name=f"Site {step}", client=client.id), after=0)
        keep_quote(store, work, quote, site=site.id)
    os.write(1, b"%d\\n" % step)
"""


@pytest.mark.parametrize("seed", range(3))
def test_nothing_that_was_kept_is_lost_and_nothing_is_half_kept(empty_database, open_store, seed):
    open_store()
    chance = random.Random(seed)
    url = empty_database.render_as_string(hide_password=False)
    with subprocess.Popen([sys.executable, "-c", SCRIPT, url], stdout=subprocess.PIPE) as process:
        for _ in range(2 * chance.randint(2, 12) - 1):
            process.stdout.readline()
        # Somewhere within a save, which takes some milliseconds.
        time.sleep(chance.uniform(0, 0.02))
        process.kill()
        said = process.stdout.read().split()
    finished = max((int(word) for word in said if word != b"saving"), default=0)

    store = open_store()
    job = Jobs(store).load("abcdef012345")
    height = job.history.now.plan.rooms[0].ceiling_height
    assert height == 2 + job.revision / 100_000
    found = store.quotes.find(Search(most=1000))
    assert job.revision - found.count in (0, 1)
    assert found.count >= finished
    assert len(store.clients.find(most=1000)) == found.count
    for row in found.rows:
        assert work_of(store, row.key).plan.rooms[0].ceiling_height > 2
    if empty_database.get_backend_name() == "sqlite":
        with store.database.reading() as session:
            assert session.scalar(text("PRAGMA integrity_check")) == "ok"
            assert session.execute(text("PRAGMA foreign_key_check")).all() == []
