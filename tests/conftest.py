import os
import tempfile
from pathlib import Path

import pytest
from hypothesis import settings
from sqlalchemy import create_engine, make_url, text

from estimator.store.database import address, file_address
from estimator.store.store import Store

BENCHMARKS = Path(__file__).parent / "benchmarks"
SERVER = "ESTIMATOR_TEST_POSTGRES"
"""Names a PostgreSQL server where the tests may make and drop a database of their own."""


def pytest_configure(config):
    """Keep what tests leave behind apart from what a user has, even where modules are imported."""
    folder = tempfile.TemporaryDirectory(prefix="estimator-tests-")
    config.add_cleanup(folder.cleanup)
    os.environ["XDG_DATA_HOME"] = folder.name
    # How long an example takes says nothing on a busy machine.
    settings.register_profile("untimed", deadline=None)
    settings.load_profile("untimed")


def pytest_ignore_collect(collection_path, config):
    """Leave benchmarks out unless they are asked for by name."""
    asked = any("benchmarks" in argument for argument in config.args)
    return True if collection_path == BENCHMARKS and not asked else None


@pytest.fixture(scope="session")
def lacking():
    """Return what tells that this machine lacks a program: in CI nothing may be skipped."""
    return pytest.fail if os.environ.get("CI") else pytest.skip


@pytest.fixture(scope="session")
def postgres(lacking):
    """Yield the address of a database of this run's own."""
    if SERVER not in os.environ:
        lacking(f"There is no PostgreSQL: name a server in {SERVER}.")
    url = address(os.environ[SERVER])
    name = f"estimator_test_{os.getpid()}"
    server = create_engine(url, isolation_level="AUTOCOMMIT")
    with server.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    yield url.set(database=name)
    with server.connect() as connection:
        connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
    server.dispose()


@pytest.fixture(params=["sqlite", "postgres"])
def empty_database(request, tmp_path):
    """Return the address of a database that holds nothing yet, of each kind in turn."""
    if request.param == "sqlite":
        return file_address(tmp_path / "store" / "estimator.db")
    url = request.getfixturevalue("postgres")
    engine = create_engine(url)
    with engine.begin() as connection:
        connection.execute(text("DROP SCHEMA public CASCADE"))
        connection.execute(text("CREATE SCHEMA public"))
    engine.dispose()
    return url


@pytest.fixture
def open_store(empty_database):
    """Open the store of a test, as often as it is asked for."""
    opened = []
    if empty_database.get_backend_name() == "sqlite":
        Path(empty_database.database).parent.mkdir(exist_ok=True)

    def open_it():
        opened.append(Store(make_url(empty_database)))
        return opened[-1]

    yield open_it
    for store in opened:
        store.close()


@pytest.fixture
def store(open_store):
    """The store of a test, opened on an empty database."""
    return open_store()
