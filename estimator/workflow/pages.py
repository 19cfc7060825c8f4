"""The pages of files that plans are read from."""

from collections.abc import Iterable, Sequence
from pathlib import PurePath

from attrs import frozen

from estimator.intake.pictures import open_bytes
from estimator.lettering.consensus import Vote
from estimator.plan.storey import Storey
from estimator.reading.picture import Picture


@frozen(kw_only=True)
class File:
    """A file's name and content."""

    name: str
    content: bytes


@frozen(kw_only=True)
class Page:
    """A page that shows a plan.

    Parameters
    ----------
    dpi
        Pixels to an inch of paper; None when nobody knows.
    votes
        What each figure printed on it says of the scale; empty when somebody said the scale.
    """

    file: File
    number: int = 1
    dpi: float | None = None
    votes: tuple[Vote, ...] = ()

    def picture(self) -> Picture:
        """Open it anew.

        Raises
        ------
        SourceError
            When it cannot be opened.
        """
        return open_bytes(self.file.content, self.file.name, self.number)


def page_of(storey: Storey, pages: Iterable[Page]) -> Page | None:
    """Return the page that a storey was read from, if it is among them."""
    source = storey.source
    if source is None:
        return None
    named = (source.file, source.page)
    return next((page for page in pages if (page.file.name, page.number) == named), None)


def told_apart(files: Sequence[File]) -> tuple[File, ...]:
    """Return files with those of one name numbered.

    >>> [file.name for file in told_apart([File(name="a.png", content=b"")] * 2)]
    ['a.png', 'a (2).png']
    """
    taken: set[str] = set()
    found = []
    for file in files:
        path, name, count = PurePath(file.name), file.name, 1
        while name in taken:
            count += 1
            name = f"{path.stem} ({count}){path.suffix}"
        taken.add(name)
        found.append(File(name=name, content=file.content))
    return tuple(found)
