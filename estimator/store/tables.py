"""The tables, as the newest schema has them; ``migrations`` leads there from every earlier one.

What is large (plans, books, pictures) is kept once under a name that tells its content, and whoever
needs it says so in a table of its own, so that it goes when nobody does. Every text that somebody
typed about a client or a site, and every outcome, is kept in all its versions (``text``); their own
tables hold the one that counts.
"""

from decimal import Decimal
from typing import Annotated

from sqlalchemy import ForeignKey, ForeignKeyConstraint, Index, LargeBinary, MetaData, String, Text
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from estimator.store.columns import Amount, Words

Id = Annotated[str, mapped_column(String(40))]
Typed = Annotated[str, mapped_column(Words)]
Json = Annotated[str, mapped_column(Text)]


class Table(DeclarativeBase):
    """A table of the store."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )


class FileRow(Table):
    """A plan, book or picture, named by its content."""

    __tablename__ = "file"

    name: Mapped[str] = mapped_column(String(120), primary_key=True)
    content: Mapped[bytes] = mapped_column(LargeBinary)


class JobRow(Table):
    """The work on one site, kept as it is made."""

    __tablename__ = "job"

    id: Mapped[Id] = mapped_column(primary_key=True)
    revision: Mapped[int]
    title: Mapped[Typed]
    rooms: Mapped[int]
    saved_at: Mapped[float] = mapped_column(index=True)
    record: Mapped[Json]
    quote: Mapped[Id | None]
    number: Mapped[int | None]


class JobFileRow(Table):
    """A file that a job needs."""

    __tablename__ = "job_file"

    job: Mapped[Id] = mapped_column(ForeignKey("job.id"), primary_key=True)
    file: Mapped[str] = mapped_column(ForeignKey("file.name"), primary_key=True, index=True)


class TextRow(Table):
    """One version of what somebody typed: a client, a site or an outcome."""

    __tablename__ = "text"

    kind: Mapped[str] = mapped_column(String(20), primary_key=True)
    id: Mapped[Id] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(primary_key=True)
    content: Mapped[Json]
    saved_at: Mapped[float]


class ClientRow(Table):
    """A client as they stand."""

    __tablename__ = "client"

    id: Mapped[Id] = mapped_column(primary_key=True)
    version: Mapped[int]
    name: Mapped[Typed]
    words: Mapped[Typed]


class SiteRow(Table):
    """A site as it stands."""

    __tablename__ = "site"

    id: Mapped[Id] = mapped_column(primary_key=True)
    version: Mapped[int]
    client: Mapped[Id | None] = mapped_column(ForeignKey("client.id"), index=True)
    name: Mapped[Typed]
    words: Mapped[Typed]


class QuoteRow(Table):
    """A quote: where it belongs, and which of its versions counts."""

    __tablename__ = "quote"

    id: Mapped[Id] = mapped_column(primary_key=True)
    site: Mapped[Id] = mapped_column(ForeignKey("site.id"), index=True)
    number: Mapped[int]


class VersionRow(Table):
    """A version of a quote, which never changes but for its status and how it was sent."""

    __tablename__ = "version"

    quote: Mapped[Id] = mapped_column(ForeignKey("quote.id"), primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True)
    after: Mapped[int]
    title: Mapped[Typed]
    words: Mapped[Typed]
    date: Mapped[str] = mapped_column(String(10), index=True)
    status: Mapped[str] = mapped_column(String(10), index=True)
    currency: Mapped[str] = mapped_column(String(3))
    total: Mapped[Decimal] = mapped_column(Amount)
    treated: Mapped[float]
    floor_area: Mapped[float]
    note: Mapped[Typed]
    saved_at: Mapped[float]
    record: Mapped[Json]
    figures: Mapped[Json]
    sent: Mapped[Json | None]


class VersionFileRow(Table):
    """A file that a version of a quote needs."""

    __tablename__ = "version_file"

    quote: Mapped[Id] = mapped_column(primary_key=True)
    number: Mapped[int] = mapped_column(primary_key=True)
    file: Mapped[str] = mapped_column(ForeignKey("file.name"), primary_key=True, index=True)

    __table_args__ = (
        ForeignKeyConstraint(["quote", "number"], ["version.quote", "version.number"]),
    )


class OutcomeRow(Table):
    """What a visit really took, as it was last corrected."""

    __tablename__ = "outcome"

    id: Mapped[Id] = mapped_column(primary_key=True)
    version: Mapped[int]
    quote: Mapped[Id]
    number: Mapped[int]
    visited: Mapped[str] = mapped_column(String(10))
    content: Mapped[Json]
    saved_at: Mapped[float]

    __table_args__ = (
        ForeignKeyConstraint(["quote", "number"], ["version.quote", "version.number"]),
        Index("ix_outcome_quote", "quote"),
    )
