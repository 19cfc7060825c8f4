"""Small plans as a network might see them, drawn in the source; all sizes are in its pixels."""

import cv2
import numpy as np
import pytest

from estimator.plan.room import Room
from estimator.reading.frame import frame
from estimator.reading.picture import Picture
from estimator.reading.settings import Settings
from estimator.reading.sight.classes import (
    CLASSES,
    CONTENTS,
    CONTENTS_STEP,
    DEEPEST_PX,
    DOOR,
    ROOM,
    SWING,
    WALL,
    WINDOW,
)
from estimator.reading.sight.network import Sight
from estimator.reading.sight.rooms import rooms_seen

SETTINGS = Settings()


class Floor:
    """A sheet on which walls, rooms, openings and contents are marked for what they are."""

    def __init__(self, wide: int = 300, tall: int = 200) -> None:
        self.classes = np.zeros((tall, wide), np.uint8)
        self.contents = np.zeros((tall, wide), np.uint8)
        self.sure = np.ones((tall, wide), np.float32)

    def room(self, left: int, top: int, right: int, bottom: int, wall: int = 6) -> "Floor":
        around = self.classes[top - wall : bottom + wall, left - wall : right + wall]
        around[around != ROOM] = WALL
        self.classes[top:bottom, left:right] = ROOM
        return self

    def mark(self, shows: int, left: int, top: int, right: int, bottom: int) -> "Floor":
        self.classes[top:bottom, left:right] = shows
        return self

    def door(self, left: int, top: int, right: int, bottom: int, sure: float = 1.0) -> "Floor":
        self.sure[top:bottom, left:right] = sure
        return self.mark(DOOR, left, top, right, bottom)

    def window(self, left: int, top: int, right: int, bottom: int, sure: float = 1.0) -> "Floor":
        self.sure[top:bottom, left:right] = sure
        return self.mark(WINDOW, left, top, right, bottom)

    def holds(self, what: str, left: int, top: int, right: int, bottom: int) -> "Floor":
        self.contents[top:bottom, left:right] = CONTENTS.index(what)
        return self

    def turned(self, what: str, centre, size, degrees: float) -> "Floor":
        box = cv2.boxPoints((centre, size, degrees))
        cv2.fillPoly(self.contents, [np.rint(box).astype(int)], CONTENTS.index(what))
        return self

    def swept(self, hinge: tuple[int, int], radius: int, start: int, end: int) -> "Floor":
        """The sector a leaf sweeps; degrees turn from right to down."""
        cv2.ellipse(self.contents, hinge, (radius, radius), 0, start, end, SWING, -1)
        return self

    @property
    def seen(self) -> np.ndarray:
        """The number of the room at each pixel."""
        return cv2.connectedComponents((self.classes == ROOM).view(np.uint8), connectivity=4)[1]

    def sight(self) -> Sight:
        numbers = np.arange(len(CLASSES))[:, None, None]
        rest = (1 - self.sure) / (len(CLASSES) - 1)
        shares = np.where(self.classes == numbers, self.sure, rest).astype(np.float32)
        floor = (self.classes == ROOM).view(np.uint8)
        deep = cv2.distanceTransform(floor, cv2.DIST_L2, 3) / DEEPEST_PX
        tall, wide = (side // CONTENTS_STEP for side in floor.shape)
        contents = [
            cv2.resize((self.contents == what).view(np.uint8) * 1.0, (wide, tall), interpolation=3)
            for what in range(len(CONTENTS))
        ]
        return Sight(
            shares=shares,
            depth=np.minimum(deep, 1).astype(np.float32),
            classes=self.classes,
            contents=np.array(contents, np.float32),
        )

    def rooms(self) -> tuple[Room, ...]:
        """The rooms read from it."""
        blank = np.full((*self.classes.shape, 3), 255, np.uint8)
        framed = frame(Picture(pixels=blank), SETTINGS)
        return rooms_seen(self.seen, self.sight(), framed, SETTINGS).rooms


@pytest.fixture
def new_floor() -> type[Floor]:
    """A blank sheet of any size to mark."""
    return Floor


@pytest.fixture
def two_rooms() -> Floor:
    """Two rooms of 100 x 120 side by side, a wall of 6 between them."""
    return Floor().room(40, 40, 140, 160).room(146, 40, 246, 160)
