import csv
import hashlib
import io
import json
from zipfile import ZipFile

import pytest
from attrs import evolve
from offered import higher, quoted
from shapely.geometry import shape
from sqlalchemy import func, select

from estimator.errors import StoreError
from estimator.store.archive.merging import Brought, read_archive
from estimator.store.archive.writing import write_archive
from estimator.store.store import Store
from estimator.store.tables import Table
from estimator.store.values import Key, Search, Status
from estimator.workflow.jobs import Jobs
from estimator.workflow.offers import keep_quote, work_of
from estimator.workflow.work import History


def written(store):
    file = io.BytesIO()
    write_archive(store, file)
    return file.getvalue()


def brought(store, archive):
    return read_archive(store, io.BytesIO(archive), "away.zip")


def everything(store):
    """Return every row of every table but for the addresses of rows."""
    with store.database.reading() as session:
        return {
            table.name: sorted(map(repr, session.execute(select(table)).all()))
            for table in Table.metadata.sorted_tables
        }


@pytest.fixture
def elsewhere(tmp_path):
    """A store of somebody else's."""
    store = Store.in_folder(tmp_path / "elsewhere")
    yield store
    store.close()


def test_everything_arrives_elsewhere_as_it_was(store, elsewhere, fill):
    fill(store)
    said = brought(elsewhere, written(store))
    assert said == Brought(clients=1, sites=1, quotes=1, versions=2, outcomes=1, jobs=1)
    assert everything(elsewhere) == everything(store)


def test_what_is_brought_in_twice_is_there_once(store, elsewhere, fill):
    fill(store)
    archive = written(store)
    brought(elsewhere, archive)
    before = everything(elsewhere)
    assert brought(elsewhere, archive) == Brought()
    assert everything(elsewhere) == before


def test_an_archive_of_an_archive_is_the_same_bytes(store, elsewhere, fill):
    fill(store)
    archive = written(store)
    brought(elsewhere, archive)
    assert written(elsewhere) == archive


def test_a_store_that_holds_other_things_keeps_them(store, elsewhere, fill):
    mine, theirs = fill(elsewhere), fill(store)
    Jobs(store).save("fedcba543210", Jobs(store).load("abcdef012345").history, after=0)
    brought(elsewhere, written(store))
    found = elsewhere.quotes.find(Search())
    assert {row.key for row in found.rows} == {mine, theirs}
    assert len(elsewhere.clients.find()) == 2


def test_what_was_changed_on_both_sides_is_all_kept_and_the_last_counts(
    store, elsewhere, fill, clinic
):
    key = fill(store)
    brought(elsewhere, written(store))
    site = store.sites.find()[0]
    store.sites.save(evolve(site, address="4 Mill Lane"), after=1)
    elsewhere.sites.save(evolve(site, address="5 Mill Lane"), after=1)
    low, high = higher(clinic, 2.2), higher(clinic, 3.3)
    keep_quote(store, low, quoted(low), quote_id=key.quote, after=2)
    keep_quote(elsewhere, high, quoted(high), quote_id=key.quote, after=2)

    said = brought(store, written(elsewhere))
    assert said == Brought(versions=1)
    assert [text.address for text in store.sites.texts(site.id)] == [
        "5 Mill Lane",
        "4 Mill Lane",
        "",
    ]
    assert store.quotes.listed(key.quote).number == 4
    assert work_of(store, Key(quote=key.quote, number=3)).plan == low.plan
    assert work_of(store, Key(quote=key.quote, number=4)).plan == high.plan

    brought(elsewhere, written(store))
    assert elsewhere.sites.get(site.id).address == "5 Mill Lane"
    assert work_of(elsewhere, elsewhere.quotes.listed(key.quote).key).plan == high.plan
    assert len(elsewhere.quotes.versions(key.quote)) == 4


def test_a_job_changed_on_both_sides_comes_in_as_another(store, elsewhere, fill, clinic):
    fill(store)
    brought(elsewhere, written(store))
    Jobs(store).save("abcdef012345", History(now=higher(clinic, 2.2)), after=1)
    Jobs(elsewhere).save("abcdef012345", History(now=higher(clinic, 3.3)), after=1)
    archive = written(store)
    assert brought(elsewhere, archive) == Brought(jobs=1)
    assert brought(elsewhere, archive) == Brought()

    heights = {
        Jobs(elsewhere).load(one.id).history.now.plan.rooms[0].ceiling_height
        for one in Jobs(elsewhere).recent()
    }
    assert heights == {2.2, 3.3}


