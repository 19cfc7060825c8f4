"""Lays floors: boards, tiles and hatching as thin lines on the coloured floor of a room."""

import numpy as np

from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout, Ring
from estimator.synthesis.paper import Colour, Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.walls import hatching

_BOARD_M = 0.16
_HATCH_M = 0.3
_TILE_M = {"tiles": 0.45, "small tiles": 0.25}


def draw_floors(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Draw the texture of every floor whose use has one."""
    for space in layout.spaces:
        texture = style.textures.get(space.use)
        if texture is None:
            continue
        room = frame.px(layout.inside(space))
        if texture == "boards":
            lines = _boards(room, frame)
        elif texture == "hatch":
            lines = hatching(room, "diagonal", max(5.0, _HATCH_M * frame.px_per_m))
        else:
            lines = _tiles(room, frame, texture)
        paper.stroke(lines, shaded(style.floor(space.use), style.texture_shade), 1.0)


def shaded(colour: Colour, share: float) -> Colour:
    """Return a colour made darker to a share of its light."""
    red, green, blue = (round(part * share) for part in colour)
    return red, green, blue


def _boards(room: Ring, frame: Frame) -> list[Ring]:
    step = max(4.0, _BOARD_M * frame.px_per_m)
    boards = hatching(room, "level", step)
    joints = []
    for at, board in enumerate(boards[:-1]):
        left, right = board[:, 0]
        first = left + step * (3 + (at * 5) % 8)
        for x in np.arange(first, right, step * 9):
            joints.append(np.array([(x, board[0, 1]), (x, board[0, 1] + step)]))
    return boards + joints


def _tiles(room: Ring, frame: Frame, texture: str) -> list[Ring]:
    step = max(4.0, _TILE_M[texture] * frame.px_per_m)
    return hatching(room, "level", step) + hatching(room, "upright", step)
