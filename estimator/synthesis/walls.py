"""Draws the walls of a layout: the whole building in wall, then the rooms laid into it."""

import math

import numpy as np

from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring, inset
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style, WallManner


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
        paper.fill(room, style.floor(space.use), exact=True)
        if not space.is_room:
            _shaft(paper, room, style)
    for corners in layout.blocks:
        block = frame.px(np.array(corners))
        paper.fill(block, style.inner.fill, exact=True)
        if style.inner.line_px:
            paper.stroke([block], style.inner.line, style.inner.line_px, closed=True)
    if style.inner.line_px:
        paper.stroke(rooms, style.inner.line, style.inner.line_px, closed=True)
    if outer.line_px:
        paper.stroke([outside], outer.line, outer.line_px, closed=True)


def _shaft(paper: Paper, ring: Ring, style: Style) -> None:
    """Fill a walled shaft, or draw a cross in it."""
    if style.shaft is not None:
        paper.fill(ring, style.shaft)
    else:
        low, high = ring.min(axis=0), ring.max(axis=0)
        cross = [np.array([low, high]), np.array([(low[0], high[1]), (high[0], low[1])])]
        paper.stroke(cross, style.ink, style.furniture_line_px)


def _lay(paper: Paper, ring: Ring, manner: WallManner) -> None:
    paper.fill(ring, manner.fill, exact=True)
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
    after = np.concatenate([ring[1:], ring[:1]])
    for turn in turns[pattern]:
        along = np.array([math.cos(math.radians(turn)), math.sin(math.radians(turn))])
        across = np.array([-along[1], along[0]])
        heights, heights_after = ring @ across, after @ across
        places, places_after = ring @ along, after @ along
        for offset in np.arange(heights.min() + step / 2, heights.max(), step):
            cut = (heights > offset) != (heights_after > offset)
            low, high = heights[cut], heights_after[cut]
            share = (offset - low) / (high - low)
            stops = np.sort(places[cut] + (places_after[cut] - places[cut]) * share)
            base = across * offset
            lines += [
                np.array([base + along * start, base + along * end])
                for start, end in zip(stops[::2], stops[1::2], strict=True)
            ]
    return lines
