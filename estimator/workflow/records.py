"""Work on a site as files in open formats: references in one record, the rest named by content."""

import hashlib
import json
from base64 import b64decode, b64encode
from collections.abc import Callable
from decimal import Decimal
from functools import cache, lru_cache
from pathlib import Path, PurePath
from typing import Any
from weakref import WeakKeyDictionary

import cattrs
from attrs import field, frozen
from cattrs.strategies import configure_tagged_union

from estimator.catalogue.loader import packaged_book
from estimator.errors import EstimatorError, StoreError
from estimator.estimation.book import Book
from estimator.estimation.digest import plan_digest, value_digest
from estimator.estimation.job import Job
from estimator.lettering.consensus import Vote
from estimator.plan.exchange import plan_as_written, plan_to_dict
from estimator.surfaces.solids import Solid
from estimator.workflow.older_books import completed
from estimator.workflow.pages import File, Page
from estimator.workflow.work import History, Work

SCHEMA = "job/1"

Data = dict[str, Any]


@frozen(kw_only=True, eq=False)
class Kept:
    """A file that is written once: its name in the folder of the job, and how to make it."""

    name: str
    content: Callable[[], bytes]


@frozen(kw_only=True, eq=False)
class Record:
    """A history as the text of a record, with the files it refers to."""

    title: str
    text: str
    kept: tuple[Kept, ...] = field(repr=False)


@frozen(kw_only=True, eq=False)
class _Step:
    """One work as data, with the files it refers to."""

    data: Data
    kept: tuple[Kept, ...]


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
    kept = {one.name: one for step in steps for one in step.kept}
    return Record(
        title=plan.title,
        text=json.dumps(data, ensure_ascii=False, allow_nan=False),
        kept=tuple(kept.values()),
    )


def summary(text: bytes) -> tuple[str, int]:
    """Return the title and the number of rooms that a record tells.

    Raises
    ------
    StoreError
        When it is no record.
    """
    data = _loaded(text)
    return str(data.get("title") or ""), int(data.get("rooms") or 0)


def read(text: bytes, place: Path) -> History:
    """Return the history that a record tells, its files in the folder ``place``.

    Raises
    ------
    StoreError
        When the record or a file was damaged.
    OSError
        When a file is missing.
    """
    data = _loaded(text)
    folder = _Folder(place)
    try:
        works = [folder.work(step) for step in data["steps"]]
        now = int(data["now"])
        return History(now=works[now], past=tuple(works[:now]), future=tuple(works[now + 1 :]))
    except (
        EstimatorError,
        cattrs.BaseValidationError,
        ValueError,
        LookupError,
        TypeError,
    ) as error:
        raise _damaged(place.name) from error


class _Folder:
    """Files of one job, each opened once."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self.plan = cache(lambda name: plan_as_written(json.loads(self._bytes(name))))
        self.book = cache(self._book)
        self.picture = cache(self._bytes)

    def work(self, step: Data) -> Work:
        """Return the work of one step."""
        return Work(
            plan=self.plan(step["plan"]),
            book=self.book(step["book"]),
            job=_converter().structure(step["job"], Job),
            pages=tuple(map(self._page, step["pages"])),
            document=int(step["document"]),
        )

    def _book(self, name: str) -> Book:
        book: Book = _converter().structure(
            completed(json.loads(self._bytes(name)), _usual_book()), Book
        )
        return book

    def _page(self, data: Data) -> Page:
        return Page(
            file=File(name=str(data["file"]), content=self.picture(data["picture"])),
            number=int(data["number"]),
            dpi=data["dpi"],
            votes=_converter().structure(data["votes"], tuple[Vote, ...]),
        )

    def _bytes(self, name: str) -> bytes:
        folder, file = name.split("/")
        if folder not in ("plans", "books", "pictures") or PurePath(file).name != file:
            raise _damaged(self.place.name)
        return (self.place / folder / file).read_bytes()


def _step(work: Work) -> _Step:
    found = _steps.get(work)
    if found is None:
        found = _steps[work] = _made(work)
    return found


def _made(work: Work) -> _Step:
    plan = f"plans/{plan_digest(work.plan)}.json"
    book = f"books/{_book_digest(work.book)}.json"
    pictures = {_picture_name(page): page.file for page in work.pages}
    return _Step(
        data={
            "plan": plan,
            "book": book,
            "job": _converter().unstructure(work.job, Job),
            "document": work.document,
            "pages": [
                {
                    "file": page.file.name,
                    "picture": _picture_name(page),
                    "number": page.number,
                    "dpi": page.dpi,
                    "votes": _converter().unstructure(page.votes, tuple[Vote, ...]),
                }
                for page in work.pages
            ],
        },
        kept=(
            Kept(name=plan, content=lambda: _json(plan_to_dict(work.plan))),
            Kept(name=book, content=lambda: _json(_converter().unstructure(work.book, Book))),
            *(Kept(name=name, content=_content(file)) for name, file in pictures.items()),
        ),
    )


def _picture_name(page: Page) -> str:
    ending = PurePath(page.file.name).suffix.lower()
    ending = ending if ending[1:].isalnum() and ending.isascii() and len(ending) <= 6 else ""
    return f"pictures/{_digest(page.file.content)}{ending}"


def _content(file: File) -> Callable[[], bytes]:
    return lambda: file.content


@lru_cache(maxsize=64)
def _book_digest(book: Book) -> str:
    return value_digest(book)


@lru_cache(maxsize=64)
def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:24]


def _json(data: object) -> bytes:
    return json.dumps(data, ensure_ascii=False, allow_nan=False).encode()


def _loaded(text: bytes) -> Data:
    try:
        data = json.loads(text)
    except ValueError as error:
        raise _damaged("the job") from error
    if not isinstance(data, dict) or data.get("schema") != SCHEMA:
        raise _damaged("the job")
    return data


def _damaged(where: str) -> StoreError:
    return StoreError(where, "its files were damaged or made by another version", "open another")


@cache
def _usual_book() -> Data:
    usual: Data = _converter().unstructure(packaged_book(), Book)
    return usual


@cache
def _converter() -> cattrs.Converter:
    converter = cattrs.Converter()
    converter.register_unstructure_hook(Decimal, str)
    converter.register_structure_hook(Decimal, lambda given, _: Decimal(given))
    converter.register_unstructure_hook(bytes, lambda data: b64encode(data).decode())
    converter.register_structure_hook(bytes, lambda given, _: b64decode(given, validate=True))
    converter.register_unstructure_hook(bytes, lambda given: b64encode(given).decode())
    converter.register_structure_hook(bytes, lambda given, _: b64decode(given))
    configure_tagged_union(Solid, converter)
    return converter
