"""The work on one site: what was made so far, and the steps there and back."""

from attrs import frozen

from estimator.estimation.book import Book
from estimator.estimation.job import Job
from estimator.plan.plan import Plan
from estimator.workflow.pages import Page


@frozen(kw_only=True, eq=False)
class Work:
    """What the user has made so far, with the pages it was read from; a change makes another.

    Parameters
    ----------
    document
        Tells one plan that was opened from the next.
    """

    plan: Plan
    book: Book
    job: Job
    pages: tuple[Page, ...] = ()
    document: int = 0


@frozen(kw_only=True, eq=False)
class History:
    """The work as it stands, what it was before, and what was undone.

    Parameters
    ----------
    past
        The oldest first.
    future
        What would be done again first, last.
    """

    now: Work
    past: tuple[Work, ...] = ()
    future: tuple[Work, ...] = ()
