"""Draws furniture, fixtures and stairs as seen from above."""

import itertools
import tomllib
from functools import cache
from importlib.resources import files

import numpy as np
from attrs import field, frozen

from estimator.measures import Metres
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Piece, Ring
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.walls import hatching

_QUARTER = np.linspace(0, np.pi / 2, 5)
LANDING_M = 0.95
_GOING_M = 0.26
_ROUND = np.linspace(0, 2 * np.pi, 25)[:-1]


@frozen
class Shape:
    """One part of a symbol: points as shares of width and depth from the centre."""

    points: Ring
    closed: bool


@frozen
class Way:
    """One way to draw a kind of furniture."""

    shapes: tuple[Shape, ...]
    closed: tuple[bool, ...] = field(init=False)
    _points: Ring = field(init=False)
    _stops: tuple[int, ...] = field(init=False)

    def __attrs_post_init__(self) -> None:
        lengths = [len(shape.points) for shape in self.shapes]
        object.__setattr__(self, "closed", tuple(shape.closed for shape in self.shapes))
        object.__setattr__(self, "_points", np.concatenate([s.points for s in self.shapes]))
        object.__setattr__(self, "_stops", tuple(itertools.accumulate(lengths, initial=0)))

    def placed(self, piece: Piece) -> list[Ring]:
        """Return the shapes where a piece stands, in metres."""
        points = piece.at(self._points)
        return [points[start:stop] for start, stop in itertools.pairwise(self._stops)]


@frozen(kw_only=True)
class Symbol:
    """How a kind of furniture looks from above, and what a reader takes it for, if anything."""

    width: Metres
    depth: Metres
    seen: str
    ways: tuple[Way, ...]


@cache
def symbols() -> dict[str, Symbol]:
    """Return the symbol of every kind of furniture."""
    text = files("estimator.synthesis").joinpath("furniture.toml").read_text(encoding="utf-8")
    return {
        kind: Symbol(
            width=entry["width"],
            depth=entry["depth"],
            seen=entry.get("seen", ""),
            ways=tuple(
                Way(tuple(_shape(words, entry["width"], entry["depth"]) for words in shapes))
                for shapes in (entry["shapes"], *entry.get("others", ()))
            ),
        )
        for kind, entry in tomllib.loads(text).items()
    }


def _shape(words: str, width: float, depth: float) -> Shape:
    name, *rest = words.split()
    numbers = np.array([float(word) for word in rest])
    if name == "line":
        return Shape(numbers.reshape(-1, 2) - 0.5, closed=False)
    if name == "oval":
        circle = np.stack([np.cos(_ROUND), np.sin(_ROUND)], axis=1)
        return Shape(numbers[:2] - 0.5 + circle * numbers[2:], closed=True)
    left, top, right, bottom = numbers[:4] - 0.5
    if len(numbers) == 4:
        corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
        return Shape(np.array(corners), closed=True)
    radius = numbers[4] * min((right - left) * width, (bottom - top) * depth)
    across, down = radius / width, radius / depth
    parts = []
    for turn, (x, y) in enumerate(
        [
            (right - across, bottom - down),
            (left + across, bottom - down),
            (left + across, top + down),
            (right - across, top + down),
        ]
    ):
        arc = _QUARTER + turn * np.pi / 2
        parts.append(np.stack([x + across * np.cos(arc), y + down * np.sin(arc)], axis=1))
    return Shape(np.concatenate(parts), closed=True)


def seen_as(kind: str) -> str:
    """Return what a reader takes a kind of furniture for; empty when for nothing it knows."""
    return symbols()[kind].seen


def draw_pieces(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Draw all furniture of a layout."""
    for piece in layout.pieces:
        draw_piece(paper, piece, frame, style)


def draw_piece(paper: Paper, piece: Piece, frame: Frame, style: Style) -> None:
    """Draw one piece of furniture."""
    fill = style.furniture_fills.get(piece.kind, style.furniture_fill)
    ways = symbols()[piece.kind].ways
    way = ways[style.variant % len(ways)]
    parts = [frame.px(part) for part in way.placed(piece)]
    paper.shapes(parts, way.closed, fill, style.furniture_line, style.furniture_line_px)


def draw_stairs(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Draw treads and an arrow upwards in every room that is a stair."""
    for space in layout.spaces:
        if space.use != "stairs":
            continue
        room = layout.inside(space)
        (left, top), (right, bottom) = room.min(axis=0), room.max(axis=0)
        level = right - left >= bottom - top
        low, high = (left, right) if level else (top, bottom)
        treads = [
            line
            for line in hatching(room, "upright" if level else "level", _GOING_M)
            if low + LANDING_M < line[0, 0 if level else 1] < high - 0.1
        ]
        middle = np.array([(left + right) / 2, (top + bottom) / 2])
        along = np.array([1.0, 0.0]) if level else np.array([0.0, 1.0])
        across = along[::-1]
        half = (right - left if level else bottom - top) / 2
        tail, tip = middle - along * (half - 0.45), middle + along * (half - 0.3)
        barbs = [tip - along * 0.18 + across * 0.09, tip, tip - along * 0.18 - across * 0.09]
        lines = [*treads, np.array([tail, tip]), np.array(barbs)]
        paper.stroke([frame.px(line) for line in lines], style.ink, style.furniture_line_px)
