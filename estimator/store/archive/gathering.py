"""All that a database keeps, as plain data."""

import json
from collections import defaultdict
from collections.abc import Iterator
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from estimator.store.converting import converter
from estimator.store.tables import (
    JobFileRow,
    JobRow,
    QuoteRow,
    TextRow,
    VersionFileRow,
    VersionRow,
)

Data = dict[str, Any]

_AT_ONCE = 200  # rows, or quotes, in memory


def texts_of(session: Session, kind: str) -> Iterator[Data]:
    """Yield everything of one kind that is kept in versions, each with all of them."""
    query = (
        select(TextRow)
        .where(TextRow.kind == kind)
        .order_by(TextRow.id, TextRow.version)
        .execution_options(yield_per=_AT_ONCE)
    )
    one: Data | None = None
    for row in session.scalars(query):
        if one is None or one["id"] != row.id:
            if one is not None:
                yield one
            one = {"id": row.id, "texts": []}
        one["texts"].append({"saved_at": row.saved_at, "content": json.loads(row.content)})
    if one is not None:
        yield one


def quotes_of(session: Session) -> Iterator[Data]:
    """Yield all quotes, each with its versions."""
    quotes = session.execute(
        select(QuoteRow.id, QuoteRow.site, QuoteRow.number).order_by(QuoteRow.id)
    ).all()
    for at in range(0, len(quotes), _AT_ONCE):
        some = quotes[at : at + _AT_ONCE]
        versions = _versions(session, [one.id for one in some])
        for one in some:
            yield {
                "id": one.id,
                "site": one.site,
                "number": one.number,
                "versions": versions[one.id],
            }


def _versions(session: Session, quotes: list[str]) -> dict[str, list[Data]]:
    """Return the versions of quotes, by quote."""
    files: defaultdict[tuple[str, int], list[str]] = defaultdict(list)
    needed = select(VersionFileRow.quote, VersionFileRow.number, VersionFileRow.file)
    for quote, number, file in session.execute(
        needed.where(VersionFileRow.quote.in_(quotes)).order_by(VersionFileRow.file)
    ):
        files[quote, number].append(file)
    found: defaultdict[str, list[Data]] = defaultdict(list)
    rows = select(VersionRow).where(VersionRow.quote.in_(quotes)).order_by(VersionRow.number)
    for row in session.scalars(rows):
        found[row.quote].append(_version(row, files[row.quote, row.number]))
    session.expunge_all()
    return found


def jobs_of(session: Session) -> Iterator[Data]:
    """Yield all jobs."""
    for job in session.scalars(select(JobRow).order_by(JobRow.id)).all():
        files = select(JobFileRow.file).where(JobFileRow.job == job.id).order_by(JobFileRow.file)
        yield {
            "id": job.id,
            "revision": job.revision,
            "title": job.title,
            "rooms": job.rooms,
            "record": json.loads(job.record),
            "quote": job.quote,
            "number": job.number,
            "saved_at": job.saved_at,
            "files": list(session.scalars(files)),
        }


def _version(row: VersionRow, files: list[str]) -> Data:
    return {
        "number": row.number,
        "after": row.after,
        "title": row.title,
        "date": row.date,
        "status": row.status,
        "currency": row.currency,
        "total": converter().unstructure(row.total),
        "treated_m2": row.treated,
        "floor_area_m2": row.floor_area,
        "note": row.note,
        "record": json.loads(row.record),
        "figures": json.loads(row.figures),
        "sent": json.loads(row.sent) if row.sent else None,
        "saved_at": row.saved_at,
        "files": files,
    }
