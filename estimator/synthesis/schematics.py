"""Sheets of lines that are no plan: circuits and boxes joined by arrows.

Training shows some of them, so that lines that enclose paper are not always taken for rooms.
"""

from itertools import pairwise

import numpy as np

from estimator.synthesis.lettering import extent
from estimator.synthesis.paper import Colour, Picture, Pixels
from estimator.synthesis.styles import WHITE
from estimator.synthesis.wear import Wear
from estimator.synthesis.words import words

Rng = np.random.Generator
Point = tuple[float, float]

_ROUND = np.linspace(0, 2 * np.pi, 33)[:-1]


def schematic(seed: int, *, side_px: int) -> Picture:
    """Return the sheet of a number, a square of so many pixels."""
    rng = np.random.default_rng((seed, 2))
    paper = Pixels.blank(side_px, side_px, WHITE)
    light = int(rng.integers(0, 90))
    pen = _Pen(paper, rng, (light, light, light), float(rng.choice([1.0, 1.0, 2.0, 3.0])))
    if rng.random() < 0.6:
        _circuit(pen)
    else:
        _boxes(pen)
    return Wear(rng=rng, hardness=float(rng.choice([0.0, 0.2, 0.6]))).spoil(paper.finished())


class _Pen:
    """Draws the parts of a schematic in one ink."""

    def __init__(self, paper: Pixels, rng: Rng, ink: Colour, width: float) -> None:
        self.paper, self.rng, self.ink, self.width = paper, rng, ink, width

    def line(self, *points: Point) -> None:
        self.paper.stroke([np.array(points)], self.ink, self.width)

    def ring(self, points: np.ndarray) -> None:
        self.paper.fill(points, WHITE)
        self.paper.stroke([points], self.ink, self.width, closed=True)

    def box(self, middle: Point, wide: float, tall: float) -> None:
        corners = np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * (wide / 2, tall / 2)
        self.ring(np.array(middle) + corners)

    def word(self, middle: Point, size: float) -> None:
        titles = words().titles
        text = titles[int(self.rng.integers(len(titles)))].split()[0]
        self.paper.write(text, middle, size, self.ink, font="sans")

    def part(self, middle: Point, along: Point, size: float) -> None:
        """Put a part on a wire that runs along a way: a box, a disc, a gap with bars, a zigzag."""
        at, way = np.array(middle), np.array(along)
        across = way[::-1]
        kind = int(self.rng.integers(6))
        ends = np.abs(way) * size + np.abs(across) * size * 0.42
        if kind == 0:
            self.box(middle, *ends)
        elif kind == 1:
            self.ring(at + np.stack([np.cos(_ROUND), np.sin(_ROUND)], axis=1) * size * 0.4)
        elif kind == 2:  # a cell or a condenser: two bars with a gap between
            apart = float(self.rng.uniform(0.08, 0.2)) * size
            self.paper.fill(_square(at, apart), WHITE)
            for side, reach in ((-1, 0.5), (1, float(self.rng.choice([0.25, 0.5])))):
                foot = at + way * apart * side
                self.line(tuple(foot - across * size * reach), tuple(foot + across * size * reach))
        elif kind == 3:  # a zigzag
            self.paper.fill(_square(at, size * 0.5), WHITE)
            steps = np.linspace(-0.5, 0.5, 9)
            sway = np.array([0, *([0.22, -0.22] * 3), 0.22, 0])
            self.line(*map(tuple, at + steps[:, None] * way * size + sway[:, None] * across * size))
        elif kind == 4:  # a switch that stands open
            self.paper.fill(_square(at, size * 0.35), WHITE)
            foot = at - way * size * 0.35
            self.line(tuple(foot), tuple(foot + (way * 0.6 + across * 0.35) * size))
        else:  # an arrow head
            tips = [way * 0.4, across * 0.35 - way * 0.3, -across * 0.35 - way * 0.3]
            self.ring(at + np.array(tips) * size)


def _square(middle: np.ndarray, half: float) -> np.ndarray:
    return middle + np.array([(-1, -1), (1, -1), (1, 1), (-1, 1)]) * half


def _circuit(pen: _Pen) -> None:
    """Draw wires along a loose grid, with parts on them and dots where they meet."""
    rng, side = pen.rng, pen.paper.canvas.shape[0]
    low, high = rng.uniform(0.06, 0.2) * side, rng.uniform(0.8, 0.94) * side
    xs, ys = (np.linspace(low, high, int(count)) for count in rng.integers(3, 7, 2))
    xs, ys = (stops + rng.uniform(-0.02, 0.02, len(stops)) * side for stops in (xs, ys))
    size = float(rng.uniform(0.2, 0.5)) * float(min(np.diff(xs).min(), np.diff(ys).min()))
    wires = [((x0, y), (x1, y)) for y in ys for x0, x1 in pairwise(xs)]
    wires += [((x, y0), (x, y1)) for x in xs for y0, y1 in pairwise(ys)]
    wires = [wire for wire in wires if rng.random() < 0.85]
    for start, end in wires:
        pen.line(start, end)
    for start, end in wires:
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        along = (1.0, 0.0) if start[1] == end[1] else (0.0, 1.0)
        if rng.random() < 0.6:
            pen.part(middle, along, size)
            if rng.random() < 0.6:
                pen.word((middle[0] + size * 0.5, middle[1] - size * 0.8), max(7.0, size * 0.3))
    if rng.random() < 0.5:
        for x in xs:
            for y in ys:
                dot = np.stack([np.cos(_ROUND), np.sin(_ROUND)], axis=1) * (1.5 + pen.width)
                pen.paper.fill(np.array((x, y)) + dot, pen.ink)


def _boxes(pen: _Pen) -> None:
    """Draw lettered boxes in rows with arrows between them."""
    rng, side = pen.rng, pen.paper.canvas.shape[0]
    rows, columns = (int(count) for count in rng.integers(2, 6, 2))
    down, across = side / (rows + 0.3), side / (columns + 0.3)
    wide, tall = across * float(rng.uniform(0.4, 0.75)), down * float(rng.uniform(0.25, 0.55))
    for row in range(rows):
        for column in range(columns):
            if rng.random() < 0.2:
                continue
            at = ((column + 0.65) * across, (row + 0.65) * down)
            if row + 1 < rows:
                pen.line(at, (at[0], at[1] + down))
                pen.line(
                    (at[0] - 5, at[1] + down - tall / 2 - 8),
                    (at[0], at[1] + down - tall / 2),
                    (at[0] + 5, at[1] + down - tall / 2 - 8),
                )
            if column + 1 < columns and rng.random() < 0.4:
                pen.line(at, (at[0] + across, at[1]))
            pen.box(at, wide, tall)
            letter = min(14.0, tall * 0.4)
            if extent("M" * 8, letter, "sans")[0] < wide:
                pen.word(at, letter)
