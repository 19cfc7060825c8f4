"""Draws the walls of a layout: the whole building in wall, then the rooms laid into it."""

import math

import numpy as np
from attrs import frozen

from estimator.measures import Metres
from estimator.synthesis.layouts import Layout, Ring, inset
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style, WallManner


@frozen
class Frame:
    """Where the plan lies on the paper: pixels a metre and the pixel of the plan's origin."""

    px_per_m: float
    left: float = 0.0
    top: float = 0.0

    def px(self, points: Ring) -> Ring:
        """Return points in metres as pixels."""
        return points * self.px_per_m + (self.left, self.top)

    def spot(self, point: tuple[Metres, Metres]) -> tuple[float, float]:
        """Return one point in metres as pixels."""
        return point[0] * self.px_per_m + self.left, point[1] * self.px_per_m + self.top


def draw_walls(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Draw all walls and floors, without openings."""
    rooms = [frame.px(layout.inside(space)) for space in layout.spaces]
    outside = frame.px(layout.outside())
    outer = style.outer or style.inner
    _lay(paper, outside, outer)
    if style.outer:
        core = inset(np.array(layout.footprint), layout.inner_wall / 2)
        _lay(paper, frame.px(core), style.inner)
    for space, room in zip(layout.spaces, rooms, strict=True):
        paper.fill([room], style.floor(space.use))
    if style.inner.line_px:
        paper.stroke(rooms, style.inner.line, style.inner.line_px, closed=True)
    if outer.line_px:
        paper.stroke([outside], outer.line, outer.line_px, closed=True)


def _lay(paper: Paper, ring: Ring, manner: WallManner) -> None:
    paper.fill([ring], manner.fill)
    if manner.hatch:
        lines = hatching(ring, manner.hatch, manner.hatch_px)
        paper.stroke(lines, manner.line, max(1.0, manner.hatch_px / 7))


def hatching(ring: Ring, pattern: str, step: float) -> list[Ring]:
    """Return parallel lines that cover a ring's box, clipped to the ring's outline.

    ``pattern`` is diagonal, backward, cross, level or upright.
    """
    turns = {
        "diagonal": (45,),
        "backward": (-45,),
        "cross": (45, -45),
        "level": (0,),
        "upright": (90,),
    }
    lines: list[Ring] = []
    for turn in turns[pattern]:
        along = np.array([math.cos(math.radians(turn)), math.sin(math.radians(turn))])
        across = np.array([-along[1], along[0]])
        for offset in np.arange(np.min(ring @ across) + step / 2, np.max(ring @ across), step):
            lines.extend(_crossings(ring, along, across, float(offset)))
    return lines


def _crossings(ring: Ring, along: Ring, across: Ring, offset: float) -> list[Ring]:
    """Return the stretches of one straight line that lie within a ring."""
    height = ring @ across - offset
    after = np.roll(height, -1)
    cut = (height > 0) != (after > 0)
    share = height[cut] / (height[cut] - after[cut])
    points = ring[cut] + (np.roll(ring, -1, axis=0)[cut] - ring[cut]) * share[:, None]
    places = np.sort(points @ along)
    return [
        np.stack([along * low + across * offset, along * high + across * offset])
        for low, high in zip(places[::2], places[1::2], strict=True)
    ]
