"""Gaps in walls: places where two wall ends face each other across a door, window or passage.

Glossary
--------
gap
    A free rectangle as thick as the wall it is in and open to free floor on both long sides.
firm
    Said of a gap at which a wall ends.
mouth
    Where a passage between two walls opens: a gap only if thin strokes say so.
"""

import math
from functools import cached_property

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.arrays import Mask, Places
from estimator.reading.settings import Settings
from estimator.reading.strokes.rectangles import between_wall_ends, mouths, rectangles_between
from estimator.reading.strokes.walls import Strokes

AXES = (0.0, math.pi / 2)


@frozen(kw_only=True, eq=False)
class Gap:
    """A rectangle in a wall, in pixels of the working picture.

    Parameters
    ----------
    corners
        Float, shape (4, 2): along one face of the wall, then back along the other.
    firm
        Whether a wall ends at it.
    """

    corners: Places
    firm: bool

    @cached_property
    def width_px(self) -> float:
        """Distance between the two wall ends."""
        return float(math.dist(self.corners[0], self.corners[1]))

    @cached_property
    def depth_px(self) -> float:
        """Thickness of the wall around it."""
        return float(math.dist(self.corners[1], self.corners[2]))

    @cached_property
    def middle(self) -> Places:
        """Its centre."""
        return np.asarray((self.corners[0] + self.corners[2]) / 2)

    @cached_property
    def along(self) -> Places:
        """Unit vector from one wall end to the other."""
        return np.asarray((self.corners[1] - self.corners[0]) / self.width_px)

    @cached_property
    def across(self) -> Places:
        """Unit vector through the wall, from its first face to its second."""
        return np.asarray((self.corners[2] - self.corners[1]) / self.depth_px)

    def covers(self, place: Places) -> bool:
        """Tell whether a place lies inside it."""
        right, down = place - self.middle
        if abs(right) + abs(down) > self.width_px + self.depth_px:
            return False
        along, across = self.along, self.across
        return bool(
            abs(right * along[0] + down * along[1]) < self.width_px / 2
            and abs(right * across[0] + down * across[1]) < self.depth_px / 2
        )


def gaps_in(strokes: Strokes, settings: Settings) -> list[Gap]:
    """Find the gaps in walls of every direction; of two in one place, the first found stays.

    Mouths of passages are looked for when the gaps where walls end are closed, so that a door
    beside a passage does not pass for its end.
    """
    kept: list[Gap] = []

    def keep(found: list[Gap]) -> None:
        for gap in found[: settings.gaps_most]:
            if not any(known.covers(gap.middle) for known in kept):
                kept.append(gap)

    unsure: list[Gap] = []
    for angle in (*AXES, *directions(strokes.walls, settings)):
        firm, others = _ends_facing(strokes, angle, settings)
        keep(firm)
        unsure += others
    closed = strokes.walls | (painted(strokes, kept) > 0)
    for angle in AXES:
        keep(_mouths(closed, strokes, angle, settings))
    keep(unsure)
    return kept


def _ends_facing(strokes: Strokes, angle: float, settings: Settings) -> tuple[list[Gap], list[Gap]]:
    """Return the gaps of one direction where walls end, sure and unsure."""
    turned, back = _turned(strokes.walls, angle)
    found = rectangles_between(turned, *_widths(strokes, settings))
    sure, unsure = between_wall_ends(
        turned, found, strokes.thickness, settings, slanted=angle not in AXES
    )
    return _gaps(sure.boxes(), back, firm=True), _gaps(unsure.boxes(), back, firm=False)


def _mouths(closed: Mask, strokes: Strokes, angle: float, settings: Settings) -> list[Gap]:
    """Return the mouths of passages that run across one direction."""
    turned, back = _turned(closed, angle)
    found = rectangles_between(turned, *_widths(strokes, settings))
    return _gaps(mouths(turned, found, strokes.thickness, settings), back, firm=False)


