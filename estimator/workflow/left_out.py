"""Pages and files that give no plan: said as doubts beside the plan of the others."""

from collections.abc import Iterator, Sequence

from attrs import frozen

from estimator.errors import EmptyPage, EstimatorError, NoClosedRoom, ReadingError
from estimator.plan.doubt import Aspect, Doubt
from estimator.workflow.picture_reading import REMEDY

_RIGHTLY = 0.8  # left out


@frozen(kw_only=True)
class LeftOut:
    """A page or several that are left out, or a whole file where ``page`` is empty."""

    file: str
    page: str
    error: EstimatorError

    @property
    def shows_no_plan(self) -> bool:
        """Whether it could be looked at."""
        return isinstance(self.error, ReadingError | EmptyPage)


def refusal(left: Sequence[LeftOut]) -> EstimatorError:
    """Return the sentence that says why there is no plan at all."""
    if len(left) == 1 or not any(one.shows_no_plan for one in left):
        return left[0].error
    names = list(dict.fromkeys(one.file for one in left))
    problem = (
        f"none of its {len(left)} pages shows a plan" if len(names) == 1 else "none shows a plan"
    )
    return NoClosedRoom(_listed(names), problem, REMEDY)


def doubts_of(left: Sequence[LeftOut]) -> Iterator[Doubt]:
    """Yield what is left out and why, the pages of a file that show no plan together."""
    pages: dict[str, list[str]] = {}
    for one in left:
        if one.shows_no_plan and one.page:
            pages.setdefault(one.file, []).append(one.page)
        else:
            where = f"Page {one.page} of {one.file}" if one.page else one.file
            yield _doubt(f"{where} is left out: {one.error.problem}; {one.error.remedy}.")
    for file, numbers in pages.items():
        if len(numbers) == 1:
            yield _doubt(f"Page {numbers[0]} of {file} shows no plan and is left out.")
        else:
            yield _doubt(f"Pages {_listed(numbers)} of {file} show no plan and are left out.")


def _doubt(says: str) -> Doubt:
    return Doubt(aspect=Aspect.OTHER, says=says, confidence=_RIGHTLY)


def _listed(words: Sequence[str]) -> str:
    return f"{', '.join(words[:-1])} and {words[-1]}" if len(words) > 1 else words[0]