def test_an_outcome_follows_its_version_to_another_number(store, elsewhere, fill, clinic):
    key = fill(store)
    brought(elsewhere, written(store))
    low, high = higher(clinic, 2.2), higher(clinic, 3.3)
    keep_quote(elsewhere, low, quoted(low), quote_id=key.quote, after=2)
    third = keep_quote(store, high, quoted(high), quote_id=key.quote, after=2)
    outcome = store.outcomes.of(key.quote)[0]
    store.outcomes.save(evolve(outcome, id="", version=0, key=third), after=0)

    brought(elsewhere, written(store))
    kept = {one.key.number for one in elsewhere.outcomes.of(key.quote)}
    assert kept == {2, 4}
    assert work_of(elsewhere, Key(quote=key.quote, number=4)).plan == high.plan


def test_a_status_told_there_is_told_here(store, elsewhere, fill):
    key = fill(store)
    brought(elsewhere, written(store))
    store.quotes.set_status(key, Status.ACCEPTED)
    brought(elsewhere, written(store))
    assert elsewhere.quotes.version(key).status is Status.ACCEPTED


def test_the_formats_are_open_and_no_cell_is_a_formula(store, fill, clinic):
    key = fill(store)
    with ZipFile(io.BytesIO(written(store))) as zipped:
        names = zipped.namelist()
        quotes = zipped.read("lists/quotes.csv").decode("utf-8-sig")
        outcomes = zipped.read("lists/outcomes.csv").decode("utf-8-sig")
        rooms = [json.loads(zipped.read(name)) for name in names if name.startswith("rooms/")]
        pictures = [zipped.read(name) for name in names if name.startswith("pictures/")]
        clients = [json.loads(line) for line in zipped.read("data/clients.jsonl").splitlines()]

    rows = list(csv.DictReader(io.StringIO(quotes)))
    assert [(row["quote"], row["number"], row["client"], row["note"]) for row in rows] == [
        (key.quote, "1", "'=Larkfield 廚房", "'-first"),
        (key.quote, "2", "'=Larkfield 廚房", ""),
    ]
    assert next(csv.DictReader(io.StringIO(outcomes)))["note"] == "'=1+1"
    (collection,) = rooms
    areas = {
        one["properties"]["name"]: shape(one["geometry"]).area for one in collection["features"]
    }
    assert areas == pytest.approx({room.name: room.outline.area for room in clinic.plan.rooms})
    assert all(shape(one["geometry"]).exterior.is_ccw for one in collection["features"])
    assert pictures == [b"\x89PNG not really"]
    assert clients[0]["texts"][-1]["content"]["name"] == "=Larkfield 廚房"


def rewritten(archive, change):
    """Return an archive with its files changed by name."""
    made = io.BytesIO()
    with ZipFile(io.BytesIO(archive)) as before, ZipFile(made, "w") as after:
        files = {name: before.read(name) for name in before.namelist()}
        for name, content in change(files).items():
            after.writestr(name, content)
    return made.getvalue()


def manifest(**changes):
    def change(files):
        told = json.loads(files["archive.json"]) | changes
        return files | {"archive.json": json.dumps(told).encode()}

    return change


