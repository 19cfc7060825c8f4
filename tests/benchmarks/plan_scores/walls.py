"""How well wall pixels are told, over the ink alone.

The measure is that of de las Heras et al. 2014 (*Statistical segmentation and structural
recognition for floor plan interpretation*): Jaccard index of wall pixels, here the mean over
pictures. Ink is what differs from the usual floor by more than half as much as the ink of the true
walls does. The line along a wall is drawn half beyond its face; those who label walls by hand count
all of it, and so does this: ink that touches a wall is its own, of the true walls as of those seen.
Told apart is the stricter index of what lies between the faces alone.
"""

from collections import defaultdict

import cv2
import numpy as np
from attrs import define, field
from numpy.typing import NDArray

from estimator.reading.read import Reading
from estimator.reading.sight.classes import OUTSIDE, ROOM, WALL
from estimator.synthesis.drawn import Drawing

HANDS = {
    "thick black": ("black", "dark"),
    "textured": ("hatched", "cross-hatched", "barred"),
    "parallel lines": ("hollow", "coloured outline"),
}
_AROUND = np.ones((3, 3), np.uint8)
OTHER = "grey, coloured, fine, mixed"


def hand(drawing: Drawing) -> str:
    """Return the way a drawing's walls are drawn."""
    walls = drawing.style.split(", ")[0]
    return next((name for name, manners in HANDS.items() if walls in manners), OTHER)


def walls_seen(reading: Reading) -> NDArray[np.bool_]:
    """Return the network's walls, brought to the picture as given."""
    sight, framed = reading.sight, reading.frame
    (tall, wide), (high, broad) = framed.grey.shape, sight.classes.shape
    to_edges = np.array([[1, 0, 0.5], [0, 1, 0.5], [0, 0, 1]])  # OpenCV counts from centres
    zoom = np.diag([wide / broad, tall / high, 1.0])
    to_picture = np.linalg.inv(to_edges) @ framed.to_picture @ zoom @ to_edges
    size = reading.picture.width_px, reading.picture.height_px
    shares = [
        cv2.warpPerspective(share, to_picture, size, borderValue=float(number == OUTSIDE))
        for number, share in enumerate(sight.shares)
    ]
    return np.asarray(np.argmax(shares, axis=0) == WALL)


@define
class Walls:
    """Jaccard index of the wall ink of each picture, by the way that walls are drawn."""

    whole: dict[str, list[float]] = field(factory=lambda: defaultdict(list))
    by_faces: dict[str, list[float]] = field(factory=lambda: defaultdict(list))

    def add(self, reading: Reading, drawing: Drawing) -> None:
        """Score the ink of one picture."""
        seen, true = walls_seen(reading), drawing.labels == WALL
        grey = cv2.cvtColor(drawing.pixels, cv2.COLOR_RGB2GRAY).astype(np.int16)
        contrast = np.abs(grey - np.median(grey[drawing.labels == ROOM]))
        ink = contrast > np.quantile(contrast[true], 0.9) / 2
        touching = (cv2.dilate(walls.view(np.uint8), _AROUND) > 0 for walls in (seen, true))
        self.whole[hand(drawing)].append(jaccard(*(walls & ink for walls in touching)))
        self.by_faces[hand(drawing)].append(jaccard(seen & ink, true & ink))

    def add_refused(self, drawing: Drawing) -> None:
        """Score a picture in which nothing was read."""
        self.whole[hand(drawing)].append(0.0)
        self.by_faces[hand(drawing)].append(0.0)


def jaccard(one: NDArray[np.bool_], other: NDArray[np.bool_]) -> float:
    """Return what two masks share of what either covers."""
    return np.count_nonzero(one & other) / max(1, np.count_nonzero(one | other))
