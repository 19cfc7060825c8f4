"""A room's floor being furnished: what stands on it, what is kept clear, and where more fits.

Rooms are taken as drawn along the axes: furniture goes along level and upright walls only.
"""

import itertools
import math
from collections.abc import Iterable, Iterator

import numpy as np
from attrs import field, frozen

from estimator.measures import Metres, SquareMetres
from estimator.plan.opening import Point
from estimator.synthesis.groups import Group
from estimator.synthesis.layouts import Piece, Ring, Space, area, within
from estimator.synthesis.symbols import symbols

Box = tuple[float, float, float, float]
"""Left, top, right, bottom in metres."""

Place = tuple[Point, float]
"""The middle of a group's back, and the turn in degrees that its back is seen under."""

_SPARE = 1e-6
_QUARTERS = {0: (1.0, 0.0), 90: (0.0, 1.0), 180: (-1.0, 0.0), 270: (0.0, -1.0)}


@frozen
class Wall:
    """A level or upright wall: where it starts, which way it runs, how long it is."""

    start: Point
    step: Point
    length: Metres
    turn: float


@frozen
class Floor:
    """A room being furnished.

    Parameters
    ----------
    ring
        Inside faces of its walls.
    clear, glazed
        Floor before doors, where nothing may stand, and before windows, where nothing tall may.
    tries
        How many places are looked at for each group; None looks at all of them.
    """

    space: Space
    ring: Ring
    rng: np.random.Generator
    clear: tuple[Box, ...]
    glazed: tuple[Box, ...]
    tries: int | None = None
    pieces: list[Piece] = field(factory=list)
    taken: list[Box] = field(factory=list)
    walls: tuple[Wall, ...] = field(init=False)
    bounds: Box = field(init=False)
    _points: tuple[Point, ...] = field(init=False)

    def __attrs_post_init__(self) -> None:
        points = tuple((float(x), float(y)) for x, y in self.ring)
        object.__setattr__(self, "_points", points)
        object.__setattr__(self, "walls", tuple(_walls(points)))
        xs, ys = [x for x, _ in points], [y for _, y in points]
        object.__setattr__(self, "bounds", (min(xs), min(ys), max(xs), max(ys)))

    @property
    def size(self) -> SquareMetres:
        """Area of the floor."""
        return area(self.ring)

    def wall_places(self, of: Group, step: Metres = 0.1) -> Iterator[tuple[Place, bool]]:
        """Yield where the group could stand, and whether that is in a corner."""
        half = of.width / 2
        walls = [wall for wall in self.walls if wall.length >= of.width]
        if self.tries is not None and walls:
            for _ in range(self.tries):
                wall = walls[int(self.rng.integers(len(walls)))]
                at = float(self.rng.random()) * 1.6 - 0.3  # the ends are tried more often
                stop = half + min(max(at, 0.0), 1.0) * (wall.length - of.width)
                yield _on(wall, stop), not 0.0 < at < 1.0
            return
        for wall in walls:
            count = math.ceil(max(wall.length - of.width, 1e-9) / step)
            for index in range(count):
                yield _on(wall, half + index * step), index == 0
            yield _on(wall, wall.length - half), True

    def fits(self, box: Box, *, tall: bool = False) -> bool:
        """Whether a box lies in the room, clear of doors, furniture and, when tall, windows."""
        left, top, right, bottom = self.bounds
        if box[0] < left - _SPARE or box[1] < top - _SPARE:
            return False
        if box[2] > right + _SPARE or box[3] > bottom + _SPARE:
            return False
        if any(_meet(box, other) for other in itertools.chain(self.clear, self.taken)):
            return False
        if tall and any(_meet(box, other) for other in self.glazed):
            return False
        return (len(self._points) == 4 and len(self.walls) == 4) or self._holds(box)

    def _holds(self, box: Box) -> bool:
        left, top, right, bottom = box
        for x, y in self._points:
            if left + _SPARE < x < right - _SPARE and top + _SPARE < y < bottom - _SPARE:
                return False
        pull = 0.002
        x, y = (left + right) / 2, (top + bottom) / 2
        return all(
            within(self._points, (px + (x - px) * pull, py + (y - py) * pull))
            for px in (left, right)
            for py in (top, bottom)
        )

    def put(self, of: Group, place: Place) -> None:
        """Place a group with the middle of its back at a point."""
        back, turn = place
        for kind, x, y, own in of.items:
            symbol = symbols()[kind]
            self.pieces.append(
                Piece(
                    kind=kind,
                    room=self.space.name,
                    centre=_moved(back, turn, x, y),
                    width=symbol.width,
                    depth=symbol.depth,
                    turn=(turn + own) % 360,
                )
            )
        self.taken.append(box_of(of, place))

    def against_wall(self, *choices: Group, corner: float = 0.0, near: str = "") -> bool:
        """Place the first group that finds a wall; ``corner`` above 0 draws it into corners."""
        for of in choices:
            best: Place | None = None
            best_score = -math.inf
            for place, in_corner in self.wall_places(of):
                box = box_of(of, place)
                if not self.fits(box, tall=of.tall):
                    continue
                score = float(self.rng.random()) + corner * in_corner
                if near == "window":
                    score += 2 * any(_meet(box, other) for other in self.glazed)
                if score > best_score:
                    best, best_score = place, score
            if best is not None:
                self.put(of, best)
                return True
        return False

    def in_middle(self, *choices: Group) -> bool:
        """Place the first group that fits, as near the middle of the free floor as can be."""
        left, top, right, bottom = self.bounds
        turns = (0.0, 90.0) if right - left >= bottom - top else (90.0, 0.0)
        for of in choices:
            best: Place | None = None
            best_off = math.inf
            for x, y in self._spots():
                off = math.hypot(x - (left + right) / 2, y - (top + bottom) / 2)
                for order, turn in enumerate(turns):
                    place = _centred(of, (x, y), turn)
                    if off + order * 0.5 < best_off and self.fits(box_of(of, place)):
                        best, best_off = place, off + order * 0.5
            if best is not None:
                self.put(of, best)
                return True
        return False

    def _spots(self) -> Iterable[Point]:
        left, top, right, bottom = self.bounds
        if self.tries is None:
            columns, rows = np.arange(left, right, 0.15), np.arange(top, bottom, 0.15)
            return [(float(x), float(y)) for x in columns for y in rows]
        shares = self.rng.random((self.tries, 2)) * 0.6 + 0.2
        return [
            (left + float(x) * (right - left), top + float(y) * (bottom - top)) for x, y in shares
        ]

    def rows(self, of: Group, *, turn: float, edge: Metres, most: int = 99) -> None:
        """Fill the floor with a group in even rows, so far from the walls."""
        low, high = np.array(self.bounds[:2]) + edge, np.array(self.bounds[2:]) - edge
        cell = np.array((of.width, of.depth) if turn % 180 == 0 else (of.depth, of.width))
        counts = np.floor((high - low) / cell).astype(int)
        if counts.min() < 1:
            return
        pitch = cell + np.minimum((high - low - counts * cell) / counts, 0.5)
        slack = high - low - counts * pitch
        shifts = (0.5, 0.2, 0.8, 0.0, 1.0) if self.tries is None else (0.5,)
        best: list[Place] = []
        for across, down in itertools.product(shifts, repeat=2):
            x, y = low + slack * (across, down) + pitch / 2
            places = [
                _centred(of, (float(x + pitch[0] * column), float(y + pitch[1] * line)), turn)
                for line in range(counts[1])
                for column in range(counts[0])
            ]
            free = [place for place in places if self.fits(box_of(of, place))]
            if len(free) > len(best):
                best = free
        for place in best[:most]:
            self.put(of, place)


