"""How well wall pixels are told, over the ink alone.

The measure is that of de las Heras et al. 2014 (*Statistical segmentation and structural
recognition for floor plan interpretation*): Jaccard index of wall pixels, here the mean over
pictures. Ink is what differs from
the usual floor by more than half as much as the ink of the true walls does.
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
    """Jaccard index of the wall ink of each picture, by the way that walls are drawn.

    Told apart is the index without the pixels along the walls' edges: the line along a wall is
    drawn half beyond its face, and no reader can be told off for either half.
    """

    whole: dict[str, list[float]] = field(factory=lambda: defaultdict(list))
    within: dict[str, list[float]] = field(factory=lambda: defaultdict(list))

    def add(self, reading: Reading, drawing: Drawing) -> None:
        """Score the ink of one picture."""
        seen, true = walls_seen(reading), drawing.labels == WALL
        grey = cv2.cvtColor(drawing.pixels, cv2.COLOR_RGB2GRAY).astype(np.int16)
        contrast = np.abs(grey - np.median(grey[drawing.labels == ROOM]))
        ink = contrast > np.quantile(contrast[true], 0.9) / 2
        edge = cv2.morphologyEx(true.view(np.uint8), cv2.MORPH_GRADIENT, np.ones((3, 3), np.uint8))
        self.whole[hand(drawing)].append(jaccard(seen & ink, true & ink))
        inner = ink & (edge == 0)
        self.within[hand(drawing)].append(jaccard(seen & inner, true & inner))

    def add_refused(self, drawing: Drawing) -> None:
        """Score a picture in which nothing was read."""
        self.whole[hand(drawing)].append(0.0)
        self.within[hand(drawing)].append(0.0)


def jaccard(one: NDArray[np.bool_], other: NDArray[np.bool_]) -> float:
    """Return what two masks share of what either covers."""
    return np.count_nonzero(one & other) / max(1, np.count_nonzero(one | other))
