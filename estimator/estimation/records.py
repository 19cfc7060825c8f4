"""Records: what crews wrote down, room by room and task by task, beside what was foreseen."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from math import log

from attrs import frozen

from estimator.estimation.book import Book
from estimator.estimation.figures import Figures, RoomFigures, usual_film
from estimator.measures import Seconds
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.visit.equipment import Pace
from estimator.visit.plan import ANY_USE

_SLOWER = 1.02
"""Where the nozzle takes so much longer than the crew's pace, minutes tell nothing of the pace."""


class Task(StrEnum):
    """What a record is about."""

    SPRAY = "spraying"
    PREPARE = "preparing"
    WIPE = "wiping"
    SOLUTION = "solution"
    VISIT = "whole visit"


@frozen(kw_only=True)
class Visit:
    """What was foreseen for a visit, and what came of it."""

    figures: Figures
    outcome: Outcome


@frozen(kw_only=True)
class Record:
    """One thing written down about one room, in seconds or cubic metres.

    Parameters
    ----------
    visit
        Its place among the visits.
    use
        Slug of the room use; None for what was written down about the whole visit.
    planned, actual
        What the work sheet said, and what it really was.
    expected
        What the book as it is now foresees; another than planned where it changed meanwhile.
    """

    visit: int
    room: str
    use: str | None
    use_label: str
    task: Task
    planned: float
    actual: float
    expected: float

    @property
    def stray(self) -> float:
        """Logarithm of what was really taken over what the book foresees."""
        return log(self.actual / self.expected)


def records(visits: Sequence[Visit], book: Book) -> tuple[Record, ...]:
    """Return what crews wrote down, as far as it can be held against the book."""
    return tuple(
        record
        for at, visit in enumerate(visits)
        for record in _of_visit(at, visit, book)
        if record.planned > 0 and record.actual > 0 and record.expected > 0
    )


def pace_of(book: Book, use: str) -> Pace | None:
    """Return the pace in rooms of a use: its own, or else that of every use."""
    by_use = {pace.use: pace for pace in book.paces}
    return by_use.get(use) or by_use.get(ANY_USE)


def _of_visit(at: int, visit: Visit, book: Book) -> Iterator[Record]:
    planned = {room.room: room for room in visit.figures.rooms}
    for row in visit.outcome.rows:
        room = planned.get(row.room)
        pace = pace_of(book, room.use) if room else None
        if room is not None and pace is not None:
            yield from _of_room(at, visit.figures, room, row, pace, book)
    if not any(row.time or row.preparing or row.wiping for row in visit.outcome.rows):
        yield from _of_whole_visit(at, visit)


def _of_room(
    at: int, figures: Figures, room: RoomFigures, row: RoomOutcome, pace: Pace, book: Book
) -> Iterator[Record]:
    def record(task: Task, planned: float, actual: float, expected: float) -> Record:
        return Record(
            visit=at,
            room=room.name,
            use=room.use,
            use_label=room.use_label,
            task=task,
            planned=planned,
            actual=actual,
            expected=expected,
        )

    # A pass more than planned takes more liquid and time, at the same film and pace.
    again = row.passes / room.passes if row.passes else 1.0
    film_since = usual_film(book.films) / (figures.usual_film or 1.0)
    if row.volume is not None:
        expected = room.volume * again * film_since
        yield record(Task.SOLUTION, room.volume, row.volume, expected)
    paced = room.gone_over / pace.spray
    if row.time is not None and _flow_time(figures, room, book) <= _SLOWER * paced:
        yield record(Task.SPRAY, room.spray, row.time, again * paced)
    if row.preparing is not None:
        expected = room.floor_area * pace.prepare
        yield record(Task.PREPARE, room.prepare, row.preparing, expected)
    if row.wiping is not None:
        yield record(Task.WIPE, room.wipe, row.wiping, room.wiped / pace.wipe)


def _flow_time(figures: Figures, room: RoomFigures, book: Book) -> Seconds:
    """Return how long the nozzle takes to let out the liquid; 0 for a sprayer nobody knows."""
    flows = [one.flow for one in book.sprayers if one.slug == figures.job.sprayer]
    return room.volume / flows[0] if flows else 0.0


def _of_whole_visit(at: int, visit: Visit) -> Iterator[Record]:
    """Yield the working time of a visit whose rooms were not timed, less what does not grow."""
    figures, outcome = visit.figures, visit.outcome
    if outcome.on_site is None:
        return
    planned = figures.work.crew * (figures.work.on_site - figures.setting_up)
    actual = outcome.crew * (outcome.on_site - figures.setting_up)
    yield Record(
        visit=at,
        room="",
        use=None,
        use_label="All rooms",
        task=Task.VISIT,
        planned=planned,
        actual=actual,
        expected=planned,
    )
