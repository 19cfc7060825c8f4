"""What a change of the book does to quotes that are still open.

A quote keeps the book it was made with, which may know things of its own, such as a pace told on a
call. Only what the change touches is taken over; all else stays as the quote has it.
"""

from typing import Any

import attrs
from attrs import evolve, frozen

from estimator.errors import EstimatorError
from estimator.estimation.book import Book
from estimator.estimation.chain import estimate
from estimator.estimation.figures import Figures
from estimator.estimation.job import Job
from estimator.plan.plan import Plan
from estimator.price.build_up import price
from estimator.price.money import Money


@frozen(kw_only=True)
class Change:
    """A book before and after a change."""

    before: Book
    after: Book

    @property
    def of_prices_only(self) -> bool:
        """Whether it leaves the work on every site as it was."""
        before, after = (evolve(book, rates=self.after.rates) for book in (self.before, self.after))
        return evolve(before, firm=after.firm) == after

    def made_in(self, book: Book) -> Book:
        """Return another book with the change made in it."""
        made: Book = _made_in(book, self.before, self.after)
        return made


@frozen(kw_only=True)
class Effect:
    """What a quote comes to by a change; no total, but a sentence, where it cannot be reckoned."""

    before: Money
    after: Money | None = None
    says: str = ""


def effect(plan: Plan, book: Book, job: Job, change: Change, *, date: str, total: Money) -> Effect:
    """Return what a change does to a quote, reckoned anew from what it was made of.

    Parameters
    ----------
    date
        Day of the quote, ISO 8601.
    total
        What the client was told.
    """
    try:
        quote = estimate(plan, change.made_in(book), job, date=date, version="")
    except EstimatorError as error:
        return Effect(before=total, says=str(error))
    return Effect(before=total, after=quote.price.total)


def effect_on_price(figures: Figures, change: Change) -> Effect:
    """Return what a change of prices alone does to a quote: the same work at other rates."""
    rates = _made_in(figures.rates, change.before.rates, change.after.rates)
    try:
        offer = price(figures.work, rates, figures.job.conditions)
    except EstimatorError as error:
        return Effect(before=figures.total, says=str(error))
    return Effect(before=figures.total, after=offer.total)


def _made_in(own: Any, before: Any, after: Any) -> Any:
    """Return a value of another book with what was changed in the book changed in it."""
    if before == after:
        return own
    if own == before or type(own) is not type(after):
        return after
    if attrs.has(type(own)):
        names = [field.name for field in attrs.fields(type(own)) if field.init]
        changed = {
            name: _made_in(getattr(own, name), getattr(before, name), getattr(after, name))
            for name in names
        }
        return evolve(own, **changed)
    if isinstance(own, tuple):
        return _rows_made_in(own, before, after)
    return after


def _rows_made_in(own: tuple[Any, ...], before: tuple[Any, ...], after: tuple[Any, ...]) -> Any:
    """Return rows with those changed that were changed, taken out that were, and new ones added."""
    mine, old, new = _by_name(own), _by_name(before), _by_name(after)
    if mine is None or old is None or new is None:
        return after
    kept = {
        name: _made_in(row, old[name], new[name]) if name in old and name in new else row
        for name, row in mine.items()
        if name in new or name not in old
    }
    added = {name: row for name, row in new.items() if name not in old}
    return tuple((kept | added).values())


def _by_name(rows: tuple[Any, ...]) -> dict[Any, Any] | None:
    """Return rows by their first field, which names them; None where it does not."""
    if not all(attrs.has(type(row)) for row in rows):
        return None
    named = {getattr(row, attrs.fields(type(row))[0].name): row for row in rows}
    return named if len(named) == len(rows) else None
