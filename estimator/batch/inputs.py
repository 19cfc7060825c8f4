"""The inputs of a batch: every file of a folder."""

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path

from attrs import frozen

from estimator.errors import BatchError, EstimatorError
from estimator.intake.pictures import LARGEST_FILE, content_of


@frozen(kw_only=True)
class Source:
    """A file, and what it is called within its folder."""

    name: str
    path: Path

    def content(self) -> bytes:
        """Return what is in it.

        Raises
        ------
        SourceError
            When it cannot be opened or is too large.
        """
        return content_of(self.path)

    def digest(self) -> str:
        """Return the digest of its content; nothing where it cannot be opened or is too large."""
        try:
            if self.path.stat().st_size > LARGEST_FILE:
                return ""
            with self.path.open("rb") as file:
                return _short(hashlib.file_digest(file, "sha256").hexdigest())
        except OSError:
            return ""


def content_digest(content: bytes) -> str:
    """Return the digest of a file's content."""
    return _short(hashlib.sha256(content).hexdigest())


def sources(folder: Path, *, besides: Path) -> tuple[Source, ...]:
    """Return all files of a folder and the folders in it, by name; hidden ones are none of them.

    Parameters
    ----------
    besides
        The file of results, which is no input.

    Raises
    ------
    BatchError
        When there is no such folder or no file in it.
    """
    if not folder.is_dir():
        raise BatchError(str(folder), "there is no such folder", "check its name and place")
    found = sorted(path for path in _files(folder) if path.resolve() != besides.resolve())
    if not found:
        raise BatchError(str(folder), "there is no file in it", "put the plans there")
    return tuple(Source(name=_name(path.relative_to(folder)), path=path) for path in found)


def why_lost(source: Source, problem: str) -> EstimatorError:
    """Return the sentence on an input that was lost with the process that worked on it."""
    return BatchError(
        source.name, problem, "run the same again to try it once more, or send it in another format"
    )


def _files(folder: Path) -> Iterator[Path]:
    for place, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if not name.startswith(".")]
        for name in names:
            path = Path(place, name)
            if not name.startswith(".") and path.is_file():
                yield path


def _name(path: Path) -> str:
    """Return a path as text, whatever bytes its file system allows in a name."""
    return os.fsencode(path.as_posix()).decode("utf-8", "replace")


def _short(digest: str) -> str:
    return digest[:24]
