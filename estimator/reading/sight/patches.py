"""Patches of door and window in the walls, put together where outlines of the wall part them."""

from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen

from estimator.reading.arrays import Counts, Mask
from estimator.reading.sight.classes import CONTENTS_STEP, DOOR, PASSAGE, WALL, WINDOW
from estimator.reading.sight.network import Sight
from estimator.reading.sight.regions import pieces_of


@frozen(kw_only=True, eq=False)
class Patch:
    """One connected patch of a class.

    Parameters
    ----------
    shows
        Number of the class.
    rows, columns
        Its pixels, shape (N,).
    share
        How far they show the class, on average.
    """

    shows: int
    rows: Counts
    columns: Counts
    share: float


def patches(sight: Sight, wall_px: float) -> Iterator[Patch]:
    """Yield every patch of door, then every patch of window.

    Pieces of one opening lie along or across a wall with less than a wall's thickness of nothing
    but wall between them: panes between jambs, the two lines of a hollow wall, a sill in a recess.
    A passage is put together with no leaf.
    """
    wall = sight.classes == WALL
    for shows in (DOOR, WINDOW):
        seen = sight.classes == shows
        apart = _with_leaves_and_without(seen, sight) if shows == DOOR else (seen,)
        patch = np.logical_or.reduce([_put_together(each, wall, wall_px) for each in apart])
        for rows, columns in pieces_of(patch):
            share = float(sight.shares[shows][rows, columns].mean())
            yield Patch(shows=shows, rows=rows, columns=columns, share=share)


def _with_leaves_and_without(seen: Mask, sight: Sight) -> tuple[Mask, Mask]:
    """Return the pieces of doors that have leaves, and those of which most is seen to have none."""
    bare = np.zeros_like(seen)
    for rows, columns in pieces_of(seen):
        bare[rows, columns] = seen_as_passage(sight, rows, columns) > 0.5
    return seen & ~bare, bare


def seen_as_passage(sight: Sight, rows: Counts, columns: Counts) -> float:
    """Return how far pixels of a door are seen to have no leaf, on average."""
    squares = rows // CONTENTS_STEP, columns // CONTENTS_STEP
    return float(sight.contents[PASSAGE][squares].mean())


def _put_together(patch: Mask, wall: Mask, wall_px: float) -> Mask:
    """Return the patches with the wall between near pieces that lie level or upright."""
    reach = max(2, round(wall_px) + 1)
    seen = patch.view(np.uint8)
    level, upright = (
        cv2.morphologyEx(seen, cv2.MORPH_CLOSE, np.ones(size, np.uint8))
        for size in ((1, reach), (reach, 1))
    )
    return np.asarray(patch | (wall & (cv2.bitwise_or(level, upright) > 0)), np.bool_)
