"""A small firm of the invented town of Larkfield, kept in a store."""

from decimal import Decimal

import pytest
from attrs import evolve
from offered import quoted

from estimator.catalogue.loader import packaged_book
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.store.values import Client, KeptOutcome, Site, Status
from estimator.workflow.jobs import Jobs
from estimator.workflow.offers import keep_quote
from estimator.workflow.pages import File, Page
from estimator.workflow.quoting import usual_job
from estimator.workflow.sketching import sketch_plan
from estimator.workflow.work import History, Work

BOOK = packaged_book()
PAGE = Page(file=File(name="Plan ü.png", content=b"\x89PNG not really"))


@pytest.fixture(scope="session")
def clinic():
    """Work on a clinic of two rooms."""
    plan = evolve(sketch_plan("Kitchen 3 x 4 m, hall 5 x 2 m"), title="Larkfield clinic")
    return Work(plan=plan, book=BOOK, job=usual_job(BOOK), pages=(PAGE,))


@pytest.fixture(scope="session")
def quote(clinic):
    """The quote for the clinic."""
    return quoted(clinic)


@pytest.fixture
def fill(clinic, quote):
    """Keep something of every kind in a store, and tell the quote and the job."""

    def filled(store):
        client = store.clients.save(Client(name="=Larkfield 廚房", contact="+1 (555)"), after=0)
        client = store.clients.save(evolve(client, note="pays late"), after=1)
        site = store.sites.save(Site(name="Clinic, École", client=client.id), after=0)
        first = keep_quote(store, clinic, quote, site=site.id, note="-first")
        store.quotes.set_status(first, Status.SENT)
        dearer = evolve(clinic, job=evolve(clinic.job, crew=3, discount=Decimal("0.1")))
        second = keep_quote(store, dearer, quoted(dearer), quote_id=first.quote, after=1)
        rows = (RoomOutcome(room="room-1", use="kitchen", volume=0.002, passes=1, note="=1+1"),)
        visit = Outcome(visited="2026-11-26", crew=2, on_site=3600.0, rows=rows)
        store.outcomes.save(KeptOutcome(key=second, outcome=visit), after=0)
        Jobs(store).save("abcdef012345", History(now=dearer), after=0, kept_as=second)
        return second

    return filled
