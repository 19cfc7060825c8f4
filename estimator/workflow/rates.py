"""Changing the firm's rates: what that does to open quotes, and keeping it."""

from collections.abc import Callable
from datetime import UTC, datetime

from attrs import frozen

from estimator.errors import EstimatorError, StaleVersion
from estimator.estimation.book import Book
from estimator.estimation.effect import Change, Effect, effect, effect_on_price
from estimator.store.store import Store
from estimator.store.values import Listed, Search, Status
from estimator.workflow.firm_book import FILE, firm_text, keep_firm_text
from estimator.workflow.offers import work_of

MOST_PRICED = 2_000
"""Open quotes reckoned from their figures where only prices change: quick."""

MOST_RECKONED = 100
"""Open quotes reckoned anew from plan to price."""


@frozen(kw_only=True)
class Touched:
    """An open quote, and what a change does to it."""

    quote: Listed
    effect: Effect


@frozen(kw_only=True)
class Reach:
    """What a change does to open quotes, the latest of them where there are too many.

    Parameters
    ----------
    open
        How many there are in all.
    """

    touched: tuple[Touched, ...]
    open: int


def reach(store: Store, change: Change, progress: Callable[[float], object] = bool) -> Reach:
    """Return what a change of the book does to every open quote.

    Parameters
    ----------
    progress
        Told the share done.
    """
    most = MOST_PRICED if change.of_prices_only else MOST_RECKONED
    found = store.quotes.find(Search(statuses=(Status.DRAFT, Status.SENT), most=most))
    figures = store.quotes.figures([row.key for row in found.rows]) if change.of_prices_only else {}
    touched = []
    for number, row in enumerate(found.rows, start=1):
        known = figures.get(row.key)
        done = effect_on_price(known, change) if known else _reckoned(store, row, change)
        touched.append(Touched(quote=row, effect=done))
        progress(number / len(found.rows))
    return Reach(touched=tuple(touched), open=found.count)


def keep_changed(text: str, *, after: str) -> Book:
    """Keep a text as the firm's book.

    Parameters
    ----------
    after
        The text it was changed from.

    Raises
    ------
    StaleVersion
        When somebody else changed the book since; theirs is kept.
    BadEntries
        Naming every mistake.
    """
    if firm_text() != after:
        raise StaleVersion(
            FILE,
            "the rates were changed elsewhere meanwhile",
            "look again at what yours change, then save them over theirs",
        )
    return keep_firm_text(text)


def _reckoned(store: Store, row: Listed, change: Change) -> Effect:
    try:
        work = work_of(store, row.key)
    except EstimatorError as error:
        return Effect(before=row.total, says=str(error))
    return effect(work.plan, work.book, work.job, change, date=row.date, total=row.total)


def this_month() -> str:
    """Return the month that rows changed now are of, ISO 8601."""
    return datetime.now(UTC).strftime("%Y-%m")
