"""Experience: what visits tell about paces, films and losses, offered as a change of the book.

Minutes and litres are held against the book by the model of `pooling`: a factor of the firm on all
of a task, shrunk toward the book, and one of every room use, shrunk toward the firm's. A visit of
which only the whole time is known tells of all its tasks alike. Nothing is applied here: the
changed book is another value, and whoever keeps the book decides.

Litres do not tell whether the film was thicker or more of it missed. Their factor is parted by how
unsure each was before (the posterior of two normal terms whose sum is known), except where a pass
cannot hold more without running off: what is above that can only be lost.
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from math import exp, hypot, sqrt

from attrs import evolve, frozen

from estimator.estimation.book import Book
from estimator.estimation.coverage import Coverage, coverage
from estimator.estimation.pooling import AS_NORMAL, Pooled, Prior, pooled
from estimator.estimation.records import Record, Task, Visit, pace_of, records
from estimator.estimation.spread import Spread
from estimator.measures import Ratio, Share
from estimator.treatment.film import Film
from estimator.visit.equipment import Pace
from estimator.visit.plan import ANY_USE

LEARNED = "learned from"
"""How the source of a row begins that was changed by what visits told."""

BOOK_WORTH = 3.0
"""As many visits is the book's figure worth (our choice)."""

USES_DIFFER: Share = 0.4
"""One standard deviation of a room use from the firm's own factor, as a share of the book's spread
(our guess)."""

RECORDS_DIFFER: Share = 0.3
"""One standard deviation of minutes or litres of one room from those of its like (our guess)."""

LOSS_UNSURE: Share = 0.5
"""One standard deviation of a loss of the book, as a share of it (our guess)."""

_NORMAL_P90 = 1.2816
_LEAST_SPREAD: Share = 0.02


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


class Figure(StrEnum):
    """A figure of the book that experience may change."""

    SPRAY = "surface sprayed in a time"
    PREPARE = "time to prepare a floor area"
    WIPE = "surface wiped in a time"
    FILM = "film"
    LOSS = "loss"
    PACE_SPREAD = "spread of the pace"
    FILM_SPREAD = "spread of the film"


@frozen(kw_only=True)
class Change:
    """One figure of the book as it is and as it is offered, in SI units.

    Parameters
    ----------
    row
        Slug of the room use or name of the lie; empty for a figure of the whole book.
    """

    figure: Figure
    row: str
    before: float
    after: float


@frozen(kw_only=True)
class Experience:
    """All that visits tell about a book.

    Parameters
    ----------
    visits
        How many of them tell something new.
    lessons
        By task: all rooms first, then use by use.
    weights
        How much each record counted; well below 1 for those that stray from the rest.
    book
        The book with the changes; the same book where there is nothing to change.
    """

    visits: int
    records: tuple[Record, ...]
    weights: tuple[float, ...]
    lessons: tuple[Lesson, ...]
    coverage: Coverage
    changes: tuple[Change, ...]
    book: Book


def experience(book: Book, visits: Sequence[Visit]) -> Experience:
    """Return what visits tell about a book, and the book that is offered for it.

    Visits up to the one that the book has learned from already tell nothing new.
    """
    fresh = [one for one in visits if one.outcome.visited > learned_until(book)]
    told = records(fresh, book)
    models = {task: _model(task, told, book.spread) for task in Task}
    held = coverage(fresh)
    offered = _changed(book, fresh, told, models, held) if told else book
    weights = {
        id(record): weight
        for model in models.values()
        for record, weight in zip(model.records, model.told.weights, strict=True)
    }
    return Experience(
        visits=len({record.visit for record in told}),
        records=told,
        weights=tuple(weights[id(record)] for record in told),
        lessons=tuple(lesson for model in models.values() for lesson in model.lessons()),
        coverage=held,
        changes=tuple(_changes(book, offered)),
        book=offered,
    )


def learned_until(book: Book) -> str:
    """Return the day of the last visit that the book has learned from; empty for none."""
    return book.spread.as_of if book.spread.source.startswith(LEARNED) else ""


@frozen(kw_only=True)
class _Model:
    """What the records of one task tell."""

    task: Task
    records: tuple[Record, ...]
    uses: tuple[str, ...]
    told: Pooled

    def factor(self, use: str | None = None) -> Ratio:
        """Return the factor in rooms of a use, that of all rooms where nothing was recorded."""
        return exp(self.told.groups[self.uses.index(use)] if use in self.uses else self.told.centre)

    def lessons(self) -> list[Lesson]:
        """Return the lesson of all rooms and of each use."""
        if not any(one.task is self.task for one in self.records):
            return []
        own = zip(self.uses, self.told.groups, self.told.group_deviations, strict=True)
        return [
            self._lesson(None, self.told.centre, self.told.deviation),
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
            low=exp(centre - _NORMAL_P90 * deviation),
            high=exp(centre + _NORMAL_P90 * deviation),
        )


