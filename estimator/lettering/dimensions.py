"""Dimension lines: how long the line is, in pixels, along which a length is lettered."""

import math
from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen

from estimator.lettering.line import Box, Line
from estimator.reading.arrays import Mask, Pixels

# Ink is darker than the paper by this share of what separates it from black.
_INK = 0.3
# In heights of letters: how far from the lettering its line may run, and how far ticks reach
# beyond the line on either side.
_FARTHEST_LINE = 1.0
_TICK_REACH = 0.3
_THICKEST = 0.3
# Of that reach: what an upright tick inks on both sides together, and at least on each.
_UPRIGHT = 0.9
_EACH_SIDE = 0.25
_AS_TALL = 0.8  # as the tallest tick nearby
_WIDEST_BREAK = 2  # pixels
# A length stands in the middle of its line, within this share of it.
_OFF_MIDDLE = 0.15
_SHORTEST = 1.2  # of the lettering's own length, for a line between ticks


def ink_of(pixels: Pixels) -> Mask:
    """Return where a picture is darker than its paper; shape (H, W)."""
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    paper = float(np.median(grey))
    return np.asarray(grey < (1 - _INK) * paper, dtype=np.bool_)


def dimension_px(ink: Mask, line: Line) -> float | None:
    """Return the length of the dimension line that runs beside a length or through it.

    The line is followed from the lettering outwards, so that it may slant a little; its ends are
    where ticks, arrows or extension lines cross it nearest to the lettering on either side.

    Parameters
    ----------
    ink : bool, shape (H, W)
    """
    left, top, right, bottom = line.box_px
    if line.is_vertical:
        ink, (left, top, right, bottom) = ink.T, (top, left, bottom, right)
    letter, width, middle = bottom - top, right - left, (left + right) / 2
    best: tuple[float, float] | None = None
    for starts in _starts(ink, (left, top, right, bottom)):
        ends = _ends(ink, starts, (left, right), letter)
        if ends is None:
            continue
        length = ends[1] - ends[0]
        off = abs((ends[0] + ends[1]) / 2 - middle)
        if length >= _SHORTEST * width and off <= _OFF_MIDDLE * length + 0.3 * letter:
            away = abs(starts[0][1] - (top + bottom) / 2)
            if best is None or away < best[0]:
                best = away, length
    return best[1] if best else None


Start = tuple[int, int]
"""A column and a row of ink."""


