"""Doors, windows, passages and swings read, against those drawn."""

import math
from collections import Counter

import cv2
import numpy as np
from attrs import define, field
from numpy.typing import NDArray

from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.reading.sight.classes import DOOR, PASSAGE, SWING, WINDOW
from estimator.synthesis.drawn import Drawing

Patches = dict[OpeningKind, NDArray[np.int32]]


def patches(drawing: Drawing) -> Patches:
    """Return the number of the true opening of each kind at each pixel."""
    passage = drawing.contents == PASSAGE
    there = {
        OpeningKind.DOOR: (drawing.labels == DOOR) & ~passage,
        OpeningKind.WINDOW: drawing.labels == WINDOW,
        OpeningKind.PASSAGE: (drawing.labels == DOOR) & passage,
    }
    return {kind: cv2.connectedComponents(mask.view(np.uint8))[1] for kind, mask in there.items()}


def met(opening: Opening, patch: NDArray[np.int32]) -> int:
    """Return the number of the true opening that lies along most of one read; 0 for none."""
    start, end = np.array(opening.start_px), np.array(opening.end_px)
    width = math.dist(start, end)
    band = np.zeros(patch.shape, np.uint8)
    cv2.line(band, *(np.round(at).astype(int).tolist() for at in (start, end)), 1, 13)
    near = np.bincount(patch[band > 0], minlength=2)
    near[0] = 0
    if not near.any():
        return 0
    rows, columns = np.nonzero(patch == near.argmax())
    along = (np.stack([columns, rows], axis=1) + 0.5 - start) @ (end - start) / width
    low, high = along.min(), along.max()
    shared = min(width, high) - max(0, low)
    return int(near.argmax()) if shared > 0.5 * (max(width, high) - min(0, low)) else 0


@define
class Openings:
    """Counts by kind: said and right among those read, there and found among those drawn."""

    said: Counter = field(factory=Counter)
    right: Counter = field(factory=Counter)
    there: Counter = field(factory=Counter)
    found: Counter = field(factory=Counter)
    sure: list[tuple[OpeningKind, float, bool]] = field(factory=list)

    def add(self, plan: Plan, drawing: Drawing) -> None:
        """Match the openings of one picture, and the swings of its doors."""
        true = patches(drawing)
        found: dict[OpeningKind, set[int]] = {kind: set() for kind in true}
        for room in plan.rooms:
            for opening in room.openings:
                number = met(opening, true[opening.kind])
                found[opening.kind].add(number)
                self.said[opening.kind] += 1
                self.right[opening.kind] += number > 0
                self.sure.append((opening.kind, opening.confidence, number > 0))
                if opening.opens_in is not None:
                    self.said["swing"] += 1
                    self.right["swing"] += swings_so(opening, room, drawing)
        for kind, patch in true.items():
            self.there[kind] += int(patch.max())
            self.found[kind] += len(found[kind] - {0})


def swings_so(opening: Opening, room: Room, drawing: Drawing) -> bool:
    """Tell whether floor is swept on the side said, and more of it by the hinge said."""
    start, end = np.array(opening.start_px), np.array(opening.end_px)
    width = math.dist(start, end)
    out = np.array([start[1] - end[1], end[0] - start[0]]) / width
    middle = (start + end) / 2
    inwards = cv2.pointPolygonTest(
        np.array(room.outline_px.exterior.coords, np.float32), tuple(middle + 3 * out), False
    )
    out = out if (inwards > 0) == opening.opens_in else -out
    # A room's opening lies on its own face; a leaf that opens outwards sweeps beyond the wall.
    rows, columns = np.nonzero(_swept(drawing, middle + out * width / 2, width))
    at = np.stack([columns, rows], axis=1) + 0.5 - start
    before = at[(at @ out > 0) & (np.abs(at @ (end - start) / width - width / 2) < 0.6 * width)]
    if len(before) < 0.15 * width**2:
        return False
    along = float((before @ (end - start)).mean() / width**2)
    if opening.hinge is Hinge.BOTH:
        return abs(along - 0.5) < 0.15
    return (along < 0.5) == (opening.hinge is Hinge.START)


def _swept(drawing: Drawing, centre: NDArray[np.float64], width: float) -> NDArray[np.bool_]:
    window = np.zeros(drawing.contents.shape, np.uint8)
    cv2.circle(window, tuple(np.round(centre).astype(int).tolist()), round(width), 1, -1)
    return (drawing.contents == SWING) & (window > 0)
