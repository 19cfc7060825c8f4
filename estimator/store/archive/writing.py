"""A store written into an archive, as it stood at one moment."""

import hashlib
import json
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import PurePosixPath
from typing import BinaryIO
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from sqlalchemy import select
from sqlalchemy.orm import Session

from estimator.store.archive.gathering import Data, jobs_of, quotes_of, texts_of
from estimator.store.archive.layout import MANIFEST, README, SCHEMA, data_name
from estimator.store.archive.lists import Cell, csv_table
from estimator.store.archive.rooms import rooms_geojson
from estimator.store.converting import MISREAD
from estimator.store.files import contents
from estimator.store.store import Store
from estimator.store.tables import FileRow

_AT_ONCE = 50  # files in memory
_OLDEST = (1980, 1, 1, 0, 0, 0)  # a zip file knows no earlier day; the day says nothing here


def write_archive(store: Store, file: BinaryIO) -> None:
    """Write all that is kept into a file."""
    with store.database.reading() as session, ZipFile(file, "w", ZIP_DEFLATED) as zipped:
        archive = _Archive(zipped)
        archive.add("README.txt", README.encode())
        _add_data(archive, session)
        for name, content in _files(session):
            archive.add(name, content)
            if name.startswith("plans/"):
                _add_rooms(archive, name, content)
        manifest = {"schema": SCHEMA, "sha256": archive.digests}
        archive.add(MANIFEST, json.dumps(manifest, indent=1).encode())


def _files(session: Session) -> Iterator[tuple[str, bytes]]:
    """Yield every file with its content; pictures, which are large, one at a time."""
    names = session.scalars(select(FileRow.name).order_by(FileRow.name)).all()
    small = [name for name in names if not name.startswith("pictures/")]
    portions = [small[at : at + _AT_ONCE] for at in range(0, len(small), _AT_ONCE)]
    portions += [[name] for name in names if name.startswith("pictures/")]
    for portion in portions:
        found = contents(session, portion)
        session.expunge_all()
        yield from ((name, found[name]) for name in portion)


class _Archive:
    """A zip file in the making."""

    def __init__(self, zipped: ZipFile) -> None:
        self._zipped = zipped
        self.digests: dict[str, str] = {}

    def add(self, name: str, content: bytes) -> None:
        """Add a file."""
        self.add_parts(name, [content])

    def add_parts(self, name: str, parts: Iterable[bytes]) -> None:
        """Add a file part by part."""
        digest = hashlib.sha256()
        info = ZipInfo(name, _OLDEST)
        # Pictures are compressed already.
        info.compress_type = ZIP_STORED if name.startswith("pictures/") else ZIP_DEFLATED
        with self._zipped.open(info, "w", force_zip64=True) as file:
            for part in parts:
                digest.update(part)
                file.write(part)
        self.digests[name] = digest.hexdigest()


def _add_data(archive: _Archive, session: Session) -> None:
    """Add the data, and the tables for people made of them on the way."""
    clients: dict[str, str] = {}
    sites: dict[str, tuple[str, str]] = {}
    rows: dict[str, list[list[Cell]]] = {"clients": [], "sites": [], "quotes": [], "outcomes": []}

    def clients_seen() -> Iterator[Data]:
        for one in texts_of(session, "Client"):
            now = one["texts"][-1]["content"]
            clients[one["id"]] = now["name"]
            rows["clients"].append([one["id"], *(now.get(key) for key in _CLIENT)])
            yield one

    def sites_seen() -> Iterator[Data]:
        for one in texts_of(session, "Site"):
            now = one["texts"][-1]["content"]
            client = clients.get(now["client"], "")
            sites[one["id"]] = now["name"], client
            rows["sites"].append([one["id"], client, now["name"], now["address"], now["note"]])
            yield one

    def quotes_seen() -> Iterator[Data]:
        for one in quotes_of(session):
            site, client = sites.get(one["site"], ("", ""))
            rows["quotes"] += [
                [one["id"], client, site, *(version[key] for key in _VERSION)]
                for version in one["versions"]
            ]
            yield one

    def outcomes_seen() -> Iterator[Data]:
        for one in texts_of(session, "KeptOutcome"):
            now = one["texts"][-1]["content"]
            visit = now["outcome"]
            head = [now["key"]["quote"], now["key"]["number"], visit["visited"], visit["crew"]]
            rows["outcomes"] += [[*head, *(row.get(key) for key in _ROOM)] for row in visit["rows"]]
            yield one

    for kind, seen in (
        ("clients", clients_seen()),
        ("sites", sites_seen()),
        ("quotes", quotes_seen()),
        ("outcomes", outcomes_seen()),
        ("jobs", jobs_of(session)),
    ):
        archive.add_parts(data_name(kind), (f"{json.dumps(one)}\n".encode() for one in seen))
    for kind, headings in _HEADINGS.items():
        archive.add(f"lists/{kind}.csv", csv_table(headings, rows[kind]))


_CLIENT = ("name", "address", "language", "contact", "note")
_VERSION = (
    "number",
    "date",
    "status",
    "title",
    "currency",
    "total",
    "treated_m2",
    "floor_area_m2",
    "note",
)
_ROOM = ("room", "use", "volume", "passes", "time", "preparing", "wiping", "note")
_HEADINGS = {
    "clients": ("id", *_CLIENT),
    "sites": ("id", "client", "name", "address", "note"),
    "quotes": ("quote", "client", "site", *_VERSION),
    "outcomes": (
        *("quote", "number", "visited", "crew", "room", "use"),
        *("sprayed_m3", "passes", "spraying_s", "preparing_s", "wiping_s", "note"),
    ),
}


def _add_rooms(archive: _Archive, name: str, plan: bytes) -> None:
    # A plan that nobody can read has no rooms; the file itself is in the archive.
    with suppress(*MISREAD):
        rooms = json.dumps(rooms_geojson(json.loads(plan)))
        archive.add(f"rooms/{PurePosixPath(name).stem}.geojson", rooms.encode())
