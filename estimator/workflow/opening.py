"""Open one file of any kind as a plan."""

from pathlib import PurePath

from attrs import evolve

from estimator.errors import SourceError
from estimator.estimation.book import Book
from estimator.plan.plan import Plan
from estimator.workflow.files import plan_from_text
from estimator.workflow.pages import File
from estimator.workflow.reading import ReadPlan, read_files
from estimator.workflow.sketching import sketch_plan


def open_plan(file: File, book: Book) -> ReadPlan:
    """Return the plan of a ``plan.json``, of typed rooms (``.txt``), or of what else is read.

    A plan without a title is called after its file.

    Raises
    ------
    EstimatorError
        One sentence on why the file gives no plan.
    """
    found = _opened(file, book)
    return evolve(found, plan=titled(found.plan, file.name))


def titled(plan: Plan, name: str) -> Plan:
    """Return the plan with the title it has, or else with one made of a file's name.

    >>> titled(Plan(), "town/north-wing_2.png").title
    'North wing 2'
    """
    stem = PurePath(name).stem.replace("-", " ").replace("_", " ").capitalize()
    return evolve(plan, title=plan.title or stem)


def is_typed(file: File) -> bool:
    """Whether a file holds typed rooms."""
    return file.name.lower().endswith(".txt")


def is_plan(file: File) -> bool:
    """Whether a file is a ``plan.json``."""
    return file.name.lower().endswith(".json")


def typed_plan(file: File, book: Book) -> Plan:
    """Return the plan of a text file of typed rooms.

    Raises
    ------
    SourceError
        When it is no text in UTF-8.
    QuantityError
        One sentence naming the piece of text that cannot be read.
    """
    try:
        text = file.content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        raise SourceError(file.name, "it is no text in UTF-8", "save it as UTF-8") from error
    return sketch_plan(text, book=book)


def _opened(file: File, book: Book) -> ReadPlan:
    if is_plan(file):
        return ReadPlan(plan=plan_from_text(file.name, file.content))
    if is_typed(file):
        return ReadPlan(plan=typed_plan(file, book))
    return read_files([file])
