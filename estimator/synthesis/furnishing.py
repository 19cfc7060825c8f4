"""Furnishes a layout: each room gets what its use calls for, against walls and clear of doors.

Rooms are taken as drawn along the axes; furniture goes along level and upright walls only.
"""

import itertools
from collections.abc import Callable, Iterable

import attrs
import numpy as np
from attrs import field, frozen

from estimator.measures import Metres, SquareMetres
from estimator.plan.opening import OpeningKind
from estimator.synthesis.layouts import Layout, Piece, Ring, Space, area
from estimator.synthesis.symbols import symbols

Box = tuple[float, float, float, float]
Item = tuple[str, float, float, float]
"""Kind, place along the wall from the group's middle, place from the wall, turn in degrees."""


@frozen(kw_only=True)
class Group:
    """Pieces that belong together, with the room they need before a wall: width and depth."""

    items: tuple[Item, ...]
    width: Metres
    depth: Metres
    tall: bool = False


def group(
    items: Iterable[Item], *, spare: Metres = 0.0, front: Metres = 0.0, tall: bool = False
) -> Group:
    """Return a group that needs the room its items cover, and so much more aside and in front."""
    items = tuple(items)
    reach, depth = 0.0, 0.0
    for kind, x, y, turn in items:
        symbol = symbols()[kind]
        wide, deep = (
            (symbol.width, symbol.depth) if turn % 180 == 0 else (symbol.depth, symbol.width)
        )
        reach, depth = max(reach, abs(x) + wide / 2), max(depth, y + deep / 2)
    return Group(items=items, width=2 * (reach + spare), depth=depth + front, tall=tall)


def one(kind: str, *, front: Metres = 0.0, tall: bool = False) -> Group:
    """Return one piece with its back at the wall."""
    return group([(kind, 0.0, symbols()[kind].depth / 2, 0)], front=front, tall=tall)


def row(kinds: Iterable[str], *, front: Metres = 0.6, tall: bool = False) -> Group:
    """Return pieces side by side along a wall."""
    kinds = tuple(kinds)
    total = sum(symbols()[kind].width for kind in kinds)
    items, x = [], -total / 2
    for kind in kinds:
        symbol = symbols()[kind]
        items.append((kind, x + symbol.width / 2, symbol.depth / 2, 0.0))
        x += symbol.width
    return group(items, front=front, tall=tall)


def table(kind: str, chair: str, *, sides: int, ends: bool = False, clear: Metres = 0.35) -> Group:
    """Return a table with so many chairs along each side, standing free."""
    symbol, seat = symbols()[kind], symbols()[chair]
    tuck = seat.depth / 2 - 0.14
    middle = clear + 2 * tuck + symbol.depth / 2
    items: list[Item] = []
    for index in range(sides):
        x = ((index + 0.5) / sides - 0.5) * symbol.width * 0.94
        items += [
            (chair, x, middle - symbol.depth / 2 - tuck, 0.0),
            (chair, x, middle + symbol.depth / 2 + tuck, 180.0),
        ]
    if ends:
        x = symbol.width / 2 + tuck
        items += [(chair, -x, middle, -90.0), (chair, x, middle, 90.0)]
    return group([*items, (kind, 0.0, middle, 0.0)], spare=clear, front=clear)


