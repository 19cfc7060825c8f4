"""Divides a footprint into rooms, as houses, flats, offices, schools and halls are divided."""

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.synthesis.grids import OUTSIDE, Cells, parts

Rect = tuple[int, int, int, int]
"""Left, top, right, bottom in cells; right and bottom lie beyond."""

_LEAST = 4  # cells along the shorter side of a room
_SLIVER = np.ones((3, 3), np.uint8)


@frozen(kw_only=True)
class Brief:
    """What is built, in cells.

    Parameters
    ----------
    room
        Area that rooms are divided down to, least and most.
    corridor
        Width of a corridor; 0 for a building without.
    bays
        Whether the rooms along a corridor are alike.
    closets
        Share of rooms that get a closet.
    """

    width: int
    depth: int
    room: tuple[int, int]
    corridor: int = 0
    bays: bool = False
    closets: float = 0.2


@frozen(kw_only=True)
class Division:
    """A divided footprint: the room each cell lies in, and which rooms are what."""

    cells: Cells
    corridors: frozenset[int]
    closets: frozenset[int]


def divided(brief: Brief, rng: np.random.Generator) -> Division:
    """Return a building divided as briefed, turned and mirrored at random."""
    rects: list[Rect] = []
    whole = (0, 0, brief.width, brief.depth)
    blocks = _around_corridors(whole, brief, rects, rng) if brief.corridor else [whole]
    corridors = set(range(len(rects)))
    for block in blocks:
        rects += _bays(block, brief, rng) if brief.bays else _split(block, brief, rng)
    cells = np.full((brief.depth, brief.width), OUTSIDE, np.int32)
    for number, (left, top, right, bottom) in enumerate(rects):
        cells[top:bottom, left:right] = number
    cells[~_footprint(brief, rng)] = OUTSIDE
    _tidy(cells)
    if not brief.bays:
        _join(cells, corridors, rng)
    closets = _carve(cells, corridors, brief.closets, rng)
    if rng.random() < 0.5:
        cells = cells.T
    cells = cells[:: rng.choice([1, -1]), :: rng.choice([1, -1])]
    return Division(
        cells=np.ascontiguousarray(cells),
        corridors=frozenset(corridors),
        closets=frozenset(closets),
    )


def _footprint(brief: Brief, rng: np.random.Generator) -> NDArray[np.bool_]:
    """Return a rectangle less up to three notches."""
    mask = np.ones((brief.depth, brief.width), bool)
    for _ in range(int(rng.choice([0, 0, 1, 1, 2, 3]))):
        wide = int(brief.width * rng.uniform(0.15, 0.45))
        deep = int(brief.depth * rng.uniform(0.15, 0.45))
        left = int(rng.choice([0, brief.width - wide, int(rng.integers(brief.width - wide))]))
        top = int(rng.choice([0, brief.depth - deep]))
        trial = mask.copy()
        trial[top : top + deep, left : left + wide] = False
        if parts(trial)[0] == 1:
            mask = trial
    return mask


def _around_corridors(
    whole: Rect, brief: Brief, rects: list[Rect], rng: np.random.Generator
) -> list[Rect]:
    """Lay a corridor along the building, perhaps one across, and return the blocks left over."""
    left, top, right, bottom = whole
    wide = brief.corridor
    low = top + int((bottom - top - wide) * rng.uniform(0.3, 0.7))
    if rng.random() < 0.1:
        low = top  # a gallery along one side
    high = low + wide
    start = left + (int(rng.uniform(0.15, 0.4) * (right - left)) if rng.random() < 0.4 else 0)
    rects.append((start, low, right, high))
    blocks = [(left, top, right, low), (start, high, right, bottom)]
    if start > left:  # the room at the corridor's end reaches to the side below it
        blocks.append((left, low, start, bottom))
    side = int(rng.integers(2))
    x0, y0, x1, y1 = blocks[side]
    across = x0 + int((x1 - x0) * rng.uniform(0.3, 0.7))
    if rng.random() < 0.35 and x1 - x0 > 3 * wide + 24 and y1 - y0 > 8:
        rects.append((across, y0, across + wide, y1))
        blocks[side : side + 1] = [(x0, y0, across, y1), (across + wide, y0, x1, y1)]
    return [block for block in blocks if block[2] > block[0] and block[3] > block[1]]


def _split(rect: Rect, brief: Brief, rng: np.random.Generator) -> list[Rect]:
    """Return a rectangle halved, and its halves again, down to the size of rooms."""
    left, top, right, bottom = rect
    wide, deep = right - left, bottom - top
    if wide * deep <= rng.uniform(*brief.room) or max(wide, deep) < 2 * _LEAST:
        return [rect]
    if (wide > deep * rng.uniform(0.7, 1.4) and wide >= 2 * _LEAST) or deep < 2 * _LEAST:
        cut = int(np.clip(left + wide * rng.uniform(0.3, 0.7), left + _LEAST, right - _LEAST))
        halves = [(left, top, cut, bottom), (cut, top, right, bottom)]
    else:
        cut = int(np.clip(top + deep * rng.uniform(0.3, 0.7), top + _LEAST, bottom - _LEAST))
        halves = [(left, top, right, cut), (left, cut, right, bottom)]
    return [room for half in halves for room in _split(half, brief, rng)]


