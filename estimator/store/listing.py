"""The list of quotes: each as its version that counts, searched, sorted and in parts."""

from typing import Any

from sqlalchemy import ColumnElement, Row, Select, SQLColumnExpression, func, select
from sqlalchemy.orm import Session

from estimator.price.money import Money, rounded
from estimator.store.searching import occurring
from estimator.store.tables import ClientRow, QuoteRow, SiteRow, VersionRow
from estimator.store.values import Found, Key, Listed, Order, Search, Status, Version

VERSION_COLUMNS = (
    VersionRow.quote,
    VersionRow.number,
    VersionRow.after,
    VersionRow.title,
    VersionRow.date,
    VersionRow.status,
    VersionRow.currency,
    VersionRow.total,
    VersionRow.treated,
    VersionRow.floor_area,
    VersionRow.note,
    VersionRow.saved_at,
)
"""What is told of a version without what it was made from."""

_LISTED = (
    *VERSION_COLUMNS,
    SiteRow.id.label("site"),
    SiteRow.name.label("site_name"),
    ClientRow.id.label("client"),
    ClientRow.name.label("client_name"),
)


_ORDERS: dict[Order, SQLColumnExpression[Any]] = {
    Order.DATE: VersionRow.date,
    Order.TITLE: VersionRow.words,
    Order.TOTAL: VersionRow.total,
    Order.TREATED: VersionRow.treated,
    Order.FLOOR_AREA: VersionRow.floor_area,
}


def found(session: Session, search: Search) -> Found:
    """Return one part of the list of all quotes that match."""
    conditions = _conditions(search)
    order = _ORDERS[search.by]
    page = (
        _joined(select(*_LISTED))
        .where(*conditions)
        .order_by(order if search.rising else order.desc(), VersionRow.quote)
        .offset(search.first)
        .limit(search.most)
    )
    count = session.scalars(_joined(select(func.count())).where(*conditions)).one()
    rows = session.execute(page).all()
    versions = _counts(session, [row.quote for row in rows])
    return Found(rows=tuple(_listed(row, versions[row.quote]) for row in rows), count=count)


def listed(session: Session, quote: str) -> Listed | None:
    """Return a quote as it stands in the list; None when it is not kept."""
    query = _joined(select(*_LISTED)).where(VersionRow.quote == quote)
    row = session.execute(query).one_or_none()
    return _listed(row, _counts(session, [quote])[quote]) if row else None


def version_of(row: Row[*tuple[Any, ...]]) -> Version:
    """Return the version that a row of ``VERSION_COLUMNS`` tells."""
    return Version(
        key=Key(quote=row.quote, number=row.number),
        after=row.after,
        title=row.title,
        date=row.date,
        status=Status(row.status),
        total=_total(row),
        treated=row.treated,
        floor_area=row.floor_area,
        note=row.note,
        saved_at=row.saved_at,
    )


def _joined(query: Select[*tuple[Any, ...]]) -> Select[*tuple[Any, ...]]:
    """Return a query over the versions that count, each with its site and client."""
    return (
        query.select_from(QuoteRow)
        .join(
            VersionRow,
            (VersionRow.quote == QuoteRow.id) & (VersionRow.number == QuoteRow.number),
        )
        .join(SiteRow, SiteRow.id == QuoteRow.site)
        .outerjoin(ClientRow, ClientRow.id == SiteRow.client)
    )


def _conditions(search: Search) -> list[ColumnElement[bool]]:
    of_client = func.coalesce(ClientRow.words, "")
    words = VersionRow.words + " " + SiteRow.words + " " + of_client
    conditions = occurring(search.words, words, QuoteRow.id)
    if search.client:
        conditions.append(SiteRow.client == search.client)
    if search.site:
        conditions.append(QuoteRow.site == search.site)
    if search.statuses:
        conditions.append(VersionRow.status.in_(status.value for status in search.statuses))
    return conditions


def _counts(session: Session, quotes: list[str]) -> dict[str, int]:
    query = (
        select(VersionRow.quote, func.count())
        .where(VersionRow.quote.in_(quotes))
        .group_by(VersionRow.quote)
    )
    return {row[0]: row[1] for row in session.execute(query)}


def _listed(row: Row[*tuple[Any, ...]], versions: int) -> Listed:
    return Listed(
        key=Key(quote=row.quote, number=row.number),
        versions=versions,
        title=row.title,
        site=row.site,
        site_name=row.site_name,
        client=row.client or "",
        client_name=row.client_name or "",
        date=row.date,
        status=Status(row.status),
        total=_total(row),
        treated=row.treated,
        floor_area=row.floor_area,
        saved_at=row.saved_at,
    )


def _total(row: Row[*tuple[Any, ...]]) -> Money:
    return rounded(row.total, row.currency)
