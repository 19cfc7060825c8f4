"""What was read, laid over each page it was read from, to check it by eye."""

from attrs import evolve

from estimator.documents.overlay import overlay_png
from estimator.plan.edits import of_one_picture
from estimator.plan.plan import Plan
from estimator.workflow.drawings import sheet_png
from estimator.workflow.pages import page_of
from estimator.workflow.reading import ReadPlan


def overlays(found: ReadPlan) -> tuple[bytes, ...]:
    """Return a PNG of each page with its rooms; storeys without a page are drawn on white sheets.

    Raises
    ------
    SourceError
        When a page cannot be opened again.
    """
    made = []
    seen: set[int] = set()
    for storey in found.plan.storeys:
        if storey.number in seen:
            continue
        page = page_of(storey, found.pages)
        if page is None:
            made.append(sheet_png(found.plan, storey.number))
        else:
            together = {level.number for level in of_one_picture(found.plan, storey.number)}
            seen |= together
            pixels = page.picture().pixels
            made.append(overlay_png(pixels, _on_one(found.plan, together), storey.number))
    return tuple(made)


def _on_one(plan: Plan, numbers: set[int]) -> Plan:
    """Return the plan with the rooms of some storeys all on the first of them."""
    first = min(numbers)
    rooms = (evolve(room, storey=first) if room.storey in numbers else room for room in plan.rooms)
    return evolve(plan, rooms=tuple(rooms))
