"""Answers to what could be asked next, as people say or choose them."""

import re

from attrs import evolve

from estimator.errors import QuantityError, ScaleUnknown
from estimator.estimation.answers import (
    with_contents,
    with_film,
    with_heights,
    with_opening_heights,
    with_outline_confirmed,
    with_pace,
)
from estimator.estimation.book import Book
from estimator.intake.resizing import resized
from estimator.intake.typed import typed_rooms
from estimator.plan.edits import removed, with_use
from estimator.plan.plan import Plan
from estimator.quantities import Units, length, quantity
from estimator.quantities.shown import HOUSE_UNITS
from estimator.quote.question import Matter, Question
from estimator.workflow.asking import length_question
from estimator.workflow.scaling import KnownLength, scaled_by
from estimator.workflow.work import Work

_SHARES = {"Empty": 0.0, "Half of it": 0.5, "As usual": 1.0, "Half as much again": 1.5}
_RIGHT, _NONE = "It is right", "There is none"
_EXAMPLES = {
    Matter.SCALE: {Units.METRIC: "3.8 m", Units.US: "12'-6\""},
    Matter.HEIGHT: {Units.METRIC: "2.7 m", Units.US: "9 ft"},
    Matter.SIZE: {Units.METRIC: "3.6 x 4 m", Units.US: "12' x 14'"},
    Matter.OPENINGS: {Units.METRIC: "1.2 m", Units.US: "4 ft"},
    Matter.FILM: {Units.METRIC: "40 mL/m²", Units.US: "126 US fl oz/1,000 ft²"},
    Matter.PACE: {Units.METRIC: "600 m²/h", Units.US: "6500 ft²/h"},
}
_BARE = re.compile(r"\s*\d+(?:[.,]\d+)?\s*")


def choices(question: Question, book: Book) -> tuple[str, ...]:
    """Return the answers to choose from; none where a figure is typed."""
    match question.matter:
        case Matter.CONTENTS:
            return tuple(_SHARES)
        case Matter.USE:
            return tuple(use.label for use in book.surfaces.uses)
        case Matter.OUTLINE:
            return (_RIGHT,)
        case Matter.ROOM:
            return _RIGHT, _NONE
        case _:
            return ()


def example(question: Question, units: Units) -> str:
    """Return an answer as it may be typed."""
    return _EXAMPLES[question.matter][units]


def asked_for(question: Question, plan: Plan) -> str:
    """Return what is to be typed, in words."""
    if question.matter is Matter.SCALE and question.storey is not None:
        about = length_question(plan, question.storey)
        return about.says if about else question.says
    return question.says


def answered(work: Work, question: Question, said: str, units: Units) -> Work:
    """Return the work with a question answered.

    Raises
    ------
    EstimatorError
        One sentence on why the answer cannot be taken.
    """
    match question.matter:
        case Matter.FILM:
            film = quantity(_with_unit(question, said, units), "m^3/m^2")
            return evolve(work, book=with_film(work.book, film))
        case Matter.PACE:
            pace = quantity(_with_unit(question, said, units), "m^2/s")
            return evolve(work, book=with_pace(work.book, pace))
        case _:
            return evolve(work, plan=_corrected(work, question, said, units))


def told_size(said: str, units: Units) -> tuple[float, float]:
    """Return width and depth of a room as somebody says them.

    Raises
    ------
    QuantityError
        When they are not two lengths.

    >>> told_size("3.6 x 4", Units.METRIC)
    (3.6, 4.0)
    """
    try:
        plan = typed_rooms(f"Room {said}", {}, {})
    except QuantityError:
        plan = typed_rooms(f"Room {said} {HOUSE_UNITS[units]}", {}, {})
    outline = plan.rooms[0].outline
    if outline is None or len(plan.rooms) != 1:
        raise QuantityError(said, "it is no size of a room", "write it like 3.6 x 4 m")
    left, top, right, bottom = outline.bounds
    return right - left, bottom - top


def _with_unit(question: Question, said: str, units: Units) -> str:
    """Return a bare number with the unit of the example."""
    unit = _EXAMPLES[question.matter][units].split(" ", 1)[1]
    return f"{said.strip()} {unit}" if _BARE.fullmatch(said) else said


def _corrected(work: Work, question: Question, said: str, units: Units) -> Plan:
    plan, book = work.plan, work.book.surfaces
    match question.matter:
        case Matter.HEIGHT:
            return with_heights(plan, question.rooms, _height(said, units))
        case Matter.OPENINGS:
            assert question.opening is not None
            height = length(said, default_unit=HOUSE_UNITS[units])
            return with_opening_heights(plan, question.opening, height, book)
        case Matter.SCALE:
            return _scaled(plan, question, length(said, default_unit=HOUSE_UNITS[units]))
        case Matter.SIZE:
            return resized(plan, question.rooms[0], *told_size(said, units))
        case Matter.CONTENTS:
            return with_contents(plan, question.rooms[0], _SHARES[said], book)
        case Matter.USE:
            slug = next(use.slug for use in book.uses if use.label == said)
            return with_use(plan, question.rooms[0], slug)
        case _:
            if said == _NONE:
                return removed(plan, question.rooms[0])
            return with_outline_confirmed(plan, question.rooms[0])


def _height(said: str, units: Units) -> float:
    height = length(said, default_unit=HOUSE_UNITS[units])
    if not 1 <= height <= 50:
        raise QuantityError(said, "this is no height of a room", "give one such as 2.7 m or 9 ft")
    return height


def _scaled(plan: Plan, question: Question, known: float) -> Plan:
    about = length_question(plan, question.storey or 0)
    if about is None:
        raise ScaleUnknown("scale", "no room was read from the picture", "set the scale by hand")
    told = KnownLength(start_px=about.start_px, end_px=about.end_px, length=known)
    return scaled_by(plan, told, about.storey)
