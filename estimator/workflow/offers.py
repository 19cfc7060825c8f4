"""Work kept as versions of quotes, and opened again."""

import json
from collections.abc import Iterable
from typing import Any

from estimator.errors import DocumentError, EstimatorError
from estimator.estimation.figures import Figures, figures_of
from estimator.estimation.offering import terms_of
from estimator.quote.quote import Quote
from estimator.quote.terms import Terms
from estimator.store.quotes import Draft
from estimator.store.store import Store
from estimator.store.values import Key
from estimator.workflow.quoting import estimate
from estimator.workflow.records import read, record_of
from estimator.workflow.work import History, Work


def keep_quote(
    store: Store,
    work: Work,
    quote: Quote,
    *,
    site: str = "",
    quote_id: str = "",
    after: int = 0,
    note: str = "",
) -> Key:
    """Keep the quote for a work as a new quote of a site, or as the next version of a quote.

    Parameters
    ----------
    site
        Id of the site of a new quote.
    quote_id, after
        The quote that gains a version, and the version it was changed from.

    Raises
    ------
    NotFound
        When there is no such site or quote.
    StaleVersion
        When somebody else kept a version since ``after``; theirs is kept.
    """
    record = record_of(History(now=work))
    draft = Draft(
        figures=figures_of(work.plan, quote, work.book, work.job),
        record=record.text,
        files=record.files,
        note=note,
    )
    return store.quotes.save(draft, site=site, quote=quote_id, after=after)


def work_of(store: Store, key: Key) -> Work:
    """Return what a version was reckoned from.

    Raises
    ------
    NotFound
        When there is no such version.
    StoreError
        When it was damaged.
    """
    record, files = store.quotes.record(key)
    return read(record, files, "the quote").now


def kept_quote(store: Store, key: Key) -> tuple[Work, Quote]:
    """Return the work behind a version, and the quote made of it again as of its day.

    Raises
    ------
    DocumentError
        When it comes to another price by the rules of today.
    StoreError
        When it cannot be read any more.
    """
    work, version = work_of(store, key), store.quotes.version(key)
    quote = estimate(work.plan, book=work.book, job=work.job, date=version.date)
    if quote.price.total != version.total:
        raise DocumentError(
            version.title or "the quote",
            "it was made by other rules and comes to another price today",
            "open it and keep a new version first",
        )
    return work, quote


def is_version(store: Store, key: Key, work: Work, date: str) -> bool:
    """Whether a work quoted on a day is what a version was made from, so that it may bear its name.

    Raises
    ------
    NotFound
        When there is no such version.
    """
    if store.quotes.version(key).date != date:
        return False
    return _said(store.quotes.written(key)) == _said(record_of(History(now=work)).text)


def _said(record: str) -> list[Any]:
    """Return what a record says of the work it ends with: its plan, book and job."""
    told = json.loads(record)
    now = told["steps"][told["now"]]
    return [now["plan"], now["book"], now["job"]]


def terms_kept(store: Store, keys: Iterable[Key]) -> dict[Key, Terms]:
    """Return on what terms versions were offered; those that an earlier program kept are left out.

    They follow from the figures that are kept, so that a list costs one question more.
    """
    return {
        key: terms_of(found.job, found.rates, found.total, on=found.date)
        for key, found in store.quotes.figures(keys).items()
    }


def figures_kept(store: Store, keys: Iterable[Key]) -> dict[Key, Figures]:
    """Return the figures of versions, reckoned anew where an earlier program kept others.

    A version that cannot be read or reckoned any more is left out.
    """
    wanted = tuple(keys)
    found = store.quotes.figures(wanted)
    for key in wanted:
        if key not in found:
            try:
                found[key] = _reckoned(store, key)
            except EstimatorError:
                continue
    return found


def _reckoned(store: Store, key: Key) -> Figures:
    work, date = work_of(store, key), store.quotes.version(key).date
    quote = estimate(work.plan, book=work.book, job=work.job, date=date)
    return figures_of(work.plan, quote, work.book, work.job)
