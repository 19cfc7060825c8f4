"""An archive opened: whole, of a version that is known, and with no name that leads out of it."""

import hashlib
import json
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import PurePosixPath
from typing import Any, BinaryIO
from zipfile import BadZipFile, ZipFile

from estimator.errors import StoreError
from estimator.store.archive.layout import FILE, MANIFEST, SCHEMA, data_name
from estimator.store.converting import MISREAD

_LARGEST = 500_000_000
"""Bytes of one file, so that a small archive cannot fill the memory."""


class OpenArchive:
    """An archive whose table of contents was read; each file is checked as it is read."""

    def __init__(self, zipped: ZipFile, where: str) -> None:
        self._zipped = zipped
        self.where = where
        manifest = self._manifest()
        self._digests: dict[str, str] = manifest["sha256"]
        there = {info.filename for info in zipped.infolist()} - {MANIFEST}
        if there != self._digests.keys():
            raise damaged(where, "files are missing or were added")

    def names(self) -> list[str]:
        """Return the names of plans, books and pictures."""
        return [name for name in self._digests if FILE.fullmatch(name)]

    def content(self, name: str) -> bytes:
        """Return a file."""
        return b"".join(self._parts(name))

    def data(self, kind: str) -> Iterator[Any]:
        """Yield the data of one kind."""
        rest = b""
        for part in self._parts(data_name(kind)):
            *lines, rest = (rest + part).split(b"\n")
            for line in lines:
                yield json.loads(line)
        if rest.strip():
            raise damaged(self.where, f"{data_name(kind)} ends in the middle")

    def _parts(self, name: str) -> Iterator[bytes]:
        """Yield a file part by part; one that was changed ends in an error."""
        digest, size = hashlib.sha256(), 0
        with self._zipped.open(name) as file:
            while part := file.read(1 << 20):
                digest.update(part)
                size += len(part)
                if size > _LARGEST and not name.startswith("data/"):
                    raise damaged(self.where, f"{name} is too large")
                yield part
        if digest.hexdigest() != self._digests[name]:
            raise damaged(self.where, f"{name} was changed")

    def _manifest(self) -> dict[str, Any]:
        for info in self._zipped.infolist():
            path = PurePosixPath(info.filename)
            if path.is_absolute() or ".." in path.parts or "\\" in info.filename:
                raise damaged(self.where, "the name of a file in it leads out of it")
        try:
            manifest = json.loads(self._zipped.read(MANIFEST))
            schema = str(manifest["schema"])
        except (KeyError, TypeError, ValueError) as error:
            raise StoreError(
                self.where, "it is no archive of the estimator", "give one that it exported"
            ) from error
        if schema != SCHEMA:
            raise StoreError(
                self.where,
                f"it is an archive of another version ({schema[:20]}; this one reads {SCHEMA})",
                "bring it in with the version that wrote it, or a newer one",
            )
        return dict(manifest)


@contextmanager
def opened(file: BinaryIO, where: str) -> Iterator[OpenArchive]:
    """Yield an archive.

    Raises
    ------
    StoreError
        When it is none, of another version, or damaged, then or while it is read.
    """
    try:
        with ZipFile(file) as zipped:
            yield OpenArchive(zipped, where)
    except StoreError:
        raise
    except (BadZipFile, EOFError, NotImplementedError, OSError, zlib.error) as error:
        raise damaged(where, "it cannot be unpacked") from error
    except MISREAD as error:
        raise damaged(where, "its data cannot be read") from error


def damaged(where: str, how: str) -> StoreError:
    """Return what to say of an archive that was damaged."""
    return StoreError(where, f"the archive was damaged ({how})", "export it anew")
