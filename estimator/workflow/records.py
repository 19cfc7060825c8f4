"""Work on a site as text and files in open formats: a record, and what it names by content."""

import json
from collections.abc import Callable, Mapping
from functools import cache, lru_cache
from pathlib import PurePath
from typing import Any
from weakref import WeakKeyDictionary

from attrs import field, frozen

from estimator.catalogue.loader import packaged_book
from estimator.errors import StoreError
from estimator.estimation.book import Book
from estimator.estimation.job import Job
from estimator.lettering.consensus import Vote
from estimator.plan.exchange import plan_as_written, plan_to_dict
from estimator.store.converting import MISREAD, converter
from estimator.store.files import Files, content_name
from estimator.workflow.older_books import completed
from estimator.workflow.pages import File, Page
from estimator.workflow.work import History, Work

SCHEMA = "job/1"

Data = dict[str, Any]


@frozen(kw_only=True, eq=False)
class Record:
    """A history as the text of a record, with the files it names and what makes them."""

    title: str
    rooms: int
    text: str
    files: Files = field(repr=False)


@frozen(kw_only=True, eq=False)
class _Step:
    """One work as data, with the files it refers to."""

    data: Data
    files: Files


# A work never changes, so each is turned into data once.
_steps: WeakKeyDictionary[Work, _Step] = WeakKeyDictionary()


def record_of(history: History) -> Record:
    """Return a history as a record."""
    works = (*history.past, history.now, *history.future)
    steps = [_step(work) for work in works]
    plan = history.now.plan
    data = {
        "schema": SCHEMA,
        "title": plan.title,
        "rooms": len(plan.rooms),
        "now": len(history.past),
        "steps": [step.data for step in steps],
    }
    return Record(
        title=plan.title,
        rooms=len(plan.rooms),
        text=json.dumps(data, allow_nan=False),
        files={name: make for step in steps for name, make in step.files.items()},
    )


def summary(text: str | bytes) -> tuple[str, int]:
    """Return the title and the number of rooms that a record tells.

    Raises
    ------
    StoreError
        When it is no record.
    """
    data = _loaded(text)
    return str(data.get("title") or ""), int(data.get("rooms") or 0)


def named_in(text: str | bytes) -> set[str]:
    """Return the names of the files that a record needs.

    Raises
    ------
    StoreError
        When it is no record.
    """
    try:
        return {
            name
            for step in _loaded(text)["steps"]
            for name in (step["plan"], step["book"], *(page["picture"] for page in step["pages"]))
        }
    except (LookupError, TypeError) as error:
        raise _damaged("the job") from error


def read(text: str | bytes, files: Mapping[str, bytes], where: str = "the job") -> History:
    """Return the history that a record tells.

    Raises
    ------
    StoreError
        When the record or a file was damaged, or a file is missing.
    """
    data = _loaded(text)
    opened = _Files(files)
    try:
        works = [opened.work(step) for step in data["steps"]]
        now = int(data["now"])
        return History(now=works[now], past=tuple(works[:now]), future=tuple(works[now + 1 :]))
    except MISREAD as error:
        raise _damaged(where) from error


class _Files:
    """Files that a record names, each read once."""

    def __init__(self, files: Mapping[str, bytes]) -> None:
        self.files = files
        self.plan = cache(lambda name: plan_as_written(json.loads(files[name])))
        self.book = cache(self._book)

    def work(self, step: Data) -> Work:
        """Return the work of one step."""
        return Work(
            plan=self.plan(step["plan"]),
            book=self.book(step["book"]),
            job=converter().structure(step["job"], Job),
            pages=tuple(map(self._page, step["pages"])),
            document=int(step["document"]),
        )

    def _book(self, name: str) -> Book:
        book: Book = converter().structure(
            completed(json.loads(self.files[name]), _usual_book()), Book
        )
        return book

    def _page(self, data: Data) -> Page:
        return Page(
            file=File(name=str(data["file"]), content=self.files[data["picture"]]),
            number=int(data["number"]),
            dpi=data["dpi"],
            votes=converter().structure(data["votes"], tuple[Vote, ...]),
        )


def _step(work: Work) -> _Step:
    found = _steps.get(work)
    if found is None:
        found = _steps[work] = _made(work)
    return found


def _made(work: Work) -> _Step:
    plan = content_name("plans", _plan_content(work))
    book, book_content = _book_file(work.book)
    pictures = {_picture_name(page): page.file for page in work.pages}
    return _Step(
        data={
            "plan": plan,
            "book": book,
            "job": converter().unstructure(work.job, Job),
            "document": work.document,
            "pages": [
                {
                    "file": page.file.name,
                    "picture": _picture_name(page),
                    "number": page.number,
                    "dpi": page.dpi,
                    "votes": converter().unstructure(page.votes, tuple[Vote, ...]),
                }
                for page in work.pages
            ],
        },
        files={
            plan: lambda: _plan_content(work),
            book: lambda: book_content,
            **{name: _content(file) for name, file in pictures.items()},
        },
    )


def _picture_name(page: Page) -> str:
    ending = PurePath(page.file.name).suffix.lower()
    ending = ending if ending[1:].isalnum() and ending.isascii() and len(ending) <= 6 else ""
    return _named_picture(page.file.content, ending)


def _content(file: File) -> Callable[[], bytes]:
    return lambda: file.content


@lru_cache(maxsize=64)
def _named_picture(content: bytes, ending: str) -> str:
    return content_name("pictures", content, ending)


@lru_cache(maxsize=4)
def _plan_content(work: Work) -> bytes:
    """Return a plan as written; asked for twice, for its name and to be kept."""
    return _json(plan_to_dict(work.plan))


@lru_cache(maxsize=64)
def _book_file(book: Book) -> tuple[str, bytes]:
    content = _json(converter().unstructure(book, Book))
    return content_name("books", content), content


def _json(data: object) -> bytes:
    return json.dumps(data, allow_nan=False).encode()


def _loaded(text: str | bytes) -> Data:
    try:
        data = json.loads(text)
    except (ValueError, RecursionError) as error:
        raise _damaged("the job") from error
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        raise _damaged("the job")
    return data


def _damaged(where: str) -> StoreError:
    return StoreError(where, "its files were damaged or made by another version", "open another")


@cache
def _usual_book() -> Data:
    usual: Data = converter().unstructure(packaged_book(), Book)
    return usual