@frozen
class Floor:
    """A room being furnished: its inside faces, boxes kept clear and boxes before windows."""

    space: Space
    ring: Ring
    rng: np.random.Generator
    clear: tuple[Box, ...]
    glazed: tuple[Box, ...]
    pieces: list[Piece] = field(factory=list)
    taken: list[Box] = field(factory=list)

    @property
    def size(self) -> SquareMetres:
        """Area of the floor."""
        return area(self.ring)

    def wall_places(self, of: Group, step: Metres = 0.1) -> Iterable[tuple[Ring, float, bool]]:
        """Yield where the group could stand: middle of its back, turn, whether in a corner."""
        for start, end in zip(self.ring, np.roll(self.ring, -1, axis=0), strict=True):
            length = float(np.linalg.norm(end - start))
            along = (end - start) / length
            if length < of.width or min(abs(along)) > 1e-6:
                continue
            turn = float(np.degrees(np.arctan2(along[1], along[0])))
            stops = np.append(
                np.arange(of.width / 2, length - of.width / 2, step), length - of.width / 2
            )
            for index, stop in enumerate(stops):
                yield start + along * stop, turn, index in (0, len(stops) - 1)

    def fits(self, box: Box, *, tall: bool = False) -> bool:
        """Whether a box lies in the room, clear of doors, furniture and, when tall, windows."""
        if any(_meet(box, other) for other in (*self.clear, *self.taken)):
            return False
        return not (tall and any(_meet(box, other) for other in self.glazed)) and self._holds(box)

    def _holds(self, box: Box) -> bool:
        left, top, right, bottom = box
        spare = 1e-6
        x, y = self.ring[:, 0], self.ring[:, 1]
        inside = (x > left + spare) & (x < right - spare) & (y > top + spare) & (y < bottom - spare)
        if inside.any():
            return False
        corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
        middle = np.array([(left + right) / 2, (top + bottom) / 2])
        return all(within(self.ring, np.array(c) + (middle - c) * 0.002) for c in corners)

    def put(self, of: Group, back: Ring, turn: float) -> None:
        """Place a group with the middle of its back at a point."""
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
        self.taken.append(box_of(of, back, turn))

    def against_wall(self, *choices: Group, corner: float = 0.0, near: str = "") -> bool:
        """Place the first group that finds a wall; ``corner`` above 0 draws it into corners."""
        for of in choices:
            best, best_score = None, -np.inf
            for back, turn, in_corner in self.wall_places(of):
                if not self.fits(box_of(of, back, turn), tall=of.tall):
                    continue
                score = self.rng.random() + corner * in_corner
                if near == "window":
                    score += 2 * any(_meet(box_of(of, back, turn), box) for box in self.glazed)
                if score > best_score:
                    best, best_score = (back, turn), score
            if best is not None:
                self.put(of, *best)
                return True
        return False

    def in_middle(self, *choices: Group) -> bool:
        """Place the first group that fits, as near the middle of the free floor as can be."""
        (left, top), (right, bottom) = self.ring.min(axis=0), self.ring.max(axis=0)
        middle = np.array([(left + right) / 2, (top + bottom) / 2])
        for of in choices:
            turns = (0.0, 90.0) if right - left >= bottom - top else (90.0, 0.0)
            found = []
            for order, turn in enumerate(turns):
                back = -np.array(_moved(np.zeros(2), turn, 0, of.depth / 2))
                for x in np.arange(left, right, 0.15):
                    for y in np.arange(top, bottom, 0.15):
                        box = box_of(of, back + np.array((x, y)), turn)
                        if self.fits(box):
                            off = float(np.hypot(x - middle[0], y - middle[1]))
                            found.append((off + order * 0.5, (back + np.array((x, y)), turn)))
            if found:
                self.put(of, *min(found, key=lambda one: one[0])[1])
                return True
        return False

    def rows(self, of: Group, *, turn: float, edge: Metres, most: int = 99) -> None:
        """Fill the floor with a group in even rows, so far from the walls."""
        low, high = self.ring.min(axis=0) + edge, self.ring.max(axis=0) - edge
        cell = np.array((of.width, of.depth) if turn % 180 == 0 else (of.depth, of.width))
        counts = np.floor((high - low) / cell).astype(int)
        if counts.min() < 1:
            return
        back = -np.array(_moved(np.zeros(2), turn, 0, of.depth / 2))
        pitch = cell + np.minimum((high - low - counts * cell) / counts, 0.5)
        slack = high - low - counts * pitch
        best: list[Ring] = []
        for across, down in itertools.product((0.5, 0.2, 0.8, 0.0, 1.0), repeat=2):
            start = low + slack * (across, down) + pitch / 2
            places = [
                start + pitch * (column, line)
                for line in range(counts[1])
                for column in range(counts[0])
            ]
            free = [place for place in places if self.fits(box_of(of, back + place, turn))]
            if len(free) > len(best):
                best = free
        for place in best[:most]:
            self.put(of, back + place, turn)


def furnished(layout: Layout, seed: int, recipes: "dict[str, Recipe]") -> Layout:
    """Return the layout with every room furnished by the recipe for its use."""
    rng = np.random.default_rng(seed)
    pieces: list[Piece] = list(layout.pieces)
    for space in layout.spaces:
        recipe = recipes.get(space.use)
        if recipe is None or not space.is_room:
            continue
        floor = Floor(space, layout.inside(space), rng, *kept_clear(layout, space))
        recipe(floor)
        pieces += floor.pieces
    return attrs.evolve(layout, pieces=tuple(pieces))


Recipe = Callable[[Floor], None]


def kept_clear(layout: Layout, space: Space) -> tuple[tuple[Box, ...], tuple[Box, ...]]:
    """Return the floor before a room's doors and passages, and that before its windows."""
    doors: list[Box] = []
    windows: list[Box] = []
    for gap in layout.gaps:
        if space.name not in (gap.room, gap.other):
            continue
        side = 1 if gap.room == space.name else -1
        depth = 0.3 if gap.kind is OpeningKind.WINDOW else max(0.8, min(gap.width, 1.1))
        reach = side * ((gap.front if side > 0 else gap.back) + depth)
        ends = np.array([gap.place(0, 0), gap.place(gap.width, 0), gap.place(0, reach)])
        (left, top), (right, bottom) = ends.min(axis=0), ends.max(axis=0)
        (windows if gap.kind is OpeningKind.WINDOW else doors).append((left, top, right, bottom))
    return tuple(doors), tuple(windows)


def _moved(origin: Ring, turn: float, x: float, y: float) -> tuple[float, float]:
    cosine, sine = np.cos(np.radians(turn)), np.sin(np.radians(turn))
    return (
        round(float(origin[0] + x * cosine - y * sine), 6),
        round(float(origin[1] + x * sine + y * cosine), 6),
    )


def box_of(of: Group, back: Ring, turn: float) -> Box:
    """Return the floor a group needs when the middle of its back stands at a point."""
    ends = [_moved(back, turn, x, y) for x in (-of.width / 2, of.width / 2) for y in (0, of.depth)]
    (left, top), (right, bottom) = np.min(ends, axis=0), np.max(ends, axis=0)
    return float(left), float(top), float(right), float(bottom)


def _meet(one: Box, other: Box) -> bool:
    spare = 1e-6
    return (
        one[0] < other[2] - spare
        and other[0] < one[2] - spare
        and one[1] < other[3] - spare
        and other[1] < one[3] - spare
    )


def within(ring: Ring, point: Ring) -> bool:
    """Whether a point lies in a ring, by the parity of crossings to its right."""
    x, y = ring[:, 0], ring[:, 1]
    nx, ny = np.roll(x, -1), np.roll(y, -1)
    cut = (y > point[1]) != (ny > point[1])
    at = x[cut] + (point[1] - y[cut]) / (ny[cut] - y[cut]) * (nx[cut] - x[cut])
    return bool(np.count_nonzero(at > point[0]) % 2)
