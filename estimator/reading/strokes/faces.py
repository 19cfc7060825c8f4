"""Rooms as faces: what walls and closed gaps enclose."""

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.arrays import Counts, Floats, Labels
from estimator.reading.settings import Settings
from estimator.reading.strokes.evidence import Evidence
from estimator.reading.strokes.gaps import Gap, painted
from estimator.reading.strokes.walls import Strokes


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
    boxes
        Left, top, right and bottom of each room, from number 1.
    closures
        The gaps that bound them.
    left_open
        Numbers of the rooms in which facing wall ends were not taken for an opening.
    door
        Usual width of a door, in pixels of the working picture.
    """

    label: Labels
    boxes: tuple[tuple[int, int, int, int], ...]
    closures: tuple[Closure, ...]
    left_open: frozenset[int]
    door: float

    @property
    def count(self) -> int:
        """How many there are."""
        return len(self.boxes)


def usual_door(
    gaps: list[Gap], evidence: list[Evidence], thickness: float, settings: Settings
) -> float:
    """Return the usual width of a door: that of most gaps, a swing drawn in one counting thrice."""
    least, most = (share * thickness for share in settings.door_within)
    votes = [
        (gap.width_px, 3 if seen.is_door(settings) else 1)
        for gap, seen in zip(gaps, evidence, strict=True)
        if gap.firm and least <= gap.width_px <= most
    ]
    if sum(weight for _, weight in votes) < 3:
        return settings.door_usual * thickness
    widths, weights = (np.array(column, float) for column in zip(*votes, strict=True))
    alike = np.abs(np.log(widths[:, None] / widths)) < 0.12
    chosen = alike[np.argmax(alike @ weights)]
    return float(np.average(widths[chosen], weights=weights[chosen]))


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


@frozen(kw_only=True, eq=False)
class _Cells:
    """The picture cut along walls and all gaps, before any gap is opened again.

    Parameters
    ----------
    label : int32, shape (H, W)
        Number of the cell at each pixel; 0 in walls and gaps.
    boxes : int64, shape (N, 4)
        Left, top, right, bottom.
    area, reach, inked : float, shape (N,)
        Pixels; half the width of the widest disc inside; share of the floor under thin ink.
    """

    label: Labels
    outside: int
    boxes: Counts
    area: Floats
    reach: Floats
    inked: Floats


def _cut(strokes: Strokes, covered: NDArray[np.int16]) -> _Cells:
    free = np.ones((covered.shape[0] + 2, covered.shape[1] + 2), np.uint8)
    free[1:-1, 1:-1] = ~(strokes.walls | (covered > 0))
    count, label, stats, _ = cv2.connectedComponentsWithStats(free, connectivity=4)
    outside = int(label[0, 0])
    label = label[1:-1, 1:-1]
    depth = cv2.distanceTransform(free, cv2.DIST_L2, 3)[1:-1, 1:-1]
    peaks = depth == cv2.dilate(depth, np.ones((3, 3), np.uint8))
    reach = np.zeros(count)
    np.maximum.at(reach, label[peaks], depth[peaks])
    area = stats[:, cv2.CC_STAT_AREA].astype(float)
    left_top = stats[:, :2].astype(np.int64) - 1
    return _Cells(
        label=np.asarray(label, np.int32),
        outside=outside,
        boxes=np.hstack([left_top, left_top + stats[:, 2:4]]),
        area=area,
        reach=reach,
        inked=np.bincount(label[strokes.thin], minlength=count) / np.maximum(area, 1),
    )


class _Merging:
    """Cells joined into faces while gaps are opened."""

    def __init__(self, cells: _Cells, thickness: float, door: float, settings: Settings) -> None:
        self.parent = list(range(len(cells.area)))
        drawn = cells.area.sum() - cells.area[cells.outside] - cells.area[0]
        across = 2 * cells.reach
        self.tiny = across < settings.room_least * thickness
        self.small = (across < settings.alcove_most * thickness) | (
            cells.area < settings.room_share_least * drawn
        )
        self.closet = (cells.area < settings.closet_most * door**2) & (
            cells.inked < settings.closet_ink
        )

    def face(self, cell: int) -> int:
        """Return the cell that stands for the face a cell belongs to."""
        while self.parent[cell] != cell:
            cell = self.parent[cell]
        return cell

    def join(self, a: int, b: int) -> None:
        """Make two faces one."""
        self.parent[a] = b
        self.small[b] &= self.small[a]
        self.tiny[b] &= self.tiny[a]
        self.closet[b] = False

    def closes(self, gap: Gap, seen: Evidence, a: int, b: int, *, wide: bool, s: Settings) -> bool:
        """Tell whether a gap between two faces indoors parts them."""
        if self.tiny[a] or self.tiny[b]:
            return False
        if seen.is_door(s) or (gap.firm and seen.supports(s)):
            return True
        if gap.firm:
            return not (wide or self.small[a] or self.small[b])
        return bool(self.closet[a] or self.closet[b])


def faces_of(
    strokes: Strokes, gaps: list[Gap], evidence: list[Evidence], settings: Settings
) -> Faces:
    """Close the gaps, take the faces, and open again each gap that parts no two rooms."""
    thickness = strokes.thickness[0]
    covered = painted(strokes, gaps)
    cells = _cut(strokes, covered)
    door = usual_door(gaps, evidence, thickness, settings)
    sides = [_beyond(gap, cells.label) for gap in gaps]
    merging = _Merging(cells, thickness, door, settings)
    opened: dict[int, bool] = {}  # gap: whether it joined two faces
    for number in sorted(range(len(gaps)), key=lambda at: -gaps[at].width_px):
        a, b = (merging.face(side) for side in sides[number])
        wide = gaps[number].width_px > settings.door_spread * door
        if a == b and a != 0:
            opened[number] = False
        elif not {0, cells.outside} & {a, b} and not merging.closes(
            gaps[number], evidence[number], a, b, wide=wide, s=settings
        ):
            opened[number] = wide and not (merging.small[a] or merging.small[b])
            merging.join(a, b)
    roots = np.array([merging.face(cell) for cell in range(len(cells.area))])
    return _kept(cells, roots, covered, strokes, gaps, evidence, sides, opened, door, settings)


def _kept(
    cells: _Cells,
    roots: Counts,
    covered: NDArray[np.int16],
    strokes: Strokes,
    gaps: list[Gap],
    evidence: list[Evidence],
    sides: list[tuple[int, int]],
    opened: dict[int, bool],
    door: float,
    settings: Settings,
) -> Faces:
    """Return the faces large enough for rooms, numbered anew."""
    thickness, count = strokes.thickness[0], len(cells.area)
    # what an opened gap covered goes to the face it lies in
    owner = np.zeros(len(gaps) + 1, np.int64)
    for number in opened:
        owner[number + 1] = roots[sides[number][0]]
    label = roots.astype(np.int32)[cells.label]
    if opened:
        filled = owner.astype(np.int32)[covered]
        np.copyto(label, filled, where=(filled > 0) & ~strokes.walls)
    area, reach = np.zeros(count), np.zeros(count)
    np.add.at(area, roots, cells.area)
    np.maximum.at(reach, roots, cells.reach)
    boxes = cells.boxes.copy()
    np.minimum.at(boxes[:, :2], roots, cells.boxes[:, :2])
    np.maximum.at(boxes[:, 2:], roots, cells.boxes[:, 2:])
    keep = (
        (roots == np.arange(count))
        & (area >= settings.room_share_least * (area.sum() - area[[0, cells.outside]].sum()))
        & (area >= (settings.room_least * thickness) ** 2)
        & (2 * reach >= settings.room_least * thickness)
    )
    keep[[0, cells.outside]] = False
    new = np.zeros(count, np.int32)
    new[keep] = np.arange(1, keep.sum() + 1)
    closures = [
        Closure(
            gap=gap,
            evidence=seen,
            sides=(int(new[roots[side[0]]]), int(new[roots[side[1]]])),
            firm=seen.supports(settings) or gap.width_px <= settings.door_spread * door,
        )
        for number, (gap, seen, side) in enumerate(zip(gaps, evidence, sides, strict=True))
        if number not in opened
    ]
    return Faces(
        label=new[label],
        boxes=tuple((a, b, c, d) for a, b, c, d in boxes[keep].tolist()),
        closures=tuple(closure for closure in closures if closure.sides[0] != closure.sides[1]),
        left_open=frozenset(
            int(new[roots[sides[number][0]]]) for number, joined in opened.items() if joined
        ),
        door=door,
    )
