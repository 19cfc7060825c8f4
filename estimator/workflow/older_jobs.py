"""Jobs that earlier versions kept as folders of files, taken over into the store.

One folder a job. What is large lies in files that are named by their content::

    revisions/00000042.json   the work as it stands, and the steps there and back, by reference
    plans/93803c0d2a0905f3.json     each a plan.json
    books/b6b266e28e83a1fb.json     furniture, uses, strengths, paces and rates as they were used
    pictures/6f1c….png              what the plan was read from, as given

The folders stay as they are. A job that was damaged is left alone, as it was when it lay there.
"""

import re
from collections.abc import Callable, Iterator
from contextlib import suppress
from pathlib import Path

from estimator.errors import StoreError
from estimator.store.converting import MISREAD
from estimator.store.jobs import Jobs, JobText
from estimator.workflow.records import named_in, summary

_NAME = re.compile(r"[a-z0-9]{6,40}")
_REVISION = re.compile(r"(\d{8})\.json")
_FILE = re.compile(r"(plans|books|pictures)/[\w.-]+")


def take_over(jobs: Jobs, folder: Path) -> None:
    """Keep every job of a folder that is not kept yet."""
    places = {place.name: place for place in _places(folder)}
    kept = jobs.kept_among(places) if places else set()
    for name in sorted(places.keys() - kept):
        with suppress(OSError, *MISREAD):
            _take(jobs, places[name])


def _places(folder: Path) -> Iterator[Path]:
    with suppress(OSError):
        yield from (place for place in folder.iterdir() if _NAME.fullmatch(place.name))


def _take(jobs: Jobs, place: Path) -> None:
    revisions = (_REVISION.fullmatch(path.name) for path in (place / "revisions").iterdir())
    last = max((int(found[1]) for found in revisions if found), default=0)
    head = place / "revisions" / f"{last:08}.json"
    record = head.read_bytes()
    title, rooms = summary(record)
    text = JobText(
        title=title,
        rooms=rooms,
        record=record.decode(),
        files={name: _reading(place, name) for name in named_in(record)},
    )
    jobs.take_over(place.name, text, revision=last, saved_at=head.stat().st_mtime)


def _reading(place: Path, name: str) -> Callable[[], bytes]:
    if not _FILE.fullmatch(name):
        raise StoreError(place.name, "it names a file elsewhere", "open another")
    return (place / name).read_bytes
