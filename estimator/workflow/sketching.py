"""Turn typed rooms into a plan."""

from collections.abc import Iterable

from estimator.estimation.book import Book
from estimator.intake.typed import typed_into, typed_rooms
from estimator.plan.plan import Plan
from estimator.quantities.shown import HOUSE_UNITS, Units
from estimator.surfaces.uses import RoomUse
from estimator.workflow.firm_book import usable_book


def sketch_plan(text: str, *, book: Book | None = None) -> Plan:
    """Return the plan of rooms typed in everyday words and any unit.

    Rooms may be joined ("bath off the hall", "kitchen opens to dining", "store next to office"). A
    room without a size has the one that is usual for its use, with a doubt that says so.

    Raises
    ------
    QuantityError
        One sentence naming the piece of text that cannot be read.

    Examples
    --------
    >>> plan = sketch_plan("Kitchen 12' x 14', hall 6 x 2.4 m off the kitchen, ceilings 10 ft")
    >>> [(room.name, round(room.outline.area, 2)) for room in plan.rooms]
    [('Kitchen', 15.61), ('Hall', 14.4)]
    """
    uses = (book or usable_book()[0]).surfaces.uses
    return typed_rooms(text, _words(uses), _sizes(uses))


def sketch_into(
    plan: Plan, text: str, *, book: Book | None = None, storey: int = 0, units: Units = Units.METRIC
) -> Plan:
    """Return the plan with typed rooms added to a storey and joined as the words say.

    Raises
    ------
    EstimatorError
        One sentence naming the piece of text that cannot be read, or the rooms that cannot be
        joined.

    Examples
    --------
    >>> plan = sketch_into(sketch_plan("Hall 6 x 2 m"), "bath 2x3 off the hall")
    >>> [(room.name, len(room.openings)) for room in plan.rooms]
    [('Hall', 1), ('Bath', 1)]
    """
    uses = (book or usable_book()[0]).surfaces.uses
    return typed_into(
        plan, text, _words(uses), _sizes(uses), storey=storey, unit=HOUSE_UNITS[units]
    )


def stock_rooms(book: Book) -> tuple[RoomUse, ...]:
    """Return the uses of a book whose usual size is known."""
    return tuple(use for use in book.surfaces.uses if use.width and use.depth)


def _words(uses: Iterable[RoomUse]) -> dict[str, str]:
    return {word: use.slug for use in uses for word in use.words}


def _sizes(uses: Iterable[RoomUse]) -> dict[str, tuple[float, float]]:
    return {use.slug: (use.width, use.depth) for use in uses if use.width and use.depth}
