"""Lettering recognised in pixels, by models that lie in their package and need no network."""

import math
import threading
from functools import cache
from typing import Any

import cv2
import numpy as np

from estimator.lettering.line import Line
from estimator.reading.arrays import Pixels

# Letters below about 12 pixels are read far better when the picture is enlarged first.
_SMALL_PICTURE = 1200
_MOST_ENLARGED = 2.5
# Lines are looked for at this size at most and read at that of the picture; larger is only slower.
_LOOKED_AT = 1408
_LARGEST_PICTURE = 3200
_LEAST_SURE = 0.5
# Channels, height and least width a line is read at, one by one: most are short, and those read
# together are all padded to the longest.
_NARROWEST_LINE = (3, 48, 64)

_lock = threading.Lock()


def recognised(pixels: Pixels) -> tuple[Line, ...]:
    """Return the lines of lettering seen in a picture, those that run up the page among them."""
    height, width = pixels.shape[:2]
    zoom = min(_MOST_ENLARGED, max(1.0, _SMALL_PICTURE / max(height, width)))
    image = cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR)
    if zoom > 1:
        image = cv2.resize(image, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_CUBIC)
    with _lock:
        found = _engine()(image)
    if found.boxes is None or found.txts is None:
        return ()
    lines = []
    for corners, text, score in zip(found.boxes, found.txts, found.scores, strict=True):
        places = np.asarray(corners, float) / zoom
        (left, top), (right, bottom) = places.min(axis=0), places.max(axis=0)
        lines.append(
            Line(
                text=text.strip(),
                box_px=(float(left), float(top), float(right), float(bottom)),
                is_vertical=_is_vertical(places, text),
                confidence=min(1.0, float(score)),
            )
        )
    return tuple(lines)


def _is_vertical(places: "np.ndarray[Any, np.dtype[np.float64]]", text: str) -> bool:
    """Tell whether a line of that quadrilateral runs up the page; a single letter never does."""
    across = math.dist(places[0], places[1])
    down = math.dist(places[1], places[2])
    return down >= 1.5 * across and len(text) > 1


@cache
def _engine() -> Any:
    """Return the recogniser; loading it takes half a second."""
    from rapidocr import RapidOCR  # kept out of the way of those who read no picture

    return RapidOCR(
        params={
            "Global.log_level": "error",
            "Global.max_side_len": _LARGEST_PICTURE,
            "Global.text_score": _LEAST_SURE,
            "Det.limit_type": "max",
            "Det.limit_side_len": _LOOKED_AT,
            "Rec.rec_img_shape": list(_NARROWEST_LINE),
            "Rec.rec_batch_num": 1,
        }
    )
