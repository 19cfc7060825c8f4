"""Jobs and the files they need."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the tables of jobs."""
    op.create_table(
        "file",
        sa.Column("name", sa.String(120), nullable=False),
        sa.Column("content", sa.LargeBinary(), nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_file"),
    )
    op.create_table(
        "job",
        sa.Column("id", sa.String(40), nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("rooms", sa.Integer(), nullable=False),
        sa.Column("saved_at", sa.Double(), nullable=False),
        sa.Column("record", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
    )
    op.create_index("ix_job_saved_at", "job", ["saved_at"])
    op.create_table(
        "job_file",
        sa.Column("job", sa.String(40), nullable=False),
        sa.Column("file", sa.String(120), nullable=False),
        sa.ForeignKeyConstraint(["job"], ["job.id"], name="fk_job_file_job"),
        sa.ForeignKeyConstraint(["file"], ["file.name"], name="fk_job_file_file"),
        sa.PrimaryKeyConstraint("job", "file", name="pk_job_file"),
    )
    op.create_index("ix_job_file_file", "job_file", ["file"])
