"""Clients, sites, quotes with their versions, and outcomes."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables of sites, and let a job say what it was kept as."""
    op.add_column("job", sa.Column("quote", sa.String(40)))
    op.add_column("job", sa.Column("number", sa.Integer()))
    _sites()
    _quotes()
    _outcomes()


def _sites() -> None:
    op.create_table(
        "text",
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("content", sa.Text(), nullable=False),
        sa.Column("saved_at", sa.Double(), nullable=False),
        sa.PrimaryKeyConstraint("kind", "id", "version", name="pk_text"),
    )
    op.create_table(
        "client",
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_client"),
    )
    op.create_table(
        "site",
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("client", sa.String(40)),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["client"], ["client.id"], name="fk_site_client"),
        sa.PrimaryKeyConstraint("id", name="pk_site"),
    )
    op.create_index("ix_site_client", "site", ["client"])


def _quotes() -> None:
    op.create_table(
        "quote",
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("site", sa.String(40), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["site"], ["site.id"], name="fk_quote_site"),
        sa.PrimaryKeyConstraint("id", name="pk_quote"),
    )
    op.create_index("ix_quote_site", "quote", ["site"])
    op.create_table(
        "version",
        sa.Column("quote", sa.String(40), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("after", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("words", sa.Text(), nullable=False),
        sa.Column("date", sa.String(10), nullable=False),
        sa.Column("status", sa.String(10), nullable=False),
        sa.Column("currency", sa.String(3), nullable=False),
        sa.Column("total", sa.BigInteger(), nullable=False),
        sa.Column("treated", sa.Double(), nullable=False),
        sa.Column("floor_area", sa.Double(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("saved_at", sa.Double(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.Column("figures", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(["quote"], ["quote.id"], name="fk_version_quote"),
        sa.PrimaryKeyConstraint("quote", "number", name="pk_version"),
    )
    op.create_index("ix_version_date", "version", ["date"])
    op.create_index("ix_version_status", "version", ["status"])
    op.create_table(
        "version_file",
        sa.Column("quote", sa.String(40), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("file", sa.String(120), nullable=False),
        sa.ForeignKeyConstraint(
            ["quote", "number"], ["version.quote", "version.number"], name="fk_version_file_quote"
        ),
        sa.ForeignKeyConstraint(["file"], ["file.name"], name="fk_version_file_file"),
        sa.PrimaryKeyConstraint("quote", "number", "file", name="pk_version_file"),
    )
    op.create_index("ix_version_file_file", "version_file", ["file"])


def _outcomes() -> None:
    op.create_table(
        "outcome",
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("quote", sa.String(40), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("visited", sa.String(10), nullable=False),
        sa.Column("content", sa.Text(), nullable=False),
        sa.Column("saved_at", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(
            ["quote", "number"], ["version.quote", "version.number"], name="fk_outcome_quote"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_outcome"),
    )
    op.create_index("ix_outcome_quote", "outcome", ["quote"])