def _model(task: Task, told: Sequence[Record], spread: Spread) -> _Model:
    about = {task} if task is Task.SOLUTION else {task, Task.VISIT}
    own = tuple(record for record in told if record.task in about)
    uses = tuple(dict.fromkeys(record.use for record in own if record.use is not None))
    visits = {at: place for place, at in enumerate(dict.fromkeys(one.visit for one in own))}
    return _Model(
        task=task,
        records=own,
        uses=uses,
        told=pooled(
            [record.stray for record in own],
            [visits[record.visit] for record in own],
            [None if record.use is None else uses.index(record.use) for record in own],
            _prior(spread.film if task is Task.SOLUTION else spread.pace),
        ),
    )


def _prior(spread: Share) -> Prior:
    """Return the prior whose next visit strays as the book says, its centre worth a few visits."""
    between = max(spread, _LEAST_SPREAD) / sqrt(1 + 1 / BOOK_WORTH)
    return Prior(
        centre=between / sqrt(BOOK_WORTH),
        group=USES_DIFFER * between,
        between=between / AS_NORMAL,
        within=RECORDS_DIFFER / AS_NORMAL,
    )


def _changed(
    book: Book,
    visits: Sequence[Visit],
    told: Sequence[Record],
    models: Mapping[Task, _Model],
    held: Coverage,
) -> Book:
    """Return the book with every figure that the records tell about."""
    taught = {record.visit for record in told}
    day = max(visits[at].outcome.visited for at in taught)
    count = len(taught)
    source = f"{LEARNED} {count} {'visit' if count == 1 else 'visits'} up to {day}"
    paces, films = book.paces, book.films
    if any(models[task].records for task in (Task.SPRAY, Task.PREPARE, Task.WIPE)):
        paces = tuple(_paces(book, models, source, day))
    if models[Task.SOLUTION].records:
        films = tuple(_filmed(film, models, book.spread, source, day) for film in book.films)
    return evolve(
        book,
        paces=paces,
        films=films,
        spread=Spread(
            pace=_spread(book.spread.pace, models[Task.SPRAY], held),
            film=_spread(book.spread.film, models[Task.SOLUTION], held),
            source=source,
            as_of=day,
        ),
    )


def _paces(book: Book, models: Mapping[Task, _Model], source: str, day: str) -> list[Pace]:
    """Return every pace, and one for each use that only now has its own figures."""
    known = {pace.use for pace in book.paces}
    seen = dict.fromkeys(use for model in models.values() for use in model.uses)
    added = [
        evolve(pace, use=use)
        for use in seen
        if use not in known and (pace := pace_of(book, use)) is not None
    ]
    found = []
    for pace in (*book.paces, *added):
        use = None if pace.use == ANY_USE else pace.use
        found.append(
            evolve(
                pace,
                spray=pace.spray / models[Task.SPRAY].factor(use),
                prepare=pace.prepare * models[Task.PREPARE].factor(use),
                wipe=pace.wipe / models[Task.WIPE].factor(use),
                source=source,
                as_of=day,
            )
        )
    return found


def _filmed(
    film: Film, models: Mapping[Task, _Model], spread: Spread, source: str, day: str
) -> Film:
    """Return a film with the factor on its liquid parted between what is laid and what is lost."""
    factor = models[Task.SOLUTION].factor()
    unsure = LOSS_UNSURE * film.loss / (1 + film.loss)
    laid = spread.film**2 / (spread.film**2 + unsure**2 or 1.0)
    whole = factor * film.volume * (1 + film.loss)
    volume = min(film.volume * factor**laid, film.most, whole)
    loss = min(1.0, whole / volume - 1)
    return evolve(film, volume=volume, loss=loss, source=source, as_of=day)


def _spread(before: Share, model: _Model, held: Coverage) -> Share:
    """Return how far the next visit strays, and at least so far that the range had held."""
    learned = model.told.next_visit if model.records else before
    stretched = held.widening * before
    if held.widening > 1:
        learned = max(learned, stretched)
    elif held.widening < 1:
        learned = min(learned, stretched)
    return min(1.0, max(_LEAST_SPREAD, learned))


def _changes(book: Book, offered: Book) -> list[Change]:
    """Return every figure that is offered to change, and by how much."""

    def change(figure: Figure, row: str, before: float, after: float) -> Change:
        return Change(figure=figure, row=row, before=before, after=after)

    rows = []
    for pace in offered.paces:
        old = pace_of(book, pace.use)
        if old is not None:
            rows += [
                change(Figure.SPRAY, pace.use, old.spray, pace.spray),
                change(Figure.PREPARE, pace.use, old.prepare, pace.prepare),
                change(Figure.WIPE, pace.use, old.wipe, pace.wipe),
            ]
    for was, film in zip(book.films, offered.films, strict=True):
        rows.append(change(Figure.FILM, film.lie, was.volume, film.volume))
        rows.append(change(Figure.LOSS, film.lie, was.loss, film.loss))
    rows.append(change(Figure.PACE_SPREAD, "", book.spread.pace, offered.spread.pace))
    rows.append(change(Figure.FILM_SPREAD, "", book.spread.film, offered.spread.film))
    return [
        row for row in rows if abs(row.after - row.before) > 1e-9 * hypot(row.before, row.after)
    ]
