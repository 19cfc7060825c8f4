"""Rooms found against rooms drawn: matches, areas, and what became of those missed.

Rooms are matched one to one, the best overlap first, at an intersection over union of at least 0.5
(Everingham et al. 2010, the PASCAL VOC criterion) or 0.75. An area is compared with the pixels of
the drawn room, warped as the picture is, so that no scale enters; on drawings that lie flat those
pixels follow the exact square metres of the layout.
"""

from collections import Counter

import cv2
import numpy as np
from attrs import define, field
from numpy.typing import NDArray

from estimator.plan.plan import Plan

Mask = NDArray[np.bool_]
Found = list[tuple[Mask, float]]  # each room's pixels and its area in pixels

SMALL_PX = 20.0  # rooms less than this across, in the network's pixels of 768 a side, are small


def of_plan(plan: Plan, shape: tuple[int, int]) -> Found:
    """Return a plan's rooms as masks, with the exact areas of their outlines."""
    return [(filled(room.outline_px, shape), room.outline_px.area) for room in plan.rooms]


def filled(outline, shape: tuple[int, int]) -> Mask:
    """Return the pixels of a polygon."""
    mask = np.zeros(shape, np.uint8)
    for ring, value in ((outline.exterior, 1), *((hole, 0) for hole in outline.interiors)):
        corners = np.round(np.array(ring.coords) * 16 - 8).astype(np.int32)
        cv2.fillPoly(mask, [corners], value, shift=4)
    return mask > 0


@define
class Score:
    """Counts over several pictures."""

    said: int = 0
    there: int = 0
    met: int = 0
    met_well: int = 0
    errors: list[float] = field(factory=list)
    missed: Counter = field(factory=Counter)
    invented: Counter = field(factory=Counter)

    def add(self, found: Found, instances: NDArray[np.int16]) -> list[bool]:
        """Match the rooms of one picture; return which of those found are right."""
        true = np.bincount(instances.ravel())
        true[0] = 0
        shared = np.array([np.bincount(instances[mask], minlength=len(true)) for mask, _ in found])
        shared = shared.reshape(len(found), len(true))
        shared[:, 0] = 0
        sizes = np.array([np.count_nonzero(mask) for mask, _ in found])
        pairs = []
        for at, number in zip(*np.nonzero(shared), strict=True):
            both = shared[at, number]
            pairs.append((both / (sizes[at] + true[number] - both), at, number))
        right, taken = [False] * len(found), set()
        for overlap, at, number in sorted(pairs, reverse=True):
            if overlap < 0.5 or right[at] or number in taken:
                continue
            right[at] = True
            taken.add(number)
            self.met_well += overlap >= 0.75
            self.errors.append(abs(found[at][1] / true[number] - 1))
        self.said += len(found)
        self.there += np.count_nonzero(true)
        self.met += len(taken)
        self._tell_why(shared, sizes, true, right, taken, instances)
        return right

    def _tell_why(self, shared, sizes, true, right, taken, instances) -> None:
        """Count what became of each room missed, and what each room invented is."""
        covered = shared / np.maximum(true, 1)  # share of a true room that a found one covers
        for number in np.flatnonzero(true):
            if number in taken:
                continue
            by = int(covered[:, number].argmax()) if len(sizes) else -1
            if by < 0 or covered[:, number].sum() < 0.5:
                why = "not seen"
            elif covered[by, number] < 0.5:
                why = "split"
            elif np.count_nonzero(covered[by] > 0.5) > 1:
                why = "joined with another"
            else:
                why = "of another shape"
            self.missed[why] += 1
            self.missed["small"] += across(instances == number) < SMALL_PX
        for at in np.flatnonzero(~np.array(right, bool)):
            within = shared[at].sum() / max(1, sizes[at])
            self.invented["outside all rooms" if within < 0.5 else "parts or sums of rooms"] += 1

    @property
    def f1(self) -> float:
        return 2 * self.met / max(1, self.said + self.there)

    @property
    def f1_well(self) -> float:
        return 2 * self.met_well / max(1, self.said + self.there)

    def error(self, share: float) -> float:
        """Return the error of area that so large a share of matched rooms stays within."""
        return float(np.quantile(self.errors, share)) if self.errors else float("nan")

    def within(self, most: float) -> float:
        """Return the share of all true rooms whose area is found within an error."""
        return sum(error <= most for error in self.errors) / max(1, self.there)


def across(mask: Mask) -> float:
    """Return how far a region is across at its widest, in the network's pixels."""
    inside = cv2.distanceTransform(np.pad(mask, 1).view(np.uint8), cv2.DIST_L2, 3)
    return 2 * float(inside.max()) * 768 / max(mask.shape)