DAMAGES = {
    "cut short": lambda archive: archive[: len(archive) // 2],
    "empty": lambda _: b"",
    "no zip": lambda _: b"remember the milk" * 99,
    "another zip": lambda archive: rewritten(archive, lambda _: {"a.txt": b"hello"}),
    "a flipped bit": lambda archive: bytes(
        byte ^ (at == len(archive) // 3) for at, byte in enumerate(archive)
    ),
    "another version": lambda archive: rewritten(archive, manifest(schema="archive/2")),
    "no schema": lambda archive: rewritten(archive, manifest(schema=None)),
    "a file less": lambda archive: rewritten(
        archive, lambda files: {name: files[name] for name in files if name[:5] != "plans"}
    ),
    "a file more": lambda archive: rewritten(archive, lambda files: files | {"x": b""}),
    "a file changed": lambda archive: rewritten(
        archive, lambda files: files | {"data/sites.jsonl": b"{}\n"}
    ),
    "a way out": lambda archive: rewritten(archive, lambda files: files | {"../../x": b""}),
    "an absolute path": lambda archive: rewritten(archive, lambda files: files | {"/x": b""}),
    "a way out on windows": lambda archive: rewritten(
        archive, lambda files: files | {"..\\x": b""}
    ),
}


@pytest.mark.parametrize("damage", DAMAGES)
def test_a_bad_archive_is_one_sentence_and_changes_nothing(store, elsewhere, fill, damage):
    fill(store)
    archive = DAMAGES[damage](written(store))
    before = everything(elsewhere)
    with pytest.raises(StoreError, match=r"^away.zip: .*\.$") as told:
        brought(elsewhere, archive)
    assert "\n" not in str(told.value)
    assert everything(elsewhere) == before


def test_an_archive_of_another_version_is_named(store, elsewhere, fill):
    fill(store)
    with pytest.raises(StoreError, match=r"another version \(archive/2"):
        brought(elsewhere, DAMAGES["another version"](written(store)))


def signed(files):
    """Return files with their digests told anew, as a forger would."""
    told = {
        name: hashlib.sha256(content).hexdigest()
        for name, content in files.items()
        if name != "archive.json"
    }
    return files | {"archive.json": json.dumps({"schema": "archive/1", "sha256": told}).encode()}


FORGED = (b"{}", b"[]", b"null", b"{", b'{"id": 3}', b'{"id": "x"')


@pytest.mark.parametrize("kind", ["clients", "sites", "quotes", "outcomes", "jobs"])
def test_forged_data_are_one_sentence_and_change_nothing(store, elsewhere, fill, kind):
    fill(store)
    archive, before = written(store), everything(elsewhere)
    for line in FORGED:
        forged = {f"data/{kind}.jsonl": line + b"\n"}
        bad = rewritten(archive, lambda files, forged=forged: signed(files | forged))
        with pytest.raises(StoreError, match=r"\.$"):
            brought(elsewhere, bad)
    assert everything(elsewhere) == before


def test_data_that_name_a_file_that_lacks_are_refused(store, elsewhere, fill):
    fill(store)
    archive = rewritten(
        written(store),
        lambda files: signed({name: files[name] for name in files if name[:5] != "plans"}),
    )
    with pytest.raises(StoreError, match=r"\.$"):
        brought(elsewhere, archive)
    with elsewhere.database.reading() as session:
        table = Table.metadata.tables["version"]
        assert session.scalar(select(func.count()).select_from(table)) == 0


@pytest.mark.parametrize("folder", ["plans", "books", "pictures"])
def test_a_file_that_is_not_what_its_name_tells_is_refused(store, elsewhere, fill, folder):
    fill(store)
    before = everything(elsewhere)

    def forged(files):
        name = next(name for name in files if name.startswith(folder))
        return signed(files | {name: files[name] + b" "})

    with pytest.raises(StoreError, match=rf"{folder}/\w+\.\w+ holds something else than it tells"):
        brought(elsewhere, rewritten(written(store), forged))
    assert everything(elsewhere) == before


def test_files_that_an_earlier_program_named_come_in(store, elsewhere, fill):
    fill(store)

    def older(files):
        (plan,) = (name for name in files if name.startswith("plans/"))
        name = f"plans/{'a' * 16}.json"
        named = {
            name if one == plan else one: content.replace(plan.encode(), name.encode())
            for one, content in files.items()
        }
        return signed(named)

    assert brought(elsewhere, rewritten(written(store), older)).versions == 2


def test_how_a_version_was_sent_comes_along(store, elsewhere, fill):
    key = fill(store)
    brought(elsewhere, written(store))
    store.quotes.set_status(key, Status.SENT, '{"to": "廚房"}')
    brought(elsewhere, written(store))
    assert json.loads(elsewhere.quotes.sent(key)) == {"to": "廚房"}
