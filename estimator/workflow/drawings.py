"""Read drawings that are geometry, and show what was read of them."""

import numpy as np
import shapely
from attrs import evolve

from estimator.documents.overlay import overlay_png
from estimator.intake.drawings.dxf import dxf_plan
from estimator.intake.drawings.ifc import ifc_plan
from estimator.intake.sniffing import drawing_kind
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.workflow.firm_book import usable_book

_LONG_SIDE = 1600  # pixels of the sheet that shows a plan
_MARGIN = 40


def drawing_plan(data: bytes, name: str) -> Plan | None:
    """Return the plan of a file's content, in metres; None when it is no such drawing.

    Raises
    ------
    SourceError
        When the drawing is damaged, or what reads it is not installed.
    NoClosedRoom
        When nothing in it encloses a room.
    """
    kind = drawing_kind(data)
    if kind is None:
        return None
    book = usable_book()[0].surfaces
    uses = {word: use.slug for use in book.uses for word in use.words}
    if kind == "ifc":
        return ifc_plan(data, name, uses)
    furniture = {word: kind.slug for kind in book.furniture for word in kind.words}
    return dxf_plan(data, name, uses, furniture)


def sheet_png(plan: Plan, storey: int = 0) -> bytes:
    """Return a PNG of the rooms, openings and names of a storey on a white sheet."""
    outlines = [room.outline for room in plan.rooms if room.storey == storey and room.outline]
    left, top, right, bottom = shapely.total_bounds(outlines).tolist()
    factor = (_LONG_SIDE - 2 * _MARGIN) / max(right - left, bottom - top)
    width, height = (round(side * factor) + 2 * _MARGIN for side in (right - left, bottom - top))

    def place(point: Point | None) -> Point | None:
        if point is None:
            return None
        return (point[0] - left) * factor + _MARGIN, (point[1] - top) * factor + _MARGIN

    def drawn(room: Room) -> Room:
        outline = room.outline and shapely.transform(
            room.outline, lambda points: (points - [left, top]) * factor + _MARGIN
        )
        openings = (
            evolve(one, start_px=place(one.start), end_px=place(one.end)) for one in room.openings
        )
        return evolve(room, outline_px=outline, openings=tuple(openings))

    paper = np.full((height, width, 3), 255, np.uint8)
    return overlay_png(paper, evolve(plan, rooms=tuple(map(drawn, plan.rooms))), storey)
