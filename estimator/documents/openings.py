"""Doors, windows and passages as a plan shows them."""

import math
from collections.abc import Iterator, Mapping

from shapely.geometry import Polygon

from estimator.documents.figure import Figure, Gap
from estimator.documents.palette import INK, WHITE, text_on
from estimator.documents.scene import Mark, Stroke, areas
from estimator.plan.opening import OpeningKind, Point


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
            if gap.kind is OpeningKind.DOOR and not gap.twin:
                swing = swing_of(gap)
                corners = [(float(x), float(y)) for x, y in swing.exterior.coords[:-1]]
                hinge, arc = corners[0], corners[1:]
                yield Stroke(points=tuple(arc), colour=colour, width=0.6 * line)
                yield Stroke(points=(hinge, arc[-1]), colour=colour, width=1.4 * line)


def swing_of(gap: Gap) -> Polygon:
    """Return the floor a door sweeps: hinge at its start, then the arc from shut to open."""
    hinge, shut = gap.start, gap.end
    length = math.dist(hinge, shut)
    along = (shut[0] - hinge[0]) / length, (shut[1] - hinge[1]) / length
    inward = -gap.outward[0], -gap.outward[1]

    def at(angle: float) -> Point:
        cos, sin = math.cos(angle) * length, math.sin(angle) * length
        return (
            hinge[0] + along[0] * cos + inward[0] * sin,
            hinge[1] + along[1] * cos + inward[1] * sin,
        )

    return Polygon([hinge, *(at(step / 12 * math.pi / 2) for step in range(13))])


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
