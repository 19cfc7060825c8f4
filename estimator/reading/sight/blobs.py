"""Connected blobs of what a floor is seen to hold, room by room.

Contents are told for squares of two by two pixels; a blob is made of squares of one room.
"""

from collections.abc import Iterator

import cv2
import numpy as np
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.arrays import Labels, Mask, Pixels
from estimator.reading.sight.classes import CONTENTS_STEP, NOTHING, PASSAGE, SWING
from estimator.reading.sight.network import Sight


@frozen(kw_only=True, eq=False)
class Blob:
    """One connected blob of contents.

    Parameters
    ----------
    what
        Number of the contents.
    squares : bool, shape (h, w)
        Its squares in the box around it.
    left, top
        Where that box begins, in squares.
    share
        How far its squares show what it is, on average.
    beside
        Numbers of the contents it touches.
    """

    what: int
    squares: Mask
    left: int
    top: int
    share: float
    beside: frozenset[int]

    @property
    def area(self) -> int:
        """How many squares it has."""
        return int(np.count_nonzero(self.squares))


@frozen(kw_only=True, eq=False)
class Held:
    """What the floors of all rooms are seen to hold.

    Parameters
    ----------
    what : uint8, shape (h, w)
        Number of the contents that each square shows most.
    rooms : int32, shape (h, w)
        Number of the room it lies in.
    shares : float32, shape (C, h, w)
        How far it shows each of the contents.
    """

    what: Pixels
    rooms: Labels
    shares: NDArray[np.float32]

    @classmethod
    def on_floors(cls, seen: Labels, sight: Sight) -> "Held":
        """Return what is held where rooms were seen."""
        rooms = np.ascontiguousarray(seen[::CONTENTS_STEP, ::CONTENTS_STEP])
        what = np.zeros(rooms.shape, np.uint8)
        full = (rooms > 0) & (sight.contents[NOTHING] < 0.5)
        what[full] = sight.contents[:, full].argmax(axis=0)
        what[(what == SWING) | (what == PASSAGE)] = NOTHING
        return cls(what=what, rooms=rooms, shares=sight.contents)

    def floor(self, number: int) -> int:
        """Return how many squares a room has."""
        return int(np.count_nonzero(self.rooms == number))

    def blobs(self, number: int) -> Iterator[Blob]:
        """Yield the blobs in a room."""
        room = self.rooms == number
        across, down, wide, tall = cv2.boundingRect((room & (self.what > 0)).view(np.uint8))
        box = slice(down, down + tall), slice(across, across + wide)
        here = np.where(room[box], self.what[box], NOTHING)
        shares = self.shares[:, *box]
        for what in np.unique(here[here > 0]).tolist():
            count, label, stats, _ = cv2.connectedComponentsWithStats((here == what).view(np.uint8))
            for one in range(1, count):
                left, top, wide, tall, _ = stats[one].tolist()
                cut = slice(top, top + tall), slice(left, left + wide)
                squares = label[cut] == one
                about = (
                    slice(max(0, top - 1), top + tall + 1),
                    slice(max(0, left - 1), left + wide + 1),
                )
                near = cv2.dilate((label[about] == one).view(np.uint8), np.ones((3, 3), np.uint8))
                yield Blob(
                    what=what,
                    squares=squares,
                    left=across + left,
                    top=down + top,
                    share=float(shares[what, *cut][squares].mean()),
                    beside=frozenset(np.unique(here[about][near > 0]).tolist()) - {what},
                )
