"""Measure the surfaces of a plan."""

from estimator.estimation.book import Book
from estimator.plan.plan import Plan
from estimator.surfaces import measure as surfaces
from estimator.surfaces.schedule import Schedule
from estimator.surfaces.scope import Scope
from estimator.workflow.firm_book import firm_book


def standard_book() -> Book:
    """Return the packaged book with the firm's own rows laid over it.

    Raises
    ------
    CatalogueError
        Naming every mistake in the firm's file.
    """
    return firm_book()


def measure(plan: Plan, *, book: Book | None = None, scope: Scope | None = None) -> Schedule:
    """Return every surface of every room, in m².

    Raises
    ------
    PlanError
        When the plan has no scale yet.
    """
    return surfaces.measure(plan, (book or standard_book()).surfaces, scope or Scope())
