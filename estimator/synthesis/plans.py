"""Draws a whole floor: walls, floors, stairs, furniture, and what fills the gaps."""

from estimator.synthesis.finish import draw_floors
from estimator.synthesis.frame import Frame
from estimator.synthesis.layouts import Layout
from estimator.synthesis.openings import draw_openings
from estimator.synthesis.paper import Paper
from estimator.synthesis.styles import Style
from estimator.synthesis.symbols import draw_pieces, draw_stairs
from estimator.synthesis.walls import draw_walls


def draw_plan(paper: Paper, layout: Layout, frame: Frame, style: Style) -> None:
    """Draw a layout, each part over the one before."""
    draw_walls(paper, layout, frame, style)
    draw_floors(paper, layout, frame, style)
    draw_stairs(paper, layout, frame, style)
    draw_pieces(paper, layout, frame, style)
    draw_openings(paper, layout, frame, style)
