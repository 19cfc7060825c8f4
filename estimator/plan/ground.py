"""What a storey is drawn on: its picture laid flat, in pixels, or squared paper, in metres.

Whoever draws works on the ground; each room takes from it what it remembers, in metres and in
pixels of its picture as given.
"""

import math
from collections.abc import Callable

import numpy as np
import shapely
from attrs import evolve, frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.measures import Metres, MetresPerPixel
from estimator.plan.furnishing import Furnishing
from estimator.plan.opening import Opening, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.sheet import Sheet
from estimator.plan.storey import Storey

Places = NDArray[np.float64]
Turn = tuple[float, float, float, float]

_AS_IT_IS: Turn = (1.0, 0.0, 0.0, 0.0)

USUAL_SIDE: Metres = 3.5
"""Rooms without a scale are taken to be this long and wide on average (common practice)."""

# Pixels and metres agree as they stand when middles of rooms lie this near, and so near a scale.
_NEAR: Metres = 0.05


@frozen(kw_only=True)
class Ground:
    """Where the rooms of a storey lie while they are drawn.

    Parameters
    ----------
    sheet
        How the sheet lies in the picture, where it was laid flat.
    on_picture
        Whether places are pixels of the flat picture, and not metres.
    turn
        The similarity from the ground to the plan in metres: a place (x, y) comes to
        (a·x - b·y + c, b·x + a·y + d). None while the picture has no scale.
    guessed
        Metres to one unit of the ground where nothing tells: a guess to judge sizes by.
    """

    sheet: Sheet | None = None
    on_picture: bool = False
    turn: Turn | None = _AS_IT_IS
    guessed: MetresPerPixel = 1.0

    @property
    def metres_per_unit(self) -> float | None:
        """Metres to one unit of the ground; None while nobody knows."""
        return math.hypot(*self.turn[:2]) if self.turn else None

    def units(self, length: Metres) -> float:
        """Return a length in units of the ground, by its scale or by a guess."""
        return length / (self.metres_per_unit or self.guessed)

    def outline(self, room: Room) -> Polygon | None:
        """Return a room's outline on the ground; None when it is not on the picture."""
        return self._shape(room.outline, room.outline_px)

    def footprint(self, piece: Furnishing) -> Polygon | None:
        """Return where a piece of furniture stands on the ground; None when nobody said."""
        return self._shape(piece.footprint, piece.footprint_px)

    def ends(self, opening: Opening) -> tuple[Point, Point] | None:
        """Return the jambs of an opening on the ground; None when it has no place there."""
        start = self._place(opening.start, opening.start_px)
        end = self._place(opening.end, opening.end_px)
        return (start, end) if start and end else None

    def with_outline(self, room: Room, outline: Polygon) -> Room:
        """Return the room with that outline on the ground."""
        return evolve(room, outline=self._metres(outline), outline_px=self._pixels(outline))

    def with_footprint(self, piece: Furnishing, footprint: Polygon) -> Furnishing:
        """Return the piece of furniture standing there."""
        return evolve(
            piece, footprint=self._metres(footprint), footprint_px=self._pixels(footprint)
        )

    def with_ends(self, opening: Opening, start: Point, end: Point) -> Opening:
        """Return the opening with its jambs at two places of the ground."""
        return evolve(
            opening,
            start=_carried(start, self._to_metres) if self.turn else None,
            end=_carried(end, self._to_metres) if self.turn else None,
            start_px=self.given(start) if self.on_picture else None,
            end_px=self.given(end) if self.on_picture else None,
        )

    def given(self, place: Point) -> Point:
        """Return a place of the ground in pixels of the picture as given."""
        return _carried(place, self.sheet.in_picture) if self.sheet else place

    def _shape(self, metres: Polygon | None, pixels: Polygon | None) -> Polygon | None:
        if not self.on_picture:
            return metres
        if pixels is not None:
            return shapely.transform(pixels, self.sheet.flat) if self.sheet else pixels
        return shapely.transform(metres, self._to_ground) if metres and self.turn else None

    def _place(self, metres: Point | None, pixels: Point | None) -> Point | None:
        if not self.on_picture:
            return metres
        if pixels is not None:
            return _carried(pixels, self.sheet.flat) if self.sheet else pixels
        return _carried(metres, self._to_ground) if metres and self.turn else None

    def _metres(self, shape: Polygon) -> Polygon | None:
        return shapely.transform(shape, self._to_metres) if self.turn else None

    def _pixels(self, shape: Polygon) -> Polygon | None:
        if not self.on_picture:
            return None
        return shapely.transform(shape, self.sheet.in_picture) if self.sheet else shape

    def _to_metres(self, places: Places) -> Places:
        a, b, c, d = self.turn or _AS_IT_IS
        return np.asarray(places @ np.array([[a, b], [-b, a]]) + (c, d))

    def _to_ground(self, places: Places) -> Places:
        a, b, c, d = self.turn or _AS_IT_IS
        return np.asarray((places - (c, d)) @ np.array([[a, -b], [b, a]]) / (a * a + b * b))


def ground_of(plan: Plan, storey: int) -> Ground:
    """Return what a storey of the plan is drawn on."""
    level = plan.storey(storey)
    rooms = [room for room in plan.rooms if room.storey == storey]
    if level.source is None and all(room.outline_px is None for room in rooms):
        return Ground()
    ground = Ground(sheet=level.sheet, on_picture=True, turn=None)
    outlines = [outline for room in rooms if (outline := ground.outline(room))]
    return evolve(ground, turn=_turn(ground, level, rooms), guessed=_guess(outlines, level))


def _guess(outlines: list[Polygon], level: Storey) -> float:
    if outlines:
        sides = sorted(outline.area**0.5 for outline in outlines)
        return USUAL_SIDE / float(sides[len(sides) // 2])
    width = level.source.width_px if level.source else 1000
    return 4 * USUAL_SIDE / width


def _turn(ground: Ground, level: Storey, rooms: list[Room]) -> Turn | None:
    """Return the similarity from pixels to metres: the scale alone where that fits the rooms."""
    pairs = [
        (room.outline.centroid, drawn.centroid)
        for room in rooms
        if room.outline and room.outline_px and (drawn := ground.outline(room))
    ]
    scale = level.scale.metres_per_px if level.scale else None
    if not pairs:
        return (scale, 0.0, 0.0, 0.0) if scale else None
    metres = np.array([[middle.x, middle.y] for middle, _ in pairs])
    flat = np.array([[middle.x, middle.y] for _, middle in pairs])
    if scale and np.median(np.linalg.norm(scale * flat - metres, axis=1)) <= _NEAR:
        return scale, 0.0, 0.0, 0.0
    return _similarity(flat, metres, scale)


def _similarity(flat: Places, metres: Places, scale: float | None) -> Turn | None:
    """Return the similarity that brings middles of rooms in pixels nearest to those in metres."""
    middle, aim = flat.mean(axis=0), metres.mean(axis=0)
    x, y = (flat - middle).T
    u, v = (metres - aim).T
    spread = float((x * x + y * y).sum())
    if spread > 0:
        a, b = float((x * u + y * v).sum()) / spread, float((x * v - y * u).sum()) / spread
    elif scale is not None:
        a, b = scale, 0.0
    else:
        return None
    return (
        a,
        b,
        float(aim[0] - a * middle[0] + b * middle[1]),
        float(aim[1] - b * middle[0] - a * middle[1]),
    )


def _carried(place: Point, carry: Callable[[Places], Places]) -> Point:
    ((x, y),) = carry(np.array([place], np.float64)).tolist()
    return x, y
