"""Rooms as faces: what walls and closed gaps enclose."""

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.evidence import Evidence
from estimator.reading.gaps import Gap
from estimator.reading.ink import Strokes
from estimator.reading.settings import Settings

Mask = NDArray[np.bool_]
Labels = NDArray[np.int32]

OUTSIDE = 0


@frozen(kw_only=True, eq=False)
class Closure:
    """A gap that closes a room, with the faces on its two sides.

    Parameters
    ----------
    sides
        Labels beyond its first and its second face; 0 is no room.
    firm
        Whether the drawing or its usual width says it is an opening.
    """

    gap: Gap
    evidence: Evidence
    sides: tuple[int, int]
    firm: bool


@frozen(kw_only=True, eq=False)
class Faces:
    """The faces that may be rooms.

    Parameters
    ----------
    label : int32, shape (H, W)
        Number of the room at each pixel, from 1; 0 where there is none.
    count
        How many there are.
    closures
        The gaps that bound them.
    """

    label: Labels
    count: int
    closures: tuple[Closure, ...]


def usual_door(
    gaps: list[Gap], evidence: list[Evidence], thickness: float, settings: Settings
) -> float:
    """Return the usual width of a door, from the gaps that doors swing in where there are any."""
    widths = [
        gap.width_px
        for gap, seen in zip(gaps, evidence, strict=True)
        if seen.is_door(settings) and gap.width_px < 3 * settings.door_usual * thickness
    ]
    return float(np.median(widths)) if len(widths) > 1 else settings.door_usual * thickness


def _paint(shape: tuple[int, ...], gaps: list[Gap]) -> NDArray[np.int16]:
    """Return a picture of the gaps, each in its number from 1, a pixel longer at either end."""
    painted = np.zeros(shape, np.int16)
    for number, gap in enumerate(gaps, start=1):
        reach = np.array([-1.0, 1.0, 1.0, -1.0])[:, None] * gap.along
        corners = np.round(gap.corners + reach - 0.5 + 0.5 * _inset(gap)).astype(np.int32)
        cv2.fillConvexPoly(painted, corners, number)
    return painted


def _inset(gap: Gap) -> NDArray[np.float64]:
    """Return steps from the corners of a gap to the centres of the pixels inside them."""
    signs = np.array([1.0, 1.0, -1.0, -1.0])[:, None]
    inset: NDArray[np.float64] = signs * gap.across
    return inset


def _beyond(gap: Gap, label: Labels) -> tuple[int, int]:
    """Return the commonest label just beyond each long side of a gap."""
    sides = []
    steps = np.linspace(0.1, 0.9, 9)[:, None] * gap.width_px * gap.along
    for start, away in ((gap.corners[0], -gap.across), (gap.corners[3], gap.across)):
        at = np.floor(start + steps + 2.5 * away).astype(int)
        at = np.clip(at, 0, np.array(label.shape[::-1]) - 1)
        values, counts = np.unique(label[at[:, 1], at[:, 0]], return_counts=True)
        sides.append(int(values[np.argmax(counts)]))
    return sides[0], sides[1]


def _find(parent: list[int], item: int) -> int:
    while parent[item] != item:
        item = parent[item]
    return item


def faces_of(
    strokes: Strokes, gaps: list[Gap], evidence: list[Evidence], settings: Settings
) -> Faces:
    """Close the gaps, take the faces, and open again each gap that closes no room."""
    walls, thickness = strokes.walls, strokes.thickness[0]
    painted = _paint(walls.shape, gaps)
    free = np.ones((walls.shape[0] + 2, walls.shape[1] + 2), np.uint8)
    free[1:-1, 1:-1] = ~(walls | (painted > 0))
    count, label, stats, _ = cv2.connectedComponentsWithStats(free, connectivity=4)
    outside = int(label[0, 0])
    label = label[1:-1, 1:-1]
    reach = np.zeros(count)
    depth = cv2.distanceTransform(free, cv2.DIST_L2, 3)[1:-1, 1:-1]
    np.maximum.at(reach, label.ravel(), depth.ravel())
    door = usual_door(gaps, evidence, thickness, settings)
    parent = list(range(count))
    # label 0 is the walls; the face a gap looks at is found before any is merged
    sides = [_beyond(gap, label) for gap in gaps]
    area = stats[:, cv2.CC_STAT_AREA].astype(float)
    drawn = area.sum() - area[outside]
    small = (2 * reach < settings.alcove_most * thickness) | (
        area < settings.room_share_least * drawn
    )
    tiny = 2 * reach < settings.room_least * thickness
    inked = np.bincount(label[strokes.thin], minlength=count) / np.maximum(area, 1)
    closet = (area < settings.closet_most * door**2) & (inked < settings.closet_ink)
    opened = set()
    for number in np.argsort([-gap.width_px for gap in gaps]):
        a, b = (_find(parent, side) for side in sides[number])
        gap, seen = gaps[number], evidence[number]
        wide = gap.width_px > settings.door_spread * door
        if a == b and a != 0:
            opened.add(int(number))
            continue
        if 0 in (a, b) or outside in (a, b):
            continue
        if seen.is_door(settings) or (gap.firm and seen.supports(settings)):
            stays = True
        elif gap.firm:
            stays = not (wide or small[a] or small[b])
        else:
            stays = bool(closet[a] or closet[b])
        if not stays or tiny[a] or tiny[b]:
            opened.add(int(number))
            parent[a] = b
            small[b], tiny[b] = small[a] and small[b], tiny[a] and tiny[b]
            closet[b] = False
    roots = np.array([_find(parent, item) for item in range(count)])
    for number in opened:
        root = roots[sides[number][0]]
        label = np.where((painted == number + 1) & ~walls, root, label)
    label = roots[label]
    area = np.bincount(label.ravel(), minlength=count).astype(float)
    np.maximum.at(reach, roots, reach)
    keep = (
        (area >= settings.room_share_least * drawn)
        & (2 * reach >= settings.room_least * thickness)
        & (area >= (settings.room_least * thickness) ** 2)
    )
    keep[[0, outside]] = False
    keep &= roots == np.arange(count)
    renumbered = np.zeros(count, np.int32)
    renumbered[keep] = np.arange(1, keep.sum() + 1)
    closures = tuple(
        Closure(
            gap=gap,
            evidence=seen,
            sides=(int(renumbered[roots[side[0]]]), int(renumbered[roots[side[1]]])),
            firm=seen.supports(settings) or gap.width_px <= settings.door_spread * door,
        )
        for number, (gap, seen, side) in enumerate(zip(gaps, evidence, sides, strict=True))
        if number not in opened
    )
    return Faces(
        label=renumbered[label].astype(np.int32),
        count=int(keep.sum()),
        closures=tuple(c for c in closures if c.sides[0] != c.sides[1]),
    )