def _widths(strokes: Strokes, settings: Settings) -> tuple[float, float]:
    """Return the least and the most width of a gap, in pixels."""
    return (
        settings.gap_least * strokes.thickness[0],
        settings.gap_most * max(strokes.walls.shape),
    )


def _gaps(boxes: Places, back: Places, *, firm: bool) -> list[Gap]:
    corners = boxes[:, [[0, 1], [2, 1], [2, 3], [0, 3]]] @ back[:, :2].T + back[:, 2]
    return [Gap(corners=box, firm=firm) for box in corners]


def _turned(walls: Mask, angle: float) -> tuple[Mask, Places]:
    """Return walls turned so that a direction runs along the rows, and the affine map back."""
    if angle == AXES[0]:
        return walls, np.eye(2, 3)
    if angle == AXES[1]:
        return np.ascontiguousarray(walls.T), np.array([[0.0, 1, 0], [1, 0, 0]])
    tall, wide = walls.shape
    c, s = math.cos(angle), math.sin(angle)
    size = (
        math.ceil(abs(wide * c) + abs(tall * s)),
        math.ceil(abs(wide * s) + abs(tall * c)),
    )
    turn = np.array([[c, s, 0.0], [-s, c, 0.0]])
    turn[:, 2] = np.array(size) / 2 - turn[:, :2] @ np.array([wide / 2, tall / 2])
    turned = cv2.warpAffine(walls.view(np.uint8), turn, size, flags=cv2.INTER_NEAREST)
    return np.asarray(turned > 0), np.asarray(cv2.invertAffineTransform(turn))


def directions(walls: Mask, settings: Settings) -> list[float]:
    """Return the directions walls run in besides the two axes, in radians from the x axis."""
    half = cv2.resize(
        walls.view(np.uint8) * 255, None, fx=0.5, fy=0.5, interpolation=cv2.INTER_AREA
    )
    soft = cv2.GaussianBlur(half, (5, 5), 0)
    dx, dy = cv2.Sobel(soft, cv2.CV_32F, 1, 0), cv2.Sobel(soft, cv2.CV_32F, 0, 1)
    strength = cv2.magnitude(dx, dy)
    everything = float(strength.sum(where=strength > 100))
    slanted = (strength > 100) & (np.minimum(np.abs(dx), np.abs(dy)) > 0.1 * strength)
    weight = strength[slanted]
    run = np.mod(np.arctan2(dy[slanted], dx[slanted]) + math.pi / 2, math.pi)
    votes, _ = np.histogram(run, 90, (0, math.pi), weights=weight)
    votes = votes + np.roll(votes, 1) + np.roll(votes, -1)
    found: list[float] = []
    for at in np.argsort(-votes):
        if votes[at] < settings.slant_least * everything or len(found) == settings.slants_most:
            break
        rough = (at + 0.5) * math.pi / 90
        offset = np.mod(run - rough + math.pi / 2, math.pi) - math.pi / 2
        near = np.abs(offset) <= math.radians(3)
        shift = float(offset[near] @ weight[near]) / max(float(weight[near].sum()), 1e-9)
        angle = rough + shift
        known = np.array([*AXES, *found])
        if np.abs((angle - known + math.pi / 2) % math.pi - math.pi / 2).min() > math.radians(6):
            found.append(angle)
    return found


def painted(strokes: Strokes, gaps: list[Gap]) -> NDArray[np.int16]:
    """Return a picture of gaps, each in its number from 1, reaching well into its walls."""
    picture = np.zeros(strokes.walls.shape, np.int16)
    reach = max(1.0, 0.75 * strokes.thickness[0])
    for number, gap in enumerate(gaps, start=1):
        longer = reach * np.array([-1.0, 1.0, 1.0, -1.0])[:, None] * gap.along
        inwards = 0.5 * np.array([1.0, 1.0, -1.0, -1.0])[:, None] * gap.across
        corners = np.round(gap.corners + longer + inwards - 0.5).astype(np.int32)
        cv2.fillConvexPoly(picture, corners, number)
    return picture
