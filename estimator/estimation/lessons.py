"""Lessons: what records tell of each task, in all rooms and in those of each use.

Minutes and litres are held against the book by the model of `pooling`: a factor of the firm on all
of a task, shrunk toward the book, and one of every room use, shrunk toward the firm's. A visit of
which only the whole time is known tells of all its tasks alike.
"""

from collections.abc import Sequence
from math import exp, sqrt

from attrs import frozen

from estimator.estimation.pooling import AS_NORMAL, NORMAL_P90, Pooled, Prior, pooled
from estimator.estimation.records import Record, Task
from estimator.estimation.spread import Spread
from estimator.measures import Ratio, Share

BOOK_WORTH = 3.0
"""As many visits is the book's figure worth (our choice)."""

USES_DIFFER: Share = 0.4
"""One standard deviation of a room use from the firm's own factor, as a share of the book's spread
(our guess)."""

RECORDS_DIFFER: Share = 0.3
"""One standard deviation of minutes or litres of one room from those of its like (our guess)."""

LEAST_SPREAD: Share = 0.02
"""No firm's visits are taken to be more alike than this."""


@frozen(kw_only=True)
class Lesson:
    """What records tell of one task in rooms of one use, as a factor on what the book foresees.

    Parameters
    ----------
    use
        Slug of the room use; None for all rooms.
    planned, actual
        Sums over the records, in seconds or cubic metres.
    factor
        Of the time or liquid; the book's is right at 1.
    low, high
        P10 and P90 of the factor.
    """

    task: Task
    use: str | None
    label: str
    records: int
    visits: int
    planned: float
    actual: float
    factor: Ratio
    low: Ratio
    high: Ratio


@frozen(kw_only=True)
class Told:
    """What the records of one task tell."""

    task: Task
    records: tuple[Record, ...]
    uses: tuple[str, ...]
    pooled: Pooled

    def factor(self, use: str | None = None) -> Ratio:
        """Return the factor in rooms of a use, that of all rooms where nothing was recorded."""
        return exp(
            self.pooled.groups[self.uses.index(use)] if use in self.uses else self.pooled.centre
        )

    def lessons(self) -> list[Lesson]:
        """Return the lesson of all rooms and of each use."""
        if not any(one.task is self.task for one in self.records):
            return []
        own = zip(self.uses, self.pooled.groups, self.pooled.group_deviations, strict=True)
        return [
            self._lesson(None, self.pooled.centre, self.pooled.deviation),
            *(self._lesson(*each) for each in own),
        ]

    def _lesson(self, use: str | None, centre: float, deviation: float) -> Lesson:
        own = [one for one in self.records if one.task is self.task and use in (None, one.use)]
        return Lesson(
            task=self.task,
            use=use,
            label="All rooms" if use is None else own[0].use_label,
            records=len(own),
            visits=len({one.visit for one in own}),
            planned=sum(one.planned for one in own),
            actual=sum(one.actual for one in own),
            factor=exp(centre),
            low=exp(centre - NORMAL_P90 * deviation),
            high=exp(centre + NORMAL_P90 * deviation),
        )


def told_of(task: Task, records: Sequence[Record], spread: Spread) -> Told:
    """Return what the records tell of a task, a spread of the book being what was known before."""
    about = {task} if task is Task.SOLUTION else {task, Task.VISIT}
    own = tuple(record for record in records if record.task in about)
    uses = tuple(dict.fromkeys(record.use for record in own if record.use is not None))
    visits = {at: place for place, at in enumerate(dict.fromkeys(one.visit for one in own))}
    return Told(
        task=task,
        records=own,
        uses=uses,
        pooled=pooled(
            [record.stray for record in own],
            [visits[record.visit] for record in own],
            [None if record.use is None else uses.index(record.use) for record in own],
            _prior(spread.film if task is Task.SOLUTION else spread.pace),
        ),
    )


def _prior(spread: Share) -> Prior:
    """Return the prior whose next visit strays as the book says, its centre worth a few visits."""
    between = max(spread, LEAST_SPREAD) / sqrt(1 + 1 / BOOK_WORTH)
    return Prior(
        centre=between / sqrt(BOOK_WORTH),
        group=USES_DIFFER * between,
        between=between / AS_NORMAL,
        within=RECORDS_DIFFER / AS_NORMAL,
    )
