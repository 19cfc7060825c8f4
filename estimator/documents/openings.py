"""Doors, windows and passages as a plan shows them."""

import math
from collections.abc import Iterator, Mapping

import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from estimator.documents.figure import USUAL_WALL, Figure, Gap
from estimator.documents.palette import INK, WHITE, text_on
from estimator.documents.scene import Mark, Stroke, areas
from estimator.measures import Metres
from estimator.plan.opening import Hinge, OpeningKind, Point

WIDEST_LEAF: Metres = 1.3
WIDEST_LEAVES: Metres = 2.6
"""Doors up to the first have one leaf, up to the second two, and wider ones slide or roll."""


def gap_marks(figure: Figure, line: float) -> Iterator[Mark]:
    """Yield what is seen in the wall: the gap, and the panes of windows."""
    for shape in figure.shapes:
        for gap in shape.gaps:
            yield from areas(gap.through, WHITE)
    for shape in figure.shapes:
        for gap in shape.gaps:
            if gap.kind is OpeningKind.WINDOW:
                yield from _panes(gap, line)


def swing_marks(figure: Figure, fills: Mapping[str, str], line: float) -> Iterator[Mark]:
    """Yield leaves and swings of doors, once for the two rooms that share one."""
    for shape in figure.shapes:
        colour = text_on(fills.get(shape.room.id, WHITE))
        for gap in shape.gaps:
            for hinge, *arc in leaves(gap, figure):
                yield Stroke(points=tuple(arc), colour=colour, width=0.6 * line)
                yield Stroke(points=(hinge, arc[-1]), colour=colour, width=1.4 * line)


def swept(figure: Figure) -> BaseGeometry:
    """Return the floor that doors sweep."""
    return shapely.union_all(
        [
            Polygon(leaf)
            for shape in figure.shapes
            for gap in shape.gaps
            for leaf in leaves(gap, figure)
        ]
    )


def leaves(gap: Gap, figure: Figure) -> list[list[Point]]:
    """Return hinge and arc, from shut to open, of each leaf that swings in an opening.

    Where nobody knows, a leaf swings into the room; wide doors have two leaves, and the widest
    slide or roll.
    """
    metres = math.dist(gap.start, gap.end) / figure.wall * USUAL_WALL
    if gap.kind is not OpeningKind.DOOR or gap.twin:
        return []
    if gap.hinge is None and metres > WIDEST_LEAVES:
        return []
    start, end, out = gap.start, gap.end, gap.outward
    if gap.opens_out:
        dx, dy = out[0] * gap.depth, out[1] * gap.depth
        start, end = (start[0] + dx, start[1] + dy), (end[0] + dx, end[1] + dy)
        out = -out[0], -out[1]
    if gap.hinge is Hinge.START or (gap.hinge is None and metres <= WIDEST_LEAF):
        return [_leaf(start, end, out)]
    middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    return [_leaf(start, middle, out), _leaf(end, middle, out)]


def _leaf(hinge: Point, shut: Point, outward: Point) -> list[Point]:
    along = shut[0] - hinge[0], shut[1] - hinge[1]
    length = math.hypot(*along)
    turned = (step / 12 * math.pi / 2 for step in range(13))
    return [
        hinge,
        *(
            (
                hinge[0] + along[0] * math.cos(angle) - outward[0] * length * math.sin(angle),
                hinge[1] + along[1] * math.cos(angle) - outward[1] * length * math.sin(angle),
            )
            for angle in turned
        ),
    ]


def _panes(gap: Gap, line: float) -> Iterator[Mark]:
    for share in (0.0, 0.5, 1.0):
        dx, dy = (part * gap.depth * share for part in gap.outward)
        yield Stroke(
            points=(
                (gap.start[0] + dx, gap.start[1] + dy),
                (gap.end[0] + dx, gap.end[1] + dy),
            ),
            colour=INK,
            width=0.7 * line,
        )
