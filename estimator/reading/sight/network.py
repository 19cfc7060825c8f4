"""What the reading network sees in a picture, pixel by pixel.

The network and its training are described in the model card beside its weights.
"""

from functools import cache
from pathlib import Path

import cv2
import numpy as np
import onnxruntime
from attrs import frozen
from numpy.typing import NDArray

from estimator.reading.arrays import Pixels

WEIGHTS = Path(__file__).with_name("weights") / "reader.onnx"

CLASSES = ("outside", "wall", "door", "window", "room")
WALL, DOOR, WINDOW, ROOM = range(1, len(CLASSES))

# Sides of the pictures it takes are multiples of this.
STRIDE = 32

# How deep inside a room is told up to this many pixels from its edge.
DEEPEST_PX = 24.0


@frozen(kw_only=True, eq=False)
class Sight:
    """The network's answer for a picture, at its own size.

    Parameters
    ----------
    shares : float32, shape (5, H, W)
        How far each pixel shows each class; the classes of a pixel sum to 1.
    depth : float32, shape (H, W)
        How deep a pixel lies inside a room, from 0 at its edge to 1 at ``DEEPEST_PX`` or deeper.
    """

    shares: NDArray[np.float32]
    depth: NDArray[np.float32]

    @property
    def classes(self) -> NDArray[np.int64]:
        """Number of the class that each pixel shows most, shape (H, W)."""
        return np.asarray(self.shares.argmax(axis=0))


def look(pixels: Pixels, side_px: int) -> Sight:
    """Show the network a picture, shape (H, W, 3), with its longer side brought to a size."""
    zoom = side_px / max(pixels.shape[:2])
    how = cv2.INTER_AREA if zoom < 1 else cv2.INTER_CUBIC
    wide, tall = (max(1, round(zoom * side)) for side in pixels.shape[1::-1])
    small = cv2.resize(pixels, (wide, tall), interpolation=how)
    padded = cv2.copyMakeBorder(small, 0, -tall % STRIDE, 0, -wide % STRIDE, cv2.BORDER_REPLICATE)
    batch = padded.transpose(2, 0, 1)[None].astype(np.float32) / 255
    answer = _network().run(None, {"pictures": batch})[0][0, :, :tall, :wide]
    return Sight(shares=answer[:-1], depth=answer[-1])


@cache
def _network() -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 2
    return onnxruntime.InferenceSession(str(WEIGHTS), options, providers=["CPUExecutionProvider"])
