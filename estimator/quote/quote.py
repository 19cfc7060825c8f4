"""The offer."""

from attrs import frozen

from estimator.measures import checked
from estimator.plan.doubt import Doubt
from estimator.price.build_up import Price
from estimator.quote.likely import Range
from estimator.quote.option import Option
from estimator.quote.question import Question
from estimator.quote.terms import Terms
from estimator.surfaces.schedule import Schedule
from estimator.treatment.cautions import Caution
from estimator.treatment.solution import Solution
from estimator.visit.timetable import Timetable

__all__ = ["Provenance", "Quote", "Range"]


@frozen(kw_only=True)
class Provenance:
    """What the quote can be reproduced from: digests of its inputs, version and seed."""

    plan_digest: str
    book_digest: str
    job_digest: str
    version: str
    seed: int


@frozen(kw_only=True, field_transformer=checked)
class Quote:
    """Everything reckoned for a job, and everything it rests on.

    Parameters
    ----------
    date
        Day of the quote, ISO 8601.
    options
        What the client may choose from, the quote's own scope first; none where there is no choice.
    assumptions
        Doubts of the plan and of measuring it, which widen the range.
    questions
        What could be asked, the questions that narrow the range most first.
    provisional
        Whether something must still be confirmed, such as the label, before anyone sprays.
    """

    title: str
    date: str
    schedule: Schedule
    solution: Solution
    timetable: Timetable
    price: Price
    range: Range
    terms: Terms
    options: tuple[Option, ...] = ()
    cautions: tuple[Caution, ...]
    assumptions: tuple[Doubt, ...]
    questions: tuple[Question, ...] = ()
    provenance: Provenance

    @property
    def provisional(self) -> bool:
        """Whether something must still be confirmed before anyone sprays."""
        return bool(self.solution.unconfirmed)
