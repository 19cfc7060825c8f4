"""Takes a rectilinear layout off the square: turned, tapered, bent round, cut and split askew."""

import math
from collections.abc import Callable, Iterable

import attrs
import numpy as np

from estimator.measures import Metres
from estimator.plan.opening import OpeningKind, Point
from estimator.synthesis.layouts import Gap, Layout, Piece, Ring, Space

Rng = np.random.Generator
Bend = Callable[[Ring], Ring]
"""Moves points in metres, shape (N, 2)."""

# The middle of a piece of furniture and those of its sides, as shares of its width and depth.
_CROSS = np.array([(0.0, 0.0), (-0.5, 0.0), (0.5, 0.0), (0.0, -0.5), (0.0, 0.5)])


def bent(layout: Layout, bend: Bend, *, longest: Metres = math.inf) -> Layout:
    """Return the layout with every point moved; walls longer than ``longest`` become polygons."""

    def ring(corners: tuple[Point, ...]) -> tuple[Point, ...]:
        return _tupled(bend(np.array(_divided(corners, longest))))

    return attrs.evolve(
        layout,
        spaces=tuple(attrs.evolve(space, corners=ring(space.corners)) for space in layout.spaces),
        footprint=ring(layout.footprint),
        gaps=tuple(_bent_gap(gap, bend) for gap in layout.gaps),
        blocks=tuple(_tupled(bend(np.array(block))) for block in layout.blocks),
        pieces=tuple(_bent_piece(piece, bend) for piece in layout.pieces),
    )


def turned(degrees: float) -> Bend:
    """Return a turn about the origin."""
    cosine, sine = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    matrix = np.array([[cosine, sine], [-sine, cosine]])
    return lambda points: np.asarray(points @ matrix)


def tapered(layout: Layout, rng: Rng) -> Bend:
    """Return a bend that makes rectangles trapezoids and parallelograms."""
    width, depth = np.ptp(np.array(layout.footprint), axis=0)
    shear = rng.uniform(-0.25, 0.25, 2) * (rng.random(2) < 0.5)
    taper = rng.uniform(-0.28, 0.28, 2) / (width, depth) * (rng.random(2) < 0.6)

    def bend(points: Ring) -> Ring:
        x, y = points[:, 0], points[:, 1]
        far = 1 + taper[0] * x + taper[1] * y
        return np.stack([(x + shear[0] * y) / far, (y + shear[1] * x) / far], axis=1)

    return bend


def rounded(layout: Layout, rng: Rng) -> Bend:
    """Return a bend that lays the building's length along an arc."""
    low = np.min(np.array(layout.footprint), axis=0)
    width, depth = np.ptp(np.array(layout.footprint), axis=0)
    sweep = math.radians(rng.uniform(35, 250))
    inner = max(width / sweep - depth / 2, depth * 0.25)

    def bend(points: Ring) -> Ring:
        turn = ((points[:, 0] - low[0]) / width - 0.5) * sweep
        radius = inner + depth - (points[:, 1] - low[1])
        return np.stack([radius * np.sin(turn), -radius * np.cos(turn)], axis=1)

    return bend


def cut(layout: Layout, at: Point, normal: Point) -> Layout:
    """Return what lies on the side of a line away from its normal; None-effect when it is unfit."""
    footprint = _kept(layout.footprint, at, normal)
    if footprint is None:
        return layout
    spaces = []
    for space in layout.spaces:
        corners = _kept(space.corners, at, normal)
        if corners is None:
            return layout
        if corners:
            spaces.append(attrs.evolve(space, corners=corners))
    names = {space.name for space in spaces}

    def lies_within(points: Iterable[Point], spare: Metres) -> bool:
        return all(_height(point, at, normal) < -spare for point in points)

    return attrs.evolve(
        layout,
        spaces=tuple(spaces),
        footprint=footprint,
        gaps=tuple(
            gap
            for gap in layout.gaps
            if gap.room in names
            and (gap.other is None or gap.other in names)
            and lies_within((gap.start, gap.end), 0.5)
        ),
        blocks=tuple(block for block in layout.blocks if lies_within(block, 0.1)),
        pieces=tuple(
            piece
            for piece in layout.pieces
            if piece.room in names and lies_within(_tupled(piece.footprint()), layout.outer_wall)
        ),
    )


