"""Where the words of a room go: inside its outline, as large and as complete as they fit."""

import re
from collections.abc import Sequence

import numpy as np
import shapely
from attrs import frozen
from shapely.geometry import Polygon

from estimator.documents.lettering import width
from estimator.plan.opening import Point

LEADING = 1.32
"""Distance of base lines as a multiple of the size."""

_ANYWHERE = re.compile("[\u4e00-\u9fff\uac00-\ud7a3]{4,}")
"""Names of Chinese characters or Korean syllables alone, which may be parted between any two."""


@frozen(kw_only=True)
class Line:
    """One line of a label."""

    text: str
    size: float
    bold: bool = False


@frozen(kw_only=True)
class Label:
    """Lines centred on a place."""

    lines: tuple[Line, ...]
    x: float
    y: float

    @property
    def height(self) -> float:
        """Height of all lines."""
        return sum(line.size * LEADING for line in self.lines)


def label(free: Polygon, name: str, facts: Sequence[str], size: float) -> Label | None:
    """Return the best label that fits, or None where not even the name does.

    Parameters
    ----------
    facts
        Said below the name, the first being the dearest.
    """
    for lines in _choices(name, facts, size):
        wide = max(width(line.text, line.size, line.bold) for line in lines)
        high = sum(line.size * LEADING for line in lines)
        if place := _place(free, wide + 0.5 * size, high + 0.2 * size):
            return Label(lines=lines, x=place[0], y=place[1])
    return None


def centred(free: Polygon, text: str, size: float) -> Label:
    """Return one short line over the middle of a room, whether it fits or not."""
    middle = free.centroid if free.contains(free.centroid) else free.representative_point()
    return Label(lines=(Line(text=text, size=size, bold=True),), x=middle.x, y=middle.y)


def _choices(name: str, facts: Sequence[str], size: float) -> list[tuple[Line, ...]]:
    choices = []
    for factor in (1.0, 0.85, 0.72):
        titles = [[name]] if name else []
        if halves := _halved(name):
            titles.append(halves)
        for kept in range(len(facts), -1, -1):
            for title in titles or [[]]:
                lines = [Line(text=text, size=factor * size, bold=True) for text in title]
                lines += [Line(text=fact, size=0.86 * factor * size) for fact in facts[:kept]]
                if lines:
                    choices.append(tuple(lines))
    # A small label with its area beats a large one without; a name alone comes last.
    return sorted(choices, key=lambda lines: -min(2, sum(not line.bold for line in lines)))


def _halved(name: str) -> list[str]:
    """Return a name on two lines of about equal length; nothing where it must not be parted."""
    parts, between = name.split(), " "
    if _ANYWHERE.fullmatch(name):
        parts, between = list(name), ""
    if len(parts) < 2:
        return []
    at = min(
        range(1, len(parts)),
        key=lambda split: max(len(between.join(parts[:split])), len(between.join(parts[split:]))),
    )
    return [between.join(parts[:at]), between.join(parts[at:])]


def _place(free: Polygon, wide: float, high: float) -> Point | None:
    """Return the middle of a box of that size inside the shape, as near its middle as can be."""
    left, top, right, bottom = free.bounds
    if wide > right - left or high > bottom - top:
        return None
    middle = free.centroid
    xs = np.append(np.linspace(left + wide / 2, right - wide / 2, 15), middle.x)
    ys = np.append(np.linspace(top + high / 2, bottom - high / 2, 15), middle.y)
    x, y = (grid.ravel() for grid in np.meshgrid(xs, ys))
    boxes = shapely.box(x - wide / 2, y - high / 2, x + wide / 2, y + high / 2)
    shapely.prepare(free)
    inside = shapely.contains(free, boxes)
    if not inside.any():
        return None
    away = np.where(inside, np.hypot(x - middle.x, y - middle.y), np.inf)
    best = int(away.argmin())
    return float(x[best]), float(y[best])
