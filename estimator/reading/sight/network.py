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
from estimator.reading.sight.classes import (
    CLASSES,
    CONTENTS,
    CONTENTS_STEP,
    NOTHING,
    OUTSIDE,
    STRIDE,
)

WEIGHTS = Path(__file__).with_name("weights") / "reader.onnx"

# Paper around the drawing is left out but for a margin; a mark differs from it by this share of
# the picture's contrast.
MARGIN_PX = 24
MARK_LEAST = 0.16


@frozen(kw_only=True, eq=False)
class Sight:
    """The network's answer for a picture, at its own size.

    Parameters
    ----------
    shares : float32, shape (5, H, W)
        How far each pixel shows each class; the classes of a pixel sum to 1.
    depth : float32, shape (H, W)
        How deep a pixel lies inside a room, from 0 at its edge to 1 at ``DEEPEST_PX`` or deeper.
    classes : uint8, shape (H, W)
        Number of the class that each pixel shows most.
    contents : float32, shape (C, ceil(H / 2), ceil(W / 2))
        How far each square of two by two pixels holds each of ``CONTENTS``; the contents of a
        square sum to 1.
    """

    shares: NDArray[np.float32]
    depth: NDArray[np.float32]
    classes: Pixels
    contents: NDArray[np.float32]


def look(pixels: Pixels, side_px: int) -> Sight:
    """Show the network a picture, shape (H, W, 3), with its longer side brought to a size.

    Empty paper around the drawing is outside without being shown.
    """
    zoom = side_px / max(pixels.shape[:2])
    how = cv2.INTER_AREA if zoom < 1 else cv2.INTER_CUBIC
    wide, tall = (max(1, round(zoom * side)) for side in pixels.shape[1::-1])
    small = np.asarray(cv2.resize(pixels, (wide, tall), interpolation=how), np.uint8)
    rows, columns = _drawn_part(small)
    answer = np.zeros((len(CLASSES) + 1, tall, wide), np.float32)
    contents = np.zeros((len(CONTENTS), *map(_squares, (tall, wide))), np.float32)
    answer[OUTSIDE] = contents[NOTHING] = 1.0
    if small[rows, columns].size:
        answer[:, rows, columns], found = _answer(small[rows, columns])
        top, left = rows.start // CONTENTS_STEP, columns.start // CONTENTS_STEP
        contents[:, top : top + found.shape[1], left : left + found.shape[2]] = found
    shares = answer[:-1]
    return Sight(shares=shares, depth=answer[-1], classes=_most_shown(shares), contents=contents)


def _most_shown(shares: NDArray[np.float32]) -> Pixels:
    """Return the number of the class with the largest share at each pixel, the lowest of a tie.

    OpenCV takes a fraction of NumPy's time over the first axis.
    """
    most, largest = np.zeros(shares.shape[1:], np.uint8), shares[0]
    for number, share in enumerate(shares[1:], start=1):
        over = cv2.compare(share, largest, cv2.CMP_GT)
        most = np.maximum(most, np.minimum(over, np.uint8(number)))
        largest = np.maximum(largest, share)
    return most


def _squares(side_px: int) -> int:
    """Return how many squares of contents cover a side."""
    return -(-side_px // CONTENTS_STEP)


def _drawn_part(pixels: Pixels) -> tuple[slice, slice]:
    """Return the rows and columns that hold more than paper, with a margin.

    They begin where a square of contents does.
    """
    grey = cv2.cvtColor(pixels, cv2.COLOR_RGB2GRAY)
    darkest, paper, brightest = np.percentile(grey[::4, ::4], (1, 50, 99))
    least = MARK_LEAST * max(brightest - darkest, 1)
    marks = cv2.absdiff(grey, np.full_like(grey, paper)) > least
    left, top, wide, tall = cv2.boundingRect(marks.view(np.uint8))
    if not wide:
        return slice(0, 0), slice(0, 0)
    top, left = (
        max(0, start - MARGIN_PX) // CONTENTS_STEP * CONTENTS_STEP for start in (top, left)
    )
    return slice(top, top + tall + 2 * MARGIN_PX), slice(left, left + wide + 2 * MARGIN_PX)


def _answer(pixels: Pixels) -> tuple[NDArray[np.float32], NDArray[np.float32]]:
    """Return the network's answer for pixels of any size, (6, H, W), and the contents it sees."""
    tall, wide = pixels.shape[:2]
    padded = cv2.copyMakeBorder(pixels, 0, -tall % STRIDE, 0, -wide % STRIDE, cv2.BORDER_REPLICATE)
    batch = padded.transpose(2, 0, 1)[None].astype(np.float32) / 255
    answer, contents = _network().run(["answer", "contents"], {"pictures": batch})
    return (
        np.asarray(answer[0, :, :tall, :wide], np.float32),
        np.asarray(contents[0, :, : _squares(tall), : _squares(wide)], np.float32),
    )


@cache
def _network() -> onnxruntime.InferenceSession:
    options = onnxruntime.SessionOptions()
    options.intra_op_num_threads = 2
    return onnxruntime.InferenceSession(str(WEIGHTS), options, providers=["CPUExecutionProvider"])
