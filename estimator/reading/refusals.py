"""Pictures that are refused for what they are, before or after rooms are looked for in them."""

from collections.abc import Sequence

import numpy as np

from estimator.errors import NoClosedRoom, NoWalls
from estimator.plan.room import Room
from estimator.reading.arrays import Mask, Pixels
from estimator.reading.ink import ink_on, straight_runs
from estimator.reading.picture import Picture
from estimator.reading.settings import Settings

REMEDY = "send a floor plan, or type the rooms and their sizes"


def refuse_tiny(picture: Picture, settings: Settings) -> None:
    """Refuse a picture in which no room could be told."""
    if min(picture.width_px, picture.height_px) < settings.picture_least:
        raise NoWalls(
            picture.file,
            f"it is only {picture.width_px} × {picture.height_px} pixels",
            f"send a picture of at least {settings.work_least} pixels along its longer side",
        )


def refuse_what_is_no_drawing(file: str, ink: Mask, settings: Settings) -> None:
    """Refuse a blank page, a photograph and a page of text."""
    inked = float(ink.mean())
    if not inked:
        raise NoWalls(file, "the page is blank", REMEDY)
    if inked > settings.ink_most:
        raise NoWalls(file, "it looks like a photograph, not like a drawing", REMEDY)
    straight = np.count_nonzero(straight_runs(ink, settings) & ink) / np.count_nonzero(ink)
    if straight < settings.straight_ink_least:
        raise NoWalls(file, "there are hardly any straight strokes on it, as of walls", REMEDY)


def refuse_what_is_no_plan(
    file: str, grey: Pixels, rooms: Sequence[Room], settings: Settings
) -> None:
    """Refuse a picture whose rooms are too weakly seen, or do not open as rooms do.

    Tables, maps and logos hold spaces that look like rooms, but hardly one has a door or window;
    those in photographs are weakly seen. Large rooms count for more, so that a few false small ones
    condemn no plan. A sketch of one room or two may leave their doors out.
    """
    floors = [room.outline_px.area if room.outline_px else 0.0 for room in rooms]
    sure = [floor * room.confidence for floor, room in zip(floors, rooms, strict=True)]
    opened = [
        one * max((opening.confidence for opening in room.openings), default=0.0)
        for one, room in zip(sure, rooms, strict=True)
    ]
    floor = sum(floors)
    are_sure = sum(sure) >= settings.plan_least * floor
    if rooms and are_sure and sum(opened) >= settings.opened_least * floor:
        return
    if 0 < len(rooms) <= settings.few_most and sum(sure) >= settings.few_least * floor:
        return
    refuse_what_is_no_drawing(file, ink_on(grey, settings), settings)
    if not rooms:
        raise NoClosedRoom(file, "no rooms are drawn in it as on a floor plan", REMEDY)
    if not any(opened):
        problem = "none of the spaces drawn in it has a door or window, as rooms of a plan have"
        raise NoClosedRoom(file, problem, REMEDY)
    raise NoClosedRoom(file, "what is drawn in it is unlike the rooms of a floor plan", REMEDY)
