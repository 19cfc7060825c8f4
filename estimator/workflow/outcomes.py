"""What visits really took: written down, held against the estimate, taken into the book."""

from collections.abc import Mapping
from typing import Any

from attrs import frozen

from estimator.catalogue.writing import toml_text
from estimator.errors import QuantityError
from estimator.estimation.book import Book
from estimator.estimation.experience import LEARNED, Experience, experience
from estimator.estimation.figures import Figures
from estimator.estimation.records import Visit, records
from estimator.quantities import Units
from estimator.quantities.shown import CREW_VOLUMES
from estimator.quote.outcome import Outcome, RoomOutcome
from estimator.store.store import Store
from estimator.store.values import KeptOutcome, Key
from estimator.treatment.film import Film
from estimator.visit.equipment import Pace
from estimator.workflow.firm_book import Rows, rows_of
from estimator.workflow.offers import figures_kept
from estimator.workflow.rates import keep_changed

_FAR = 3.0
"""What is so many times more or less than planned is asked about: most are slips of the pen."""


@frozen(kw_only=True)
class Written:
    """What the crew wrote down about a room, in minutes and the crew's unit of volume."""

    volume: float | None = None
    minutes: float | None = None
    passes: int | None = None
    preparing: float | None = None
    wiping: float | None = None
    note: str = ""

    @property
    def nothing(self) -> bool:
        """Whether nothing was measured or said; the passes alone are what was planned."""
        measured = (self.volume, self.minutes, self.preparing, self.wiping)
        return not self.note.strip() and all(one is None for one in measured)


def outcome_of(
    figures: Figures,
    written: Mapping[str, Written],
    units: Units,
    *,
    visited: str,
    crew: int,
    minutes: float | None,
    note: str,
) -> Outcome:
    """Return the outcome of a visit from what the crew wrote down.

    Parameters
    ----------
    written
        By the id of the room.
    minutes
        From arrival to leaving.

    Raises
    ------
    QuantityError
        When nothing was written down.
    """
    rows = tuple(
        _row(room.room, room.use, written[room.room], units)
        for room in figures.rooms
        if room.room in written and not written[room.room].nothing
    )
    if not rows and minutes is None:
        raise QuantityError(
            "the visit", "nothing was written down", "give the minutes on site or of a room"
        )
    return Outcome(
        visited=visited,
        crew=crew,
        on_site=_seconds(minutes),
        rows=rows,
        note=note.strip(),
    )


def written_in(outcome: Outcome, units: Units) -> dict[str, Written]:
    """Return what stands in an outcome as the crew wrote it, by the id of the room."""
    _, size = CREW_VOLUMES[units]
    return {
        row.room: Written(
            volume=None if row.volume is None else row.volume / size,
            minutes=_minutes(row.time),
            passes=row.passes,
            preparing=_minutes(row.preparing),
            wiping=_minutes(row.wiping),
            note=row.note,
        )
        for row in outcome.rows
    }


def far_off(figures: Figures, outcome: Outcome, book: Book) -> tuple[str, ...]:
    """Return a few words on each record that is several times more or less than planned."""
    return tuple(
        f"{one.room or 'on site'}: {one.task}"
        for one in records([Visit(figures=figures, outcome=outcome)], book)
        if not 1 / _FAR <= one.actual / one.planned <= _FAR
    )


def keep_outcome(
    store: Store, key: Key, outcome: Outcome, before: KeptOutcome | None
) -> KeptOutcome:
    """Keep an outcome: a new one, or a correction of one that was kept before.

    Raises
    ------
    NotFound
        When the quote is not kept.
    StaleVersion
        When somebody else corrected it meanwhile; theirs is kept.
    """
    kept = KeptOutcome(id=before.id if before else "", key=key, outcome=outcome)
    return store.outcomes.save(kept, after=before.version if before else 0)


def experience_kept(store: Store, book: Book) -> Experience:
    """Return what all outcomes that were kept tell about a book."""
    outcomes = store.outcomes.all()
    figures = figures_kept(store, dict.fromkeys(one.key for one in outcomes))
    return experience(
        book,
        [
            Visit(figures=figures[one.key], outcome=one.outcome)
            for one in outcomes
            if one.key in figures
        ],
    )


def take_over(told: Experience, *, after: str) -> Book:
    """Keep what visits told as the firm's own rows, and return the book they make.

    Parameters
    ----------
    after
        The text of the firm's book that it was learned against.

    Raises
    ------
    StaleVersion
        When somebody else changed the book since.
    BadEntries
        Naming every mistake; what was kept before stays.
    """
    return keep_changed(toml_text(_with_learned(rows_of(after), told.book)), after=after)


def _with_learned(rows: Rows, book: Book) -> Rows:
    """Return the firm's rows with those that experience changes, spelled as in its files."""
    spread = book.spread
    learned: Rows = {
        "paces": {one.use: _pace(one) for one in book.paces if one.source.startswith(LEARNED)},
        "films": {
            one.lie.value: _film(one) for one in book.films if one.source.startswith(LEARNED)
        },
        "spread": {
            "film": _rounded(spread.film),
            "pace": _rounded(spread.pace),
            "source": spread.source,
            "as_of": spread.as_of,
        },
    }
    merged = dict(rows)
    for section, content in learned.items():
        own = dict(merged.get(section, {}))
        for name, given in content.items():
            both = isinstance(own.get(name), Mapping) and isinstance(given, Mapping)
            own[name] = {**own[name], **given} if both else given
        merged[section] = own
    return merged


def _pace(pace: Pace) -> dict[str, Any]:
    return {
        "spray": f"{_rounded(60 * pace.spray)} m^2/min",
        "prepare": f"{_rounded(pace.prepare)} s/m^2",
        "wipe": f"{_rounded(60 * pace.wipe)} m^2/min",
        "air_changes": f"{_rounded(3600 * pace.air_changes)} 1/h",
        "source": pace.source,
        "as_of": pace.as_of,
    }


def _film(film: Film) -> dict[str, Any]:
    return {
        "volume": f"{min(_rounded(1e6 * film.volume), _rounded(1e6 * film.most))} mL/m^2",
        "most": f"{_rounded(1e6 * film.most)} mL/m^2",
        "loss": _rounded(film.loss),
        "source": film.source,
        "as_of": film.as_of,
    }


def _rounded(value: float) -> float:
    """Return a figure to four digits, as people write it into a book."""
    return float(f"{value:.4g}")


def _row(room: str, use: str, written: Written, units: Units) -> RoomOutcome:
    _, size = CREW_VOLUMES[units]
    return RoomOutcome(
        room=room,
        use=use,
        volume=None if written.volume is None else written.volume * size,
        passes=written.passes,
        time=_seconds(written.minutes),
        preparing=_seconds(written.preparing),
        wiping=_seconds(written.wiping),
        note=written.note.strip(),
    )


def _seconds(minutes: float | None) -> float | None:
    return None if minutes is None else 60 * minutes


def _minutes(seconds: float | None) -> float | None:
    return None if seconds is None else seconds / 60
