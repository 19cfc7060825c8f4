"""Turn typed rooms into a plan."""

from estimator.estimation.book import Book
from estimator.intake.typed import typed_rooms
from estimator.plan.plan import Plan
from estimator.workflow.measuring import standard_book


def sketch_plan(text: str, *, book: Book | None = None) -> Plan:
    """Return the plan of rooms typed in everyday words and any unit.

    Raises
    ------
    QuantityError
        One sentence naming the piece of text that cannot be read.

    Examples
    --------
    >>> plan = sketch_plan("Kitchen 12' x 14', hall 6 x 2.4 m, ceilings 10 ft")
    >>> [(room.name, round(room.outline.area, 2)) for room in plan.rooms]
    [('Kitchen', 15.61), ('Hall', 14.4)]
    """
    uses = (book or standard_book()).surfaces.uses
    return typed_rooms(text, {word: use.slug for use in uses for word in use.words})
