"""Every earlier schema leads to the newest with its data kept.

The file ``schemas/NNNN.json`` holds rows as a database of that schema had them. The oldest way,
folders of files, is ``schemas/folders``; ``tests/workflow/test_older_jobs.py`` takes it over.
"""

import json
from base64 import b64decode
from pathlib import Path

import pytest
from alembic.autogenerate import compare_metadata
from alembic.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import LargeBinary, MetaData, create_engine, insert, select

from estimator.store.migrating import FOLDER, REVISIONS, current, migrate
from estimator.store.store import Store
from estimator.store.tables import Table
from estimator.store.values import Key, Search, Status
from estimator.workflow.jobs import Jobs
from estimator.workflow.offers import figures_kept, work_of

SCHEMAS = Path(__file__).parent / "schemas"


def at_schema(url, revision):
    """Make a database of an earlier schema with the rows that are kept for it."""
    if url.get_backend_name() == "sqlite":
        Path(url.database).parent.mkdir(exist_ok=True)
    engine = create_engine(url)
    rows = json.loads((SCHEMAS / f"{revision}.json").read_text())
    with engine.begin() as connection:
        migrate(connection, "test", to=revision)
        tables = MetaData()
        tables.reflect(connection)
        for table in tables.sorted_tables:
            if rows.get(table.name):
                connection.execute(insert(table), [_in(table, row) for row in rows[table.name]])
    engine.dispose()
    return rows


def _in(table, row):
    return {
        name: b64decode(value) if isinstance(table.c[name].type, LargeBinary) else value
        for name, value in row.items()
    }


def every_row(url):
    """Return all rows of a database by table, whatever its schema."""
    engine, tables = create_engine(url), MetaData()
    with engine.begin() as connection:
        tables.reflect(connection)
        rows = {
            table.name: [
                dict(row._mapping)
                for row in connection.execute(select(table).order_by(*table.primary_key))
            ]
            for table in tables.sorted_tables
            if table.name != "alembic_version"
        }
    engine.dispose()
    return rows


def test_there_are_rows_of_every_schema():
    assert sorted(path.stem for path in SCHEMAS.glob("*.json")) == list(REVISIONS)


def test_the_steps_form_one_line():
    scripts = ScriptDirectory(str(FOLDER), version_locations=[str(FOLDER)])
    assert [one.revision for one in scripts.walk_revisions()] == list(reversed(REVISIONS))


def test_the_last_step_leads_to_the_tables_as_they_are(store):
    with store.database.reading() as session:
        context = MigrationContext.configure(session.connection())
        assert compare_metadata(context, Table.metadata) == []


@pytest.mark.parametrize("revision", REVISIONS)
def test_every_row_of_an_earlier_schema_is_kept(empty_database, open_store, revision):
    at_schema(empty_database, revision)
    before = every_row(empty_database)
    open_store()
    after = every_row(empty_database)

    assert all(before.values())
    for table, rows in before.items():
        assert [{name: row[name] for name in rows[0]} for row in after[table]] == rows


@pytest.mark.parametrize("revision", REVISIONS)
def test_a_job_of_an_earlier_schema_is_opened_and_saved(empty_database, open_store, revision):
    at_schema(empty_database, revision)
    jobs = Jobs(open_store())
    stored = jobs.load("abcdef012345")
    assert stored.history.now.plan.title == "Larkfield clinic"
    assert jobs.save("abcdef012345", stored.history, after=stored.revision) == stored.revision + 1


@pytest.mark.parametrize("revision", [one for one in REVISIONS if one >= "0002"])
def test_quotes_and_outcomes_of_an_earlier_schema_are_opened(empty_database, open_store, revision):
    at_schema(empty_database, revision)
    store = open_store()
    (row,) = store.quotes.find(Search(words="larkfield")).rows
    assert (row.client_name, row.site_name) == ("=Larkfield 廚房", "Clinic, École")
    assert (row.number, row.versions, row.status) == (2, 2, Status.DRAFT)
    first = Key(quote=row.quote, number=1)
    assert store.quotes.version(first).status is Status.SENT
    assert work_of(store, first).pages[0].file.content == b"\x89PNG not really"
    assert len(figures_kept(store, [first, row.key])) == 2
    (outcome,) = store.outcomes.of(row.quote)
    assert outcome.outcome.rows[0].volume == 0.002
    assert [text.note for text in store.clients.texts(row.client)] == ["pays late", ""]


def test_a_step_that_fails_leaves_the_schema_before(empty_database, monkeypatch):
    at_schema(empty_database, REVISIONS[0])
    before = every_row(empty_database)
    monkeypatch.setattr("alembic.op.create_index", lambda *_: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        Store(empty_database)

    assert every_row(empty_database) == before
    engine = create_engine(empty_database)
    with engine.begin() as connection:
        assert current(connection) == REVISIONS[0]
    engine.dispose()
