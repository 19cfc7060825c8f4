"""Rooms with their outlines, openings and furniture, from what the network sees."""

import math

import cv2
import numpy as np
from attrs import evolve, frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.plan.opening import OpeningKind
from estimator.plan.room import Basis, Room
from estimator.reading.arrays import Labels
from estimator.reading.frame import Frame
from estimator.reading.outlines import outline_of
from estimator.reading.placing import reading_order
from estimator.reading.settings import Settings
from estimator.reading.sight.blobs import Held
from estimator.reading.sight.classes import DOOR, ROOM, WALL, WINDOW
from estimator.reading.sight.furniture import furnished
from estimator.reading.sight.network import Sight
from estimator.reading.sight.openings import SeenOpening, openings_of, seen_openings
from estimator.reading.sight.regions import edges_of
from estimator.reading.sight.smoothing import beside_openings, smoothed
from estimator.reading.sight.walls import wall_thickness

# Thick walls, in which windows stand back, are so many times as thick as usual ones.
_REVEAL = 2.0


@frozen(kw_only=True, eq=False)
class Spaces:
    """The rooms of a picture at two sizes.

    Parameters
    ----------
    seen : int32, shape (h, w)
        Number of the room at each pixel the network answered for, from 1.
    drawn : int32, shape (H, W)
        The same for each pixel of the working picture.
    """

    seen: Labels
    drawn: Labels

    @property
    def zoom(self) -> tuple[float, float]:
        """Working pixels to one of the network's, across and down."""
        (tall, wide), (high, broad) = self.drawn.shape, self.seen.shape
        return wide / broad, tall / high


def brought_to(size: tuple[int, int], seen: Labels, sight: Sight) -> Spaces:
    """Bring rooms to a size (H, W); their edges lie where the network is in two minds."""
    tall, wide = size
    floor = cv2.resize(sight.shares[ROOM], (wide, tall), interpolation=cv2.INTER_LINEAR) > 0.5
    spread = cv2.dilate(seen.astype(np.float32), np.ones((3, 3), np.uint8))
    spread = np.where(seen > 0, seen, spread).astype(np.float32)
    drawn = cv2.resize(spread, (wide, tall), interpolation=cv2.INTER_NEAREST).astype(np.int32)
    return Spaces(seen=seen, drawn=np.where(floor, drawn, 0).astype(np.int32))


@frozen(kw_only=True)
class RoomsSeen:
    """The rooms of a picture, and the spaces too weakly seen to be rooms that nobody can enter."""

    rooms: tuple[Room, ...]
    shut: tuple[Room, ...]


def rooms_seen(seen: Labels, sight: Sight, framed: Frame, settings: Settings) -> RoomsSeen:
    """Return the rooms in reading order, in pixels of the picture as given."""
    wall_px = wall_thickness(sight)
    sure = _sureness(seen, sight)
    found = seen_openings(seen, sight, wall_px, settings)
    entered = {number for one in found if one.kind is not OpeningKind.WINDOW for number in one.ends}
    spaces = brought_to(framed.grey.shape, seen, sight)
    wall = wall_px * max(spaces.zoom)
    reveals = _reveals(found, seen, wall_px)
    near = beside_openings(sight, wall_px, framed.grey.shape)
    outlines = {}
    for number, (top, bottom, left, right) in _boxes(spaces).items():
        if sure[number] < settings.sure_least or number in reveals:
            continue
        box = slice(top, bottom), slice(left, right)
        face = smoothed(spaces.drawn[box], number, near[box], wall)
        outline = outline_of(face, wall, settings)
        if outline is not None:
            outlines[number] = _back(outline, left, top, framed)
    shut = {
        number
        for number in outlines
        if sure[number] < settings.shut_sure_least and number not in entered
    }
    order = [number for number in reading_order(outlines) if number not in shut]
    order += shut
    ids = {number: f"room-{place}" for place, number in enumerate(order, start=1)}
    leading_to = {number: room_id for number, room_id in ids.items() if number not in shut}
    held = Held.on_floors(seen, sight)
    rooms = []
    for place, number in enumerate(order, start=1):
        room = Room(
            id=ids[number],
            name=f"Room {place}",
            outline_px=outlines[number],
            confidence=float(sure[number]),
            basis=Basis.READ,
        )
        openings = openings_of(room, number, found, leading_to, spaces.zoom, framed)
        room = evolve(room, openings=openings)
        rooms.append(furnished(room, number, held, wall_px, spaces.zoom, framed))
    kept = len(rooms) - len(shut)
    return RoomsSeen(rooms=tuple(rooms[:kept]), shut=tuple(rooms[kept:]))


def _reveals(found: list[SeenOpening], seen: Labels, wall_px: float) -> set[int]:
    """Return the spaces that are but the depth of a thick wall behind a window."""
    floor = np.bincount(seen.ravel())
    return {
        number
        for one in found
        if one.kind is OpeningKind.WINDOW
        for number, (start, end) in one.ends.items()
        if floor[number] < _REVEAL * wall_px * math.dist(start, end)
    }


def _boxes(spaces: Spaces) -> dict[int, tuple[int, int, int, int]]:
    """Return top, bottom, left and right of each room that is drawn, in working pixels."""
    (tall, wide), (across, down) = spaces.drawn.shape, spaces.zoom
    boxes = {}
    for number in range(1, int(spaces.seen.max()) + 1):
        left, top, broad, high = cv2.boundingRect((spaces.seen == number).view(np.uint8))
        boxes[number] = (
            max(0, int((top - 1) * down)),
            min(tall, math.ceil((top + high + 1) * down)),
            max(0, int((left - 1) * across)),
            min(wide, math.ceil((left + broad + 1) * across)),
        )
    return boxes


def _back(outline: Polygon, left: int, top: int, framed: Frame) -> Polygon:
    """Return an outline in pixels of the picture as given."""
    corner = np.array([left, top])
    rings = [
        framed.back(np.array(ring.coords) + corner)
        for ring in (outline.exterior, *outline.interiors)
    ]
    return Polygon(rings[0], rings[1:])


def _sureness(seen: Labels, sight: Sight) -> NDArray[np.float64]:
    """Return how sure each room is, shape (N,): of its floor, and of what encloses it."""
    count = int(seen.max()) + 1
    area = np.bincount(seen.ravel(), minlength=count)
    floor = np.bincount(seen.ravel(), sight.shares[ROOM].ravel(), count) / np.maximum(area, 1)
    at, edge = edges_of(seen)
    firm = sum(sight.shares[number][at] for number in (WALL, DOOR, WINDOW))
    length = np.bincount(edge, minlength=count)
    enclosed = np.bincount(edge, firm, count) / np.maximum(length, 1)
    return np.clip(floor * enclosed, 0.0, 1.0)
