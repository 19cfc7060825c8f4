"""How a version of a quote was sent."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Let a version say to whom and how it was sent."""
    op.add_column("version", sa.Column("sent", sa.Text()))
