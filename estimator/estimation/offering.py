"""The terms of an offer from the job and the rates."""

from datetime import date, timedelta

from estimator.errors import PriceError
from estimator.estimation.job import Job
from estimator.price.money import Money, rounded
from estimator.price.rates import Rates
from estimator.price.recurrence import term_discount
from estimator.quote.terms import Terms


def terms_of(job: Job, rates: Rates, total: Money, *, on: str) -> Terms:
    """Return the terms of what a client pays a visit, offered on a day, ISO 8601.

    Raises
    ------
    PriceError
        When the day is none, or the offer would hold beyond all calendars.
    """
    try:
        until = date.fromisoformat(on) + timedelta(days=rates.valid_days)
    except (ValueError, OverflowError):
        raise PriceError(
            on or "date",
            "no offer can be dated so",
            "write the day of the quote like 2026-03-02",
        ) from None
    return Terms(
        valid_until=until.isoformat(),
        deposit=rounded(rates.deposit * total.amount, total.currency, rates.rounding_halves),
        visits=job.visits,
        every=job.every,
        term_total=Money(job.visits * total.amount, total.currency),
        term_discount=term_discount(rates.term_discounts, job.visits),
        fixed=job.fixed,
    )
