"""Pictures that are refused before anything is looked for in them."""

import numpy as np

from estimator.errors import NoWalls
from estimator.reading.arrays import Mask
from estimator.reading.ink import straight_runs
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