def _starts(ink: Mask, box: Box) -> Iterator[tuple[Start, Start]]:
    """Yield where a line may be followed from, leftwards and rightwards."""
    left, top, right, bottom = box
    height, width = ink.shape
    letter, middle = bottom - top, min(width - 1, max(0, int((left + right) / 2)))
    lowest = max(0, int(top - _FARTHEST_LINE * letter))
    highest = min(height, int(bottom + _FARTHEST_LINE * letter) + 1)
    for first, last in _runs(ink[lowest:highest, middle]):
        if last - first < _THICKEST * letter:
            row = lowest + (first + last) // 2
            yield (middle, row), (middle, row)
    # The lettering may interrupt its line.
    gap, centre = int(letter), int((top + bottom) / 2)
    rows = slice(max(0, centre - gap // 4), centre + gap // 4 + 1)
    before = np.argwhere(ink[rows, max(0, int(left) - gap) : max(0, int(left))])
    behind = np.argwhere(ink[rows, int(right) + 1 : int(right) + 1 + gap])
    if before.size and behind.size:
        row, column = before[np.argmax(before[:, 1])]
        row_, column_ = behind[np.argmin(behind[:, 1])]
        start = max(0, int(left) - gap) + int(column), rows.start + int(row)
        yield start, (int(right) + 1 + int(column_), rows.start + int(row_))


def _runs(column: Mask) -> list[tuple[int, int]]:
    """Return the first and the last index of every run of ink."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], column, [False]]).astype(np.int8)))
    return [(int(first), int(last) - 1) for first, last in edges.reshape(-1, 2)]


@frozen(kw_only=True)
class _Track:
    """The rows of a line column by column outwards from its start, and half its thickness."""

    columns: tuple[int, ...]
    rows: tuple[int, ...]
    half: float


def _followed(ink: Mask, start: Start, step: int, thickest: float) -> _Track:
    """Follow a line from its start until it ends."""
    column, row = start
    rows, thickness, missed = [], [], 0
    while 0 <= column < ink.shape[1] and missed <= _WIDEST_BREAK:
        near = ink[max(0, row - 1) : row + 2, column]
        if near.any():
            missed = 0
            if not ink[row, column]:
                row = max(0, row - 1) + int(np.argmax(near))
            low, high = row, row
            while low > 0 and ink[low - 1, column] and high - low < thickest:
                low -= 1
            while high + 1 < ink.shape[0] and ink[high + 1, column] and high - low < thickest:
                high += 1
            if high - low < thickest:  # thicker where a tick crosses
                row = (low + high) // 2
                thickness.append(high - low + 1)
        else:
            missed += 1
        rows.append(row)
        column += step
    rows = rows[: len(rows) - missed]
    return _Track(
        columns=tuple(range(start[0], start[0] + step * len(rows), step)),
        rows=tuple(rows),
        half=float(np.median(thickness)) / 2 if thickness else 1.0,
    )


def _ends(
    ink: Mask, starts: tuple[Start, Start], lettering: tuple[float, float], letter: float
) -> tuple[float, float] | None:
    """Return where a line is crossed nearest to the lettering on either side."""
    found = []
    for start, step, edge in zip(starts, (-1, 1), lettering, strict=True):
        track = _followed(ink, start, step, _THICKEST * letter)
        beyond = [column for column in track.columns if step * (column - edge) > 0]
        if not beyond:
            return None
        crossing = _crossing(ink, track, beyond[0], max(3, round(_TICK_REACH * letter)))
        if crossing is None:
            return None
        found.append(crossing)
    return found[0], found[1]


def _crossing(ink: Mask, track: _Track, first_column: int, reach: int) -> float | None:
    """Return the first column along a line with ink on both sides of it."""
    step = 1 if track.columns[-1] >= track.columns[0] else -1
    beside = math.ceil(track.half + 1.5)  # the line itself, and a little for its wobble
    along, over, under = [], [], []
    for place in range(abs(first_column - track.columns[0]), len(track.columns) + reach):
        # The row a little before, as a slanted tick leads the follower off the line.
        row = track.rows[min(len(track.rows) - 1, max(0, place - reach - beside))]
        column = track.columns[0] + step * place
        if not 0 <= column < ink.shape[1] or row < reach + beside:
            break
        along.append(float(column))
        over.append(np.count_nonzero(ink[row - beside - reach + 1 : row - beside + 1, column]))
        under.append(np.count_nonzero(ink[row + beside : row + beside + reach, column]))
    if not along:
        return None
    places, above, below = np.array(along), np.array(over), np.array(under)
    lean = reach + beside
    for first, last in _runs(_widened(above > 0, lean) & _widened(below > 0, lean)):
        group = slice(max(0, first - lean), min(last + lean, first + 3 * lean) + 1)
        both = np.minimum(above[group], below[group]) >= _EACH_SIDE * reach
        inked = np.where(both, above[group] + below[group], 0)
        if inked.max() >= _UPRIGHT * reach:
            start, end = _runs(inked >= _AS_TALL * inked.max())[0]
            return float(np.mean(places[group][start : end + 1]))
        # A slanted tick has its halves on either side of where it crosses the line.
        halves = sorted(_runs(above[group] > 0)[:1] + _runs(below[group] > 0)[:1])
        if len(halves) == 2:
            return float(np.mean(places[group][[halves[0][1], halves[1][0]]]))
    return None


def _widened(columns: Mask, by: int) -> Mask:
    """Return columns with as many more on either side, as a slanted tick leans over."""
    kernel = np.ones((1, 2 * by + 1), np.uint8)
    return np.asarray(cv2.dilate(columns.view(np.uint8)[None], kernel)[0] > 0, dtype=np.bool_)
