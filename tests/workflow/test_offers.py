from decimal import Decimal

import pytest
from attrs import evolve
from sqlalchemy import update

from estimator.catalogue.loader import packaged_book
from estimator.errors import NotFound, StaleVersion
from estimator.estimation.figures import figures_of
from estimator.plan.edits import with_height
from estimator.store.store import Store
from estimator.store.tables import VersionRow
from estimator.store.values import Client, Key, Site, Status
from estimator.workflow.offers import figures_kept, keep_quote, work_of
from estimator.workflow.pages import File, Page
from estimator.workflow.quoting import estimate, usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import Work

BOOK = packaged_book()
PAGE = Page(file=File(name="Plan ü.png", content=b"\x89PNG not really"))


def work(words: str = "Kitchen 3 x 4 m, hall 5 x 2 m") -> Work:
    plan = evolve(sketch_plan(words), title="Larkfield clinic")
    return Work(plan=plan, book=BOOK, job=usual_job(BOOK), pages=(PAGE,))


def quoted(one: Work):
    return estimate(one.plan, book=one.book, job=one.job, date="2026-11-25")


def site_of(store: Store) -> str:
    client = store.clients.save(Client(name="Larkfield health"), after=0)
    return store.sites.save(Site(name="Clinic", client=client.id), after=0).id


def test_a_version_is_opened_again_as_it_was(store: Store):
    first = work()
    second = evolve(first, plan=with_height(first.plan, "room-1", 3.1))
    second = evolve(second, job=evolve(second.job, discount=Decimal("0.1")))
    one = keep_quote(store, first, quoted(first), site=site_of(store))
    two = keep_quote(store, second, quoted(second), quote_id=one.quote, after=1, note="higher")

    assert (one.number, two) == (1, Key(quote=one.quote, number=2))
    for key, wanted in ((one, first), (two, second)):
        found = work_of(store, key)
        assert (found.plan, found.book, found.job) == (wanted.plan, wanted.book, wanted.job)
        assert found.pages == wanted.pages
        assert quoted(found) == quoted(wanted)


def test_what_the_list_says_of_a_version_is_what_its_quote_says(store: Store):
    first = work()
    quote = quoted(first)
    key = keep_quote(store, first, quote, site=site_of(store), note="as asked for")
    version = store.quotes.version(key)

    assert version.total == quote.price.total
    assert version.treated == pytest.approx(quote.schedule.treated)
    assert version.floor_area == quote.schedule.floor_area
    assert (version.title, version.date) == ("Larkfield clinic", "2026-11-25")
    assert (version.note, version.status, version.after) == ("as asked for", Status.DRAFT, 0)


def test_figures_come_back_exactly(store: Store):
    first = work()
    key = keep_quote(store, first, quoted(first), site=site_of(store))
    assert store.quotes.figures([key]) == {
        key: figures_of(first.plan, quoted(first), first.book, first.job)
    }


def test_figures_that_another_program_kept_are_reckoned_anew(store: Store):
    first = work()
    key = keep_quote(store, first, quoted(first), site=site_of(store))
    with store.database.writing() as session:
        session.execute(update(VersionRow).values(figures='{"title": "of long ago"}'))

    assert store.quotes.figures([key]) == {}
    assert figures_kept(store, [key]) == {
        key: figures_of(first.plan, quoted(first), first.book, first.job)
    }


def test_of_two_who_change_one_quote_the_later_is_told_and_both_are_kept(store: Store):
    first = work()
    one = keep_quote(store, first, quoted(first), site=site_of(store))
    theirs = evolve(first, plan=with_height(first.plan, "room-1", 3.1))
    mine = evolve(first, plan=with_height(first.plan, "room-1", 2.2))
    keep_quote(store, theirs, quoted(theirs), quote_id=one.quote, after=1)
    with pytest.raises(StaleVersion, match="version 2"):
        keep_quote(store, mine, quoted(mine), quote_id=one.quote, after=1)

    three = keep_quote(store, mine, quoted(mine), quote_id=one.quote, after=2)
    assert three.number == 3
    assert work_of(store, three).plan == mine.plan
    assert work_of(store, Key(quote=one.quote, number=2)).plan == theirs.plan


def test_a_quote_of_no_site_and_a_version_of_no_quote_are_refused(store: Store):
    first = work()
    with pytest.raises(NotFound, match="site"):
        keep_quote(store, first, quoted(first))
    with pytest.raises(NotFound, match="quote"):
        keep_quote(store, first, quoted(first), quote_id="nothing", after=3)
    with pytest.raises(NotFound, match="quote"):
        work_of(store, Key(quote="nothing", number=1))
