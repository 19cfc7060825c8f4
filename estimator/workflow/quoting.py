"""Quote the treatment of a plan with the packaged book or the firm's own."""

from datetime import UTC, datetime
from importlib.metadata import version

from estimator.errors import CatalogueError
from estimator.estimation import chain
from estimator.estimation.book import Book
from estimator.estimation.job import Job
from estimator.plan.plan import Plan
from estimator.quote.quote import Quote
from estimator.workflow.measuring import standard_book


def usual_job(book: Book) -> Job:
    """Return the job that a book's first product and sprayer suggest.

    Raises
    ------
    CatalogueError
        When the book lists no product or no sprayer.
    """
    if not book.products or not book.sprayers:
        raise CatalogueError(
            "book", "it lists no product or no sprayer", "add at least one of each"
        )
    return Job(product=book.products[0].slug, sprayer=book.sprayers[0].slug)


def estimate(
    plan: Plan, *, book: Book | None = None, job: Job | None = None, date: str = ""
) -> Quote:
    """Return the quote for treating a plan; the date defaults to today's.

    Raises
    ------
    EstimatorError
        One sentence on what keeps the plan from being quoted.
    """
    book = book or standard_book()
    return chain.estimate(
        plan,
        book,
        job or usual_job(book),
        date=date or datetime.now(UTC).date().isoformat(),
        version=version("estimator"),
    )
