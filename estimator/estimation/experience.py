"""Experience: what visits tell about paces, films and losses, offered as a change of the book.

Nothing is applied here: the changed book is another value, and whoever keeps the book decides.

Litres do not tell whether the film was thicker or more of it missed. Their factor is parted by how
unsure each was before (the posterior of two normal terms whose sum is known [1]_), except where a
pass cannot hold more without running off: what is above that can only be lost.

References
----------
.. [1] Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), appendix A: conditional distributions
   of the multivariate normal (from memory).
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from math import hypot

from attrs import evolve, frozen

from estimator.estimation.book import Book
from estimator.estimation.coverage import Coverage, coverage
from estimator.estimation.lessons import LEAST_SPREAD, Lesson, Told, told_of
from estimator.estimation.records import Record, Task, Visit, pace_of, records
from estimator.estimation.spread import Spread
from estimator.measures import Share
from estimator.treatment.film import Film
from estimator.visit.equipment import Pace
from estimator.visit.plan import ANY_USE

LEARNED = "learned from"
"""How the source of a row begins that was changed by what visits told."""

LOSS_UNSURE: Share = 0.5
"""One standard deviation of a loss of the book, as a share of it (our guess)."""


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
    written = records(fresh, book)
    models = {task: told_of(task, written, book.spread) for task in Task}
    held = coverage(fresh)
    offered = _changed(book, fresh, written, models, held) if written else book
    weights = {
        id(record): weight
        for model in models.values()
        for record, weight in zip(model.records, model.pooled.weights, strict=True)
    }
    return Experience(
        visits=len({record.visit for record in written}),
        records=written,
        weights=tuple(weights[id(record)] for record in written),
        lessons=tuple(lesson for model in models.values() for lesson in model.lessons()),
        coverage=held,
        changes=tuple(_changes(book, offered)),
        book=offered,
    )


def learned_until(book: Book) -> str:
    """Return the day of the last visit that the book has learned from; empty for none."""
    return book.spread.as_of if book.spread.source.startswith(LEARNED) else ""


def _changed(
    book: Book,
    visits: Sequence[Visit],
    written: Sequence[Record],
    models: Mapping[Task, Told],
    held: Coverage,
) -> Book:
    """Return the book with every figure that the records tell about."""
    taught = {record.visit for record in written}
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


def _paces(book: Book, models: Mapping[Task, Told], source: str, day: str) -> list[Pace]:
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


def _filmed(film: Film, models: Mapping[Task, Told], spread: Spread, source: str, day: str) -> Film:
    """Return a film with the factor on its liquid parted between what is laid and what is lost."""
    factor = models[Task.SOLUTION].factor()
    unsure = LOSS_UNSURE * film.loss / (1 + film.loss)
    laid = spread.film**2 / (spread.film**2 + unsure**2 or 1.0)
    whole = factor * film.volume * (1 + film.loss)
    volume = min(film.volume * factor**laid, film.most, whole)
    loss = min(1.0, whole / volume - 1)
    return evolve(film, volume=volume, loss=loss, source=source, as_of=day)


def _spread(before: Share, model: Told, held: Coverage) -> Share:
    """Return how far the next visit strays, and at least so far that the range had held."""
    learned = model.pooled.next_visit if model.records else before
    stretched = held.widening * before
    if held.widening > 1:
        learned = max(learned, stretched)
    elif held.widening < 1:
        learned = min(learned, stretched)
    return min(1.0, max(LEAST_SPREAD, learned))


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
