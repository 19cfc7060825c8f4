"""What every plan of a batch is priced with."""

from importlib.metadata import version

from attrs import field, frozen

from estimator.estimation.book import Book
from estimator.estimation.digest import value_digest
from estimator.estimation.job import Job


@frozen(kw_only=True, eq=False)
class Basis:
    """One book, one set of choices for the visit, and the version that reckons."""

    book: Book
    job: Job
    version: str = field(factory=lambda: version("estimator"))
    digest: str = field(init=False)

    @digest.default
    def _digest(self) -> str:
        return value_digest((self.book, self.job))
