"""How well wall pixels are told, over the ink alone.

The measure is that of de las Heras et al. 2014 (*Statistical segmentation and structural
recognition for floor plan interpretation*): Jaccard index of wall pixels, here the mean over
pictures. Ink is what differs from the usual floor by more than half as much as the ink of the true
walls does. The line along a wall is drawn half beyond its face; those who label walls by hand count
all of it, and so does this: ink is a wall's own as far beyond a face as half of the broadest line
and its soft edge reach, of the true walls as of those seen. Told apart is the stricter index of
what lies between the faces alone. Published sheets lay flat under a scanner; photographs and
sketches are counted apart.
"""

from collections import defaultdict

import cv2
import numpy as np
from attrs import define, field
from numpy.typing import NDArray

from estimator.reading.read import Reading
from estimator.reading.sight.classes import OUTSIDE, ROOM, WALL
from estimator.synthesis.drawn import FAMILIES, Drawing

HANDS = {
    "thick black": ("black", "dark"),
    "textured": ("hatched", "cross-hatched", "barred"),
    "parallel lines": ("hollow", "coloured outline"),
}
# Lines along walls are up to 2 pixels wide: half of that and a soft edge reach so far.
_BEYOND_PX = 2
_AROUND = np.ones((2 * _BEYOND_PX + 1,) * 2, np.uint8)
FLAT, BY_EYE = "flat", "photographed or sketched"
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
    """Jaccard index of the wall ink of each picture, by how walls are drawn and the sheet lies."""

    whole: dict[tuple[str, str], list[float]] = field(factory=lambda: defaultdict(list))
    by_faces: dict[tuple[str, str], list[float]] = field(factory=lambda: defaultdict(list))

    def add(self, reading: Reading, drawing: Drawing) -> None:
        """Score the ink of one picture."""
        seen, true = walls_seen(reading), drawing.labels == WALL
        grey = cv2.cvtColor(drawing.pixels, cv2.COLOR_RGB2GRAY).astype(np.int16)
        contrast = np.abs(grey - np.median(grey[drawing.labels == ROOM]))
        ink = contrast > np.quantile(contrast[true], 0.9) / 2
        touching = (cv2.dilate(walls.view(np.uint8), _AROUND) > 0 for walls in (seen, true))
        self.whole[_kind(drawing)].append(jaccard(*(walls & ink for walls in touching)))
        self.by_faces[_kind(drawing)].append(jaccard(seen & ink, true & ink))

    def add_refused(self, drawing: Drawing) -> None:
        """Score a picture in which nothing was read."""
        self.whole[_kind(drawing)].append(0.0)
        self.by_faces[_kind(drawing)].append(0.0)


def _kind(drawing: Drawing) -> tuple[str, str]:
    return hand(drawing), BY_EYE if drawing.family == FAMILIES[-1] else FLAT


def jaccard(one: NDArray[np.bool_], other: NDArray[np.bool_]) -> float:
    """Return what two masks share of what either covers."""
    return np.count_nonzero(one & other) / max(1, np.count_nonzero(one | other))
