"""Adds to an invented floor what is built out of its walls: piers, columns, stubs, bay windows."""

import itertools
import math

import attrs
import numpy as np

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.synthesis.layouts import Gap, Layout, Ring, area

Rng = np.random.Generator
_TOUCH = 1e-6


def with_blocks(layout: Layout, rng: Rng) -> Layout:
    """Return the layout with chimney breasts, wall stubs or columns in some rooms."""
    blocks: list[tuple[Point, ...]] = []
    columned = rng.random() < 0.3
    for space in layout.spaces:
        ring = layout.inside(space)
        if not space.is_room or area(ring) < 7 or rng.random() < 0.4:
            continue
        if columned and area(ring) > 18:
            blocks += _columns(ring, rng)
        else:
            blocks += _piers(layout, ring, rng)
    return attrs.evolve(layout, blocks=tuple(blocks))


def _columns(ring: Ring, rng: Rng) -> list[tuple[Point, ...]]:
    low, high = ring.min(axis=0), ring.max(axis=0)
    side = rng.uniform(0.25, 0.6)
    counts = np.maximum(1, ((high - low) / rng.uniform(3, 6)).astype(int))
    middles = [
        low + (high - low) * ((column + 0.5) / counts[0], (line + 0.5) / counts[1])
        for column in range(counts[0])
        for line in range(counts[1])
    ]
    return [_rectangle(x - side / 2, y - side / 2, side, side) for x, y in middles[:12]]


def _piers(layout: Layout, ring: Ring, rng: Rng) -> list[tuple[Point, ...]]:
    """Return a block against a wall: broad and shallow as a chimney breast, or thin as a stub."""
    at = int(rng.integers(len(ring)))
    start, end = ring[at], ring[(at + 1) % len(ring)]
    length = float(np.hypot(*(end - start)))
    along = (end - start) / length
    inward = np.array([-along[1], along[0]])
    stub = rng.random() < 0.4
    wide = layout.inner_wall if stub else rng.uniform(0.4, 1.6)
    deep = rng.uniform(0.4, 1.4) if stub else rng.uniform(0.2, 0.6)
    if length < wide + 1.0:
        return []
    near = start + along * rng.uniform(0, length - wide)
    corners = [near, near + along * wide, near + along * wide + inward * deep, near + inward * deep]
    xs, ys = zip(*corners, strict=True)
    for gap in layout.gaps:
        for x, y in (gap.start, gap.end, gap.place(gap.width / 2, 0)):
            if min(xs) - 0.8 < x < max(xs) + 0.8 and min(ys) - 0.8 < y < max(ys) + 0.8:
                return []
    return [tuple((float(x), float(y)) for x, y in corners)]


def _rectangle(left: Metres, top: Metres, width: Metres, depth: Metres) -> tuple[Point, ...]:
    right, bottom = left + width, top + depth
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def with_bays(layout: Layout, rng: Rng) -> Layout:
    """Return the layout with some of its broad windows built out as bays, canted or round."""
    for gap in layout.gaps:
        is_broad = gap.kind is OpeningKind.WINDOW and gap.width > 1.3
        if is_broad and gap.other is None and rng.random() < 0.5:
            layout = _with_bay(layout, gap, rng)
    return layout


def _with_bay(layout: Layout, gap: Gap, rng: Rng) -> Layout:
    deep = rng.uniform(0.35, 0.5) * gap.width
    if rng.random() < 0.6:
        shares = [(0.0, 0.0), (rng.uniform(0.12, 0.3), 1.0)]
        profile = [*shares, (1 - shares[1][0], 1.0), (1.0, 0.0)]
    else:
        turns = np.linspace(0, math.pi, 7)
        profile = [(0.5 - 0.5 * math.cos(turn), math.sin(turn)) for turn in turns.tolist()]
    points = [gap.place(share * gap.width, -out * deep) for share, out in profile]
    footprint = _spliced(layout.footprint, points)
    space = next(space for space in layout.spaces if space.name == gap.room)
    corners = _spliced(space.corners, points)
    if footprint is None or corners is None:
        return layout
    panes = [
        _pane(gap, start, end)
        for start, end in itertools.pairwise(points)
        if math.dist(start, end) > 0.25
    ]
    return attrs.evolve(
        layout,
        footprint=footprint,
        spaces=tuple(
            attrs.evolve(one, corners=corners) if one is space else one for one in layout.spaces
        ),
        gaps=(*(one for one in layout.gaps if one is not gap), *panes),
    )


def _pane(gap: Gap, start: Point, end: Point) -> Gap:
    """Return a window in one side of a bay, a mullion's width short at both ends."""
    length = math.dist(start, end)
    step = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    spare = min(0.12, length * 0.15)
    normal = (-step[1], step[0])
    side = normal[0] * gap.inward[0] + normal[1] * gap.inward[1]
    if abs(side) < 0.2:  # a side square to the wall: inwards is towards the bay's middle
        middle = gap.place(gap.width / 2, 0)
        side = normal[0] * (middle[0] - start[0]) + normal[1] * (middle[1] - start[1])
    return attrs.evolve(
        gap,
        start=(start[0] + step[0] * spare, start[1] + step[1] * spare),
        end=(end[0] - step[0] * spare, end[1] - step[1] * spare),
        inward=normal if side > 0 else (-normal[0], -normal[1]),
    )


def _spliced(corners: tuple[Point, ...], points: list[Point]) -> tuple[Point, ...] | None:
    """Return a ring with points, the ends of which lie on one of its edges, put into that edge."""
    for at, (x, y) in enumerate(corners):
        nx, ny = corners[(at + 1) % len(corners)]
        length = math.hypot(nx - x, ny - y)
        places = [
            ((px - x) * (nx - x) + (py - y) * (ny - y)) / length
            for px, py in (points[0], points[-1])
        ]
        offs = [
            abs((py - y) * (nx - x) - (px - x) * (ny - y)) / length
            for px, py in (points[0], points[-1])
        ]
        if max(offs) < _TOUCH and all(_TOUCH < place < length - _TOUCH for place in places):
            inserted = points if places[0] < places[1] else points[::-1]
            return (*corners[: at + 1], *inserted, *corners[at + 1 :])
    return None