def box_of(of: Group, place: Place) -> Box:
    """Return the floor that a group needs at a place."""
    back, turn = place
    x, y = _moved(back, turn, -of.width / 2, 0.0)
    other_x, other_y = _moved(back, turn, of.width / 2, of.depth)
    return min(x, other_x), min(y, other_y), max(x, other_x), max(y, other_y)


def _walls(points: tuple[Point, ...]) -> Iterator[Wall]:
    for (x, y), (nx, ny) in zip(points, (*points[1:], points[0]), strict=True):
        length = math.hypot(nx - x, ny - y)
        step = (nx - x) / length, (ny - y) / length
        if min(abs(step[0]), abs(step[1])) < _SPARE:
            turn = round(math.degrees(math.atan2(step[1], step[0]))) % 360
            yield Wall((x, y), _QUARTERS[turn], length, float(turn))


def _on(wall: Wall, stop: Metres) -> Place:
    x, y = wall.start
    return (x + wall.step[0] * stop, y + wall.step[1] * stop), wall.turn


def _centred(of: Group, middle: Point, turn: float) -> Place:
    return _moved(middle, turn, 0.0, -of.depth / 2), turn


def _moved(origin: Point, turn: float, x: float, y: float) -> Point:
    cosine, sine = _QUARTERS[round(turn) % 360]
    return (
        round(origin[0] + x * cosine - y * sine, 6),
        round(origin[1] + x * sine + y * cosine, 6),
    )


def _meet(one: Box, other: Box) -> bool:
    return (
        one[0] < other[2] - _SPARE
        and other[0] < one[2] - _SPARE
        and one[1] < other[3] - _SPARE
        and other[1] < one[3] - _SPARE
    )