def chamfered(layout: Layout, rng: Rng) -> Layout:
    """Return the layout with one to three corners of the building cut off askew."""
    for _ in range(int(rng.integers(1, 4))):
        ring = np.array(layout.footprint)
        middle, reach = ring.mean(axis=0), np.ptp(ring, axis=0)
        turn = rng.uniform(0, 2 * math.pi)
        normal = (math.cos(turn), math.sin(turn))
        furthest = float(np.max((ring - middle) @ normal))
        back = min(float(rng.uniform(0.08, 0.3)) * float(reach.min()), furthest * 0.7)
        at = middle + np.array(normal) * (furthest - back)
        layout = cut(layout, (float(at[0]), float(at[1])), normal)
    return layout


def in_a_circle(layout: Layout, sides: int = 40) -> Layout:
    """Return what of the layout lies in the circle that fits its footprint."""
    ring = np.array(layout.footprint)
    middle = (ring.min(axis=0) + ring.max(axis=0)) / 2
    radius = float(np.ptp(ring, axis=0).min()) * 0.56
    for turn in np.linspace(0, 2 * math.pi, sides, endpoint=False):
        normal = (math.cos(turn), math.sin(turn))
        at = middle + np.array(normal) * radius
        layout = cut(layout, (float(at[0]), float(at[1])), normal)
    return layout


def partitioned(layout: Layout, rng: Rng) -> Layout:
    """Return the layout with a few rooms parted askew: a corner cut off, or a wall aslant."""
    for space in layout.spaces:
        ring = np.array(space.corners)
        if not space.is_room or _size(space.corners) < 9 or rng.random() < 0.6:
            continue
        if rng.random() < 0.6:
            at = int(rng.integers(len(ring)))
            ends = []
            for other in (ring[at - 1], ring[(at + 1) % len(ring)]):
                reach = float(np.hypot(*(other - ring[at])))
                share = min(0.8, rng.uniform(1.1, 2.2) / reach)
                ends.append(_tupled((ring[at] + (other - ring[at]) * share)[None])[0])
        else:
            middle = ring.mean(axis=0)
            turn = rng.uniform(0, math.pi)
            way = np.array([math.cos(turn), math.sin(turn)])
            ends = list(_tupled(np.array([middle - way, middle + way])))
        layout = split(layout, space, ends[0], ends[1], float(rng.uniform(0.6, 0.9)))
    return layout


def split(layout: Layout, space: Space, start: Point, end: Point, door: Metres) -> Layout:
    """Return the layout with a room parted in two by a straight wall with a door in it.

    The wall runs through two points; it is left out when it does not cut the room in two cleanly.
    """
    length = math.dist(start, end)
    step = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    normal = (-step[1], step[0])
    one = _kept(space.corners, start, normal)
    other = _kept(space.corners, start, (-normal[0], -normal[1]))
    if not one or not other or min(_size(one), _size(other)) < 1.0:
        return layout
    on_line = [
        (point[0] - start[0]) * step[0] + (point[1] - start[1]) * step[1]
        for point in one
        if abs(_height(point, start, normal)) < 1e-6
    ]
    low, high = min(on_line), max(on_line)
    ends = [(start[0] + step[0] * at, start[1] + step[1] * at) for at in (low, high)]
    ours = [gap for gap in layout.gaps if space.name in (gap.room, gap.other)]
    if high - low < door + 0.5 or any(_near(gap, point) for gap in ours for point in ends):
        return layout
    second = f"{space.name}b"
    half = layout.inner_wall / 2

    def renamed(gap: Gap) -> Gap:
        middle = ((gap.start[0] + gap.end[0]) / 2, (gap.start[1] + gap.end[1]) / 2)
        if _height(middle, start, normal) < 0:
            return gap
        if gap.room == space.name:
            return attrs.evolve(gap, room=second)
        return attrs.evolve(gap, other=second) if gap.other == space.name else gap

    middle = (low + high) / 2
    opening = Gap(
        kind=OpeningKind.DOOR,
        manner="leaf",
        start=(start[0] + step[0] * (middle - door / 2), start[1] + step[1] * (middle - door / 2)),
        end=(start[0] + step[0] * (middle + door / 2), start[1] + step[1] * (middle + door / 2)),
        inward=(-normal[0], -normal[1]),
        room=space.name,
        other=second,
        front=half,
        back=half,
    )
    spaces = [one_space for one_space in layout.spaces if one_space is not space]
    return attrs.evolve(
        layout,
        spaces=(
            *spaces,
            attrs.evolve(space, corners=one),
            attrs.evolve(space, corners=other, name=second),
        ),
        gaps=(*(renamed(gap) for gap in layout.gaps), opening),
        pieces=tuple(piece for piece in layout.pieces if piece.room != space.name),
    )


