"""Rooms as the network sees them: connected floor, parted where it grows shallow.

Each deep part of the floor is a seed; a watershed over the depth shares the floor out among the
seeds (Meyer 1994), and every floor pixel on a border goes to the room beside it: a border left
out would shave each room all round.
"""

import cv2
import numpy as np

from estimator.reading.arrays import Labels, Mask, Pixels
from estimator.reading.settings import Settings
from estimator.reading.sight.classes import DOOR, ROOM, WALL, WINDOW
from estimator.reading.sight.network import Sight
from estimator.reading.sight.regions import edges_of, grown

# A seed smaller than this share of the smallest room is a speck.
_SPECK = 0.1


def spaces_in(sight: Sight, settings: Settings) -> Labels:
    """Return the number of the room at each pixel, shape (H, W), from 1; 0 where there is none.

    What is enclosed by too little wall, door and window is no room: text, logos, edges of pages.
    """
    classes = sight.classes
    floor = classes == ROOM
    seeds = (floor & (sight.depth > settings.seed_depth)).view(np.uint8)
    count, label = cv2.connectedComponents(seeds, connectivity=4)
    # Where depth wavers about its least at the edge of a floor, specks come loose from the seeds.
    area = np.bincount(label.ravel(), minlength=count)
    label[area[label] < _SPECK * settings.space_share_least * label.size] = 0
    shared = _shared_out(label, count, floor, sight)
    return _numbered_anew(shared, _enclosed(shared, classes, settings))


def _shared_out(label: Labels, count: int, floor: Mask, sight: Sight) -> Labels:
    """Share the floor out among the seeds."""
    markers = np.where(floor, label, count).astype(np.int32)
    # OpenCV floods where neighbours differ least: what is no floor differs from all floor.
    shallow = np.where(floor, np.uint8(255) - (255 * sight.depth).astype(np.uint8), np.uint8(0))
    cv2.watershed(cv2.cvtColor(shallow, cv2.COLOR_GRAY2BGR), markers)
    markers[(markers == count) | (markers < 0)] = 0
    for _ in range(4):
        np.copyto(markers, grown(markers, 1), where=(markers == 0) & floor)
    return np.asarray(markers, np.int32)


def _enclosed(shared: Labels, classes: Pixels, settings: Settings) -> Mask:
    """Tell for each number whether it is large enough and enclosed, shape (N,)."""
    count = int(shared.max()) + 1
    at, edge = edges_of(shared)
    firm = np.isin(classes[at], (WALL, DOOR, WINDOW))
    length = np.bincount(edge, minlength=count)
    share = np.bincount(edge[firm], minlength=count) / np.maximum(length, 1)
    area = np.bincount(shared.ravel(), minlength=count)
    least = settings.space_share_least * shared.size
    keep = (share >= settings.enclosed_least) & (area >= least)
    keep[0] = False
    return keep


def _numbered_anew(shared: Labels, keep: Mask) -> Labels:
    new = np.zeros(len(keep), np.int32)
    new[keep] = np.arange(1, keep.sum() + 1)
    return new[shared]
