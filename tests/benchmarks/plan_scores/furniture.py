"""Furniture, fittings and stairs read, against those drawn.

A piece is found when one of its kind overlaps it at an intersection over union of at least 0.5.
Pieces of one kind that touch, as chairs in a row may, count as one drawn piece.
"""

from collections import Counter

import cv2
import numpy as np
from attrs import define, field
from plan_scores.rooms import Mask, filled

from estimator.plan.plan import Plan
from estimator.reading.sight.classes import CONTENTS, STAIRS
from estimator.synthesis.drawn import Drawing

# Pieces that a door or the picture's edge leaves less of are not counted; nor, in the second count,
# those hardly 10 pixels across, as chairs on the plan of a whole school are.
LEAST_PX = (30, 100)


@define
class Furniture:
    """Counts by kind of pieces read, pieces drawn, and those of both that meet."""

    least_px: int
    said: Counter = field(factory=Counter)
    there: Counter = field(factory=Counter)
    met: Counter = field(factory=Counter)

    def add(self, plan: Plan, drawing: Drawing) -> None:
        """Match the pieces of one picture."""
        read = pieces(plan, drawing.contents.shape)
        for number, kind in enumerate(CONTENTS[STAIRS:], STAIRS):
            here = (drawing.contents == number).view(np.uint8)
            count, label, stats, _ = cv2.connectedComponentsWithStats(here)
            sizes = stats[:, cv2.CC_STAT_AREA]
            taken: set[int] = set()
            large = [mask for mask in read.get(kind, ()) if np.count_nonzero(mask) >= self.least_px]
            for mask in large:
                shared = np.bincount(label[mask], minlength=count)
                shared[0] = 0
                best = int(shared.argmax())
                either = np.count_nonzero(mask) + sizes[best] - shared[best]
                if sizes[best] >= self.least_px and shared[best] >= 0.5 * either:
                    taken.add(best)
            self.said[kind] += len(large)
            self.there[kind] += np.count_nonzero(sizes[1:] >= self.least_px)
            self.met[kind] += len(taken)


def pieces(plan: Plan, shape: tuple[int, int]) -> dict[str, list[Mask]]:
    """Return the pixels of each piece read, by what the network calls it."""
    found: dict[str, list[Mask]] = {}
    for room in plan.rooms:
        if room.use == "stairs":
            found.setdefault("stairs", []).append(filled(room.outline_px, shape))
        for piece in room.furnishings:
            if piece.footprint_px is not None:
                kind = piece.kind.removesuffix("_double").removesuffix("_single")
                found.setdefault(kind, []).append(filled(piece.footprint_px, shape))
    return found
