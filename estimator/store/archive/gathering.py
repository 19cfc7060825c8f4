"""All that a database keeps, as plain data."""

import json
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

_AT_ONCE = 200  # rows in memory


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
    for quote in session.scalars(select(QuoteRow).order_by(QuoteRow.id)).all():
        versions = session.scalars(
            select(VersionRow).where(VersionRow.quote == quote.id).order_by(VersionRow.number)
        ).all()
        files: dict[int, list[str]] = {version.number: [] for version in versions}
        for number, name in session.execute(
            select(VersionFileRow.number, VersionFileRow.file)
            .where(VersionFileRow.quote == quote.id)
            .order_by(VersionFileRow.file)
        ):
            files[number].append(name)
        yield {
            "id": quote.id,
            "site": quote.site,
            "number": quote.number,
            "versions": [_version(row, files[row.number]) for row in versions],
        }
        session.expunge_all()


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
