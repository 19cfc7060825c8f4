"""What cannot be so in what the network sees, put right: paper within a floor, doors in no wall."""

import math

import cv2
import numpy as np
from attrs import evolve

from estimator.reading.arrays import Mask, Pixels, Places
from estimator.reading.sight.classes import DOOR, OUTSIDE, ROOM
from estimator.reading.sight.network import Sight
from estimator.reading.sight.regions import pieces_of, pixels_of
from estimator.reading.sight.walls import wall_thickness

# Floor that was put right is as deep as this, which is deeper than a seed of a room.
_DEPTH = 0.2
# How far it then shows a room: not so surely that a space with much of it is beyond doubt.
_SURE = 0.75
# A blob of paper bordered by floor along more than this share is a part of that floor.
_IN_FLOOR = 0.5
# It takes this much of it: less changes nothing, more may be a yard.
_HOLE_LEAST, _HOLE_MOST = 0.01, 0.33
# A door's end is free where nearly nothing but floor lies so many walls and pixels beyond it.
_BEYOND, _BEYOND_PX = 1.0, 3.0
_FREE = 0.95
# Of a door at least so many pixels, so many times as long as thick, it is told which way it runs.
_STRIP_LEAST, _SLENDER = 3, 1.2


def mended(sight: Sight) -> Sight:
    """Return what is seen with paper enclosed by floor, and doors that end in floor, as floor."""
    paper = _enclosed_paper(sight.classes)
    floor = paper | _free_doors(sight.classes, wall_thickness(sight))
    if not floor.any():
        return sight
    shares = sight.shares.copy()
    shares[:, floor] *= (1 - _SURE) / (1 - shares[ROOM, floor])
    shares[ROOM, floor] = _SURE
    return evolve(
        sight,
        shares=shares,
        depth=np.where(paper, np.maximum(sight.depth, _DEPTH), sight.depth).astype(np.float32),
        classes=np.where(floor, np.uint8(ROOM), sight.classes),
    )


def _enclosed_paper(classes: Pixels) -> Mask:
    """Return the blobs of paper that floor borders; those that reach the page's edge are none."""
    page = np.pad(classes, 1, constant_values=OUTSIDE)
    count, blob = cv2.connectedComponents((page == OUTSIDE).view(np.uint8), connectivity=4)
    rows, columns = pixels_of((blob > 0) & (blob != blob[0, 0]))
    if not len(rows):
        return np.zeros(classes.shape, np.bool_)
    _, floor = cv2.connectedComponents((page == ROOM).view(np.uint8), connectivity=4)
    floors = np.bincount(floor.ravel())
    edge, beside, around = np.zeros(count), np.zeros(count), np.zeros(count)
    for down, across in ((1, 0), (-1, 0), (0, 1), (0, -1)):
        there = rows + down, columns + across
        at = blob[there] == 0
        paper, room = blob[rows, columns][at], floor[there][at]
        edge += np.bincount(paper, minlength=count)
        beside += np.bincount(paper, room > 0, minlength=count)
        np.maximum.at(around, paper[room > 0], floors[room[room > 0]])
    share = np.bincount(blob.ravel()) / np.maximum(around, 1)
    within = (beside > _IN_FLOOR * edge) & (share > _HOLE_LEAST) & (share < _HOLE_MOST)
    within[0] = False
    return np.asarray(within[blob[1:-1, 1:-1]])


def _free_doors(classes: Pixels, wall_px: float) -> Mask:
    """Return the doors of which an end lies in floor."""
    free = np.zeros(classes.shape, np.bool_)
    for rows, columns in pieces_of(classes == DOOR):
        places = np.stack([columns, rows], axis=1).astype(np.float64) + 0.5
        if _ends_in_floor(places, classes, wall_px):
            free[rows, columns] = True
    return free


def _ends_in_floor(places: Places, classes: Pixels, wall_px: float) -> bool:
    """Tell whether only floor lies beyond an end of a strip of pixels."""
    if len(places) < _STRIP_LEAST:
        return False
    middle = places.mean(axis=0)
    _, _, (along, across) = np.linalg.svd(places - middle, full_matrices=False)
    reach = (places - middle) @ along
    thick = len(places) / (float(np.ptp(reach)) + 1)
    if np.ptp(reach) + 1 < _SLENDER * thick:
        return False  # too thick to tell which way it runs
    far = np.arange(1.0, _BEYOND * wall_px + _BEYOND_PX)
    side = np.linspace(-thick / 2, thick / 2, max(3, math.ceil(thick)))
    for end in (reach.min(), reach.max()):
        steps = end + math.copysign(1.0, end) * far
        spots = middle + steps[:, None, None] * along + side[None, :, None] * across
        last = np.array(classes.shape[::-1]) - 1
        columns, rows = np.clip(spots.reshape(-1, 2), 0, last).astype(int).T
        if np.mean(classes[rows, columns] == ROOM) >= _FREE:
            return True
    return False