def _bays(rect: Rect, brief: Brief, rng: np.random.Generator) -> list[Rect]:
    """Return rooms side by side, some of them two deep."""
    left, top, right, bottom = rect
    deep = max(1, bottom - top)
    if deep * deep > 3.2 * brief.room[1] and deep >= 4 * _LEAST:
        cut = top + int(deep * rng.uniform(0.4, 0.6))
        upper, lower = (left, top, right, cut), (left, cut, right, bottom)
        return _bays(upper, brief, rng) + _bays(lower, brief, rng)
    bay = int(
        np.clip(
            rng.uniform(*brief.room) / deep,
            max(_LEAST + 1, deep // 3),
            max(_LEAST + 1, right - left),
        )
    )
    rooms: list[Rect] = []
    while left < right:
        width = bay if rng.random() < 0.7 else max(_LEAST, round(bay * rng.uniform(0.5, 1.8)))
        end = right if right - left - width < _LEAST else left + width
        if deep > 3 * _LEAST and rng.random() < 0.15:
            cut = top + int(deep * rng.uniform(0.35, 0.65))
            rooms += [(left, top, end, cut), (left, cut, end, bottom)]
        else:
            rooms.append((left, top, end, bottom))
        left = end
    return rooms


def _tidy(cells: Cells) -> None:
    """Give every part of a room its own number and slivers to their neighbours, in place."""
    following = int(cells.max()) + 1
    for number in range(following):
        count, numbers = parts(cells == number)
        for part in range(count):
            mask = numbers == part
            if not cv2.erode(mask.astype(np.uint8), _SLIVER, borderValue=0).any():
                cells[mask] = _neighbour(cells, mask)
            elif part:
                cells[mask] = following
                following += 1


def _neighbour(cells: Cells, mask: NDArray[np.bool_]) -> int:
    """Return the room that shares most wall with a part; OUTSIDE when none does."""
    around = cv2.dilate(
        mask.astype(np.uint8), np.array([[0, 1, 0], [1, 1, 1], [0, 1, 0]], np.uint8)
    )
    beside = cells[(around > 0) & ~mask]
    beside = beside[beside != OUTSIDE]
    return int(np.bincount(beside).argmax()) if beside.size else OUTSIDE


def _join(cells: Cells, corridors: set[int], rng: np.random.Generator) -> None:
    """Join some rooms with a neighbour, which makes rooms with six corners and more, in place."""
    for number in np.unique(cells).tolist():
        if number == OUTSIDE or number in corridors or rng.random() > 0.12:
            continue
        mask = cells == number
        other = _neighbour(cells, mask)
        if other != OUTSIDE and (other not in corridors or rng.random() < 0.4):
            cells[mask] = other


def _carve(cells: Cells, corridors: set[int], share: float, rng: np.random.Generator) -> set[int]:
    """Cut closets out of the corners of rooms, in place, and return their numbers."""
    closets: set[int] = set()
    following = int(cells.max()) + 1
    for number in np.unique(cells).tolist():
        if number == OUTSIDE or number in corridors or rng.random() > share:
            continue
        rows, columns = np.nonzero(cells == number)
        if len(rows) < 60:
            continue
        deep, wide = int(rng.choice([2, 2, 3, 4])), int(rng.integers(3, 9))
        spans = rng.random() < 0.4  # from wall to wall
        if rng.random() < 0.5:
            wide = int(np.ptp(columns)) + 1 if spans else wide
        else:
            deep, wide = int(np.ptp(rows)) + 1 if spans else wide, deep
        top = int(rows.min() if rng.random() < 0.5 else rows.max() + 1 - deep)
        left = int(columns.min() if rng.random() < 0.5 else columns.max() + 1 - wide)
        if top < 0 or left < 0:
            continue
        part = cells[top : top + deep, left : left + wide]
        if part.size and (part == number).all():
            trial = cells == number
            trial[top : top + deep, left : left + wide] = False
            opened = cv2.morphologyEx(trial.astype(np.uint8), cv2.MORPH_OPEN, _SLIVER)
            if parts(trial)[0] == 1 and opened.sum() > 0.9 * trial.sum():
                for one in _shares(part, rng):
                    one[:] = following
                    closets.add(following)
                    following += 1
    return closets


def _shares(part: Cells, rng: np.random.Generator) -> list[Cells]:
    """Return a closet whole, or as two or three side by side."""
    along = int(np.argmax(part.shape))
    count = int(rng.choice([1, 1, 2, 3]))
    if part.shape[along] < 3 * count:
        return [part]
    return np.array_split(part, count, axis=along)
