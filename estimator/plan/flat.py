"""Plans read from a sheet seen askew, in pixels of the sheet laid flat and back again."""

from collections.abc import Callable

import numpy as np
import shapely
from attrs import evolve
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.sheet import Sheet
from estimator.plan.storey import Source, Storey

Move = Callable[[NDArray[np.float64]], NDArray[np.float64]]
"""Maps places, shape (N, 2)."""


def laid_flat(plan: Plan) -> Plan:
    """Return the plan in pixels of its sheet laid flat, as if that was the picture.

    Storeys whose picture is flat stay as they are.
    """
    sheets = {storey.number: storey.sheet for storey in plan.storeys}
    return evolve(
        plan,
        storeys=tuple(map(_flat_storey, plan.storeys)),
        rooms=tuple(
            _moved(room, sheet.flat) if (sheet := sheets[room.storey]) else room
            for room in plan.rooms
        ),
    )


def in_picture(plan: Plan, sheet: Sheet, source: Source | None) -> Plan:
    """Return a plan in pixels of a sheet laid flat in those of the picture that shows the sheet."""
    return evolve(
        plan,
        storeys=tuple(evolve(storey, sheet=sheet, source=source) for storey in plan.storeys),
        rooms=tuple(_moved(room, sheet.in_picture) for room in plan.rooms),
    )


def _flat_storey(storey: Storey) -> Storey:
    if storey.sheet is None:
        return storey
    wide, tall = storey.sheet.width_px, storey.sheet.height_px
    source = storey.source and evolve(storey.source, width_px=wide, height_px=tall)
    return evolve(storey, sheet=None, source=source)


def _moved(room: Room, move: Move) -> Room:
    """Return the room with whatever is in pixels carried along."""

    def outline(shape: Polygon | None) -> Polygon | None:
        return shapely.transform(shape, move) if shape else None

    def point(place: Point | None) -> Point | None:
        if place is None:
            return None
        ((x, y),) = move(np.array([place])).tolist()
        return x, y

    return evolve(
        room,
        outline_px=outline(room.outline_px),
        openings=tuple(
            evolve(one, start_px=point(one.start_px), end_px=point(one.end_px))
            for one in room.openings
        ),
        furnishings=tuple(
            evolve(one, footprint_px=outline(one.footprint_px)) for one in room.furnishings
        ),
    )