def _near(gap: Gap, point: Point) -> bool:
    """Whether a point lies so near an opening that a wall there would block it."""
    width = gap.width
    step = ((gap.end[0] - gap.start[0]) / width, (gap.end[1] - gap.start[1]) / width)
    x, y = point[0] - gap.start[0], point[1] - gap.start[1]
    along = x * step[0] + y * step[1]
    across = abs(y * step[0] - x * step[1])
    return across < 0.4 and -0.35 < along < width + 0.35


def _height(point: Point, at: Point, normal: Point) -> float:
    return (point[0] - at[0]) * normal[0] + (point[1] - at[1]) * normal[1]


def _kept(corners: tuple[Point, ...], at: Point, normal: Point) -> tuple[Point, ...] | None:
    """Return the part of a ring below a line; empty when nothing is, None when it is in pieces."""
    heights = [_height(corner, at, normal) for corner in corners]
    if max(heights) <= 1e-9:
        return corners
    if min(heights) >= -1e-9:
        return ()
    kept: list[Point] = []
    crossings = 0
    for here, low, there, after in zip(
        corners, heights, (*corners[1:], corners[0]), (*heights[1:], heights[0]), strict=True
    ):
        if low < 0:
            kept.append(here)
        if (low < 0) != (after < 0):
            share = low / (low - after)
            kept.append(
                (here[0] + (there[0] - here[0]) * share, here[1] + (there[1] - here[1]) * share)
            )
            crossings += 1
    ring = [p for p, q in zip(kept, (*kept[1:], kept[0]), strict=True) if math.dist(p, q) > 1e-3]
    if crossings > 2 or len(ring) < 3:
        return None
    return tuple(ring) if _size(tuple(ring)) > 0.8 else None


def _size(corners: tuple[Point, ...]) -> float:
    ring = np.array(corners)
    x, y = ring[:, 0], ring[:, 1]
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def _divided(corners: tuple[Point, ...], longest: Metres) -> list[Point]:
    if math.isinf(longest):
        return list(corners)
    points: list[Point] = []
    for here, there in zip(corners, (*corners[1:], corners[0]), strict=True):
        count = max(1, math.ceil(math.dist(here, there) / longest))
        points += [
            (
                here[0] + (there[0] - here[0]) * at / count,
                here[1] + (there[1] - here[1]) * at / count,
            )
            for at in range(count)
        ]
    return points


def _bent_gap(gap: Gap, bend: Bend) -> Gap:
    middle = ((gap.start[0] + gap.end[0]) / 2, (gap.start[1] + gap.end[1]) / 2)
    inner = (middle[0] + gap.inward[0] * 0.05, middle[1] + gap.inward[1] * 0.05)
    start, end, middle, inner = _tupled(bend(np.array([gap.start, gap.end, middle, inner])))
    width = math.dist(start, end)
    normal = (-(end[1] - start[1]) / width, (end[0] - start[0]) / width)
    side = (inner[0] - middle[0]) * normal[0] + (inner[1] - middle[1]) * normal[1]
    inward = normal if side > 0 else (-normal[0], -normal[1])
    return attrs.evolve(gap, start=start, end=end, inward=inward)


def _bent_piece(piece: Piece, bend: Bend) -> Piece:
    """Return a piece where the bend takes it, made smaller where the floor under it becomes so."""
    middle, left, right, back, front = _tupled(bend(piece.at(_CROSS)))
    return attrs.evolve(
        piece,
        centre=middle,
        width=min(piece.width, math.dist(left, right)),
        depth=min(piece.depth, math.dist(back, front)),
        turn=math.degrees(math.atan2(right[1] - left[1], right[0] - left[0])),
    )


def _tupled(points: Ring) -> tuple[Point, ...]:
    return tuple((x, y) for x, y in points.tolist())
