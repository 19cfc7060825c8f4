"""Ends of wall bodies that look at each other, and the pieces that fill the gap between them."""

import math
from collections.abc import Iterator

import shapely
from attrs import frozen
from shapely import STRtree
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from estimator.intake.drawings.gaps import (
    NARROWEST_GAP,
    WIDEST_GAP,
    Evidence,
    Gap,
    is_gap,
)
from estimator.plan.opening import Point

# In metres.
_THICKNESS = (0.03, 0.65)  # of a wall at its end
_STRAIGHT = 0.001  # corners so flat are none
_OVERLAP = 0.002  # that far a filling reaches into the walls beside it
_COLUMN = 1.0  # a body that fits into such a square stands alone
_BEYOND = 0.7  # more than any wall is thick
_IN_LINE = 0.05  # two ends of one wall are off its middle by less
_AGREE = 0.12  # two rays find the same wall

_SQUARE = math.sin(math.radians(55))  # how nearly square an end is
_INSET = 0.04  # of its width, where rays leave an end


@frozen(kw_only=True, eq=False)
class _Jamb:
    """The end of a wall, from p to q with the body on the left, looking out to the right."""

    p: Point
    q: Point
    out: Point
    alone: bool

    def point(self, share: float, ahead: float) -> Point:
        """Return the point so far along the end and ahead of it."""
        return (
            self.p[0] + share * (self.q[0] - self.p[0]) + ahead * self.out[0],
            self.p[1] + share * (self.q[1] - self.p[1]) + ahead * self.out[1],
        )


def fills(bodies: BaseGeometry, evidence: Evidence) -> tuple[list[Polygon], list[Gap]]:
    """Return pieces of wall that close every gap, and the gaps."""
    parts = [part for part in shapely.get_parts(bodies).tolist() if isinstance(part, Polygon)]
    if not parts:
        return [], []
    tree = STRtree(parts)
    found = []
    jambs = [jamb for part in parts for jamb in _jambs(part)]
    places = STRtree([shapely.Point(jamb.point(0.5, 0)) for jamb in jambs if not jamb.alone])
    for jamb in jambs:
        width = _clear(jamb, tree)
        if width is None:
            continue
        sides = (
            (jamb.point(0, 0), jamb.point(0, width)),
            (jamb.point(1, 0), jamb.point(1, width)),
        )
        body = Polygon([*sides[0], *reversed(sides[1])])
        middle = jamb.point(0.5, 0), jamb.point(0.5, width)
        kind = evidence.kind_in(*middle, body)
        in_line = _goes_on(jamb, width, places, bodies)
        if is_gap(width, kind, in_line=in_line) and not (jamb.alone and kind is None):
            over = _OVERLAP
            reach = width + over
            corners = [jamb.point(0, -over), jamb.point(0, reach)]
            corners += [jamb.point(1, reach), jamb.point(1, -over)]
            found.append((width, body, Polygon(corners), Gap(kind=kind, sides=sides)))
    found.sort(key=lambda one: one[0])
    filling: list[Polygon] = []
    taken: list[Polygon] = []
    gaps = []
    for width, body, piece, gap in found:
        if any(body.intersection(other).area > 0.05 * body.area for other in taken):
            continue
        taken.append(body)
        filling.append(piece)
        if width >= NARROWEST_GAP:
            gaps.append(gap)
    return filling, gaps


def _goes_on(jamb: _Jamb, width: float, places: STRtree, bodies: BaseGeometry) -> bool:
    """Tell whether the wall goes on in line beyond a gap, at another end or behind a wall there."""
    goal = shapely.Point(jamb.point(0.5, width))
    if places.query(goal, predicate="dwithin", distance=_IN_LINE).size:
        return True
    beyond = LineString([jamb.point(0.5, width + _OVERLAP), jamb.point(0.5, width + _BEYOND)])
    return bool(shapely.covers(bodies, beyond))


def _jambs(part: Polygon) -> Iterator[_Jamb]:
    left, top, right, bottom = part.bounds
    alone = max(right - left, bottom - top) <= _COLUMN
    turned = shapely.orient_polygons(part)
    for ring in (turned.exterior, *turned.interiors):
        corners = _corners([point[:2] for point in ring.coords[:-1]], _STRAIGHT)
        count = len(corners)
        for at in range(count) if count >= 4 else ():
            before, p = corners[at - 1], corners[at]
            q, after = corners[(at + 1) % count], corners[(at + 2) % count]
            width = math.dist(p, q)
            if not _THICKNESS[0] <= width <= _THICKNESS[1]:
                continue
            if min(_turn(before, p, q), _turn(p, q, after)) >= _SQUARE:
                out = (q[1] - p[1]) / width, (p[0] - q[0]) / width
                yield _Jamb(p=p, q=q, out=out, alone=alone)


def _corners(ring: list[Point], flat: float) -> list[Point]:
    """Return a ring's corners without those on a straight line between their neighbours."""
    kept = ring
    for _ in range(2):
        kept = [
            point
            for at, point in enumerate(kept)
            if LineString([kept[at - 1], kept[(at + 1) % len(kept)]]).distance(shapely.Point(point))
            > flat
        ]
        if len(kept) < 3:
            break
    return kept


def _turn(before: Point, at: Point, after: Point) -> float:
    """Return the sine of the turn to the left; negative to the right, or when it turns back."""
    one = at[0] - before[0], at[1] - before[1]
    two = after[0] - at[0], after[1] - at[1]
    size = math.hypot(*one) * math.hypot(*two)
    return (one[0] * two[1] - one[1] * two[0]) / size if size else 0.0


def _clear(jamb: _Jamb, tree: STRtree) -> float | None:
    """Return how far it is to the wall that an end looks at, when most of the end looks at it."""
    near, far = _OVERLAP, WIDEST_GAP
    widths = []
    for share in (_INSET, 0.5, 1 - _INSET):
        start = jamb.point(share, 0)
        ray = LineString([jamb.point(share, near), jamb.point(share, far)])
        hits = [
            shapely.Point(start).distance(tree.geometries[at].intersection(ray))
            for at in tree.query(ray, predicate="intersects").tolist()
        ]
        widths.append(min(hits, default=math.inf))
    widths.sort()
    if not widths[1] < math.inf or widths[1] - widths[0] > _AGREE:
        return None
    return widths[1]
