"""Leading a database to the newest schema, whatever earlier one it has."""

import re
from importlib.resources import files
from pathlib import Path

from sqlalchemy import Connection, inspect, text

from estimator.errors import StoreError

FOLDER = Path(str(files("estimator.store.migrations")))

REVISIONS = tuple(
    sorted(found[1] for path in FOLDER.iterdir() if (found := re.match(r"r(\d{4})_", path.name)))
)
"""Names of all schemas, the oldest first."""


def migrate(connection: Connection, where: str, to: str = REVISIONS[-1]) -> None:
    """Lead the database behind a connection to a schema, keeping what it holds.

    Raises
    ------
    StoreError
        When a newer program made it.
    """
    now = current(connection)
    if now == to:
        return
    if now is not None and now not in REVISIONS:
        raise StoreError(
            where, "a newer version of the estimator made it", "open it with that version"
        )
    # Costs more to load than all else on opening, and is hardly ever needed.
    from alembic.config import Config
    from alembic.runtime.environment import EnvironmentContext
    from alembic.script import ScriptDirectory

    scripts = ScriptDirectory(str(FOLDER), version_locations=[str(FOLDER)])
    with EnvironmentContext(
        Config(), scripts, fn=lambda revision, _: scripts._upgrade_revs(to, revision)
    ) as environment:
        environment.configure(connection=connection)
        environment.run_migrations()


def current(connection: Connection) -> str | None:
    """Return the name of a database's schema; None when it is empty."""
    if not inspect(connection).has_table("alembic_version"):
        return None
    found: str | None = connection.scalar(text("SELECT version_num FROM alembic_version"))
    return found
