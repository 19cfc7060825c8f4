"""Lettering recognised in pixels, by models that lie in their package and need no network."""

import math
import threading
from functools import cache
from typing import Any, NamedTuple

import cv2
import numpy as np

from estimator.lettering.line import Line
from estimator.measures import Share
from estimator.reading.arrays import Pixels, Places

# Letters below about 12 pixels are read far better when the picture is enlarged first.
_SMALL_PICTURE = 1200
_MOST_ENLARGED = 2.5
# Lines are looked for at this size at most and read at that of the picture; larger is only slower.
_LOOKED_AT = 1408
_LARGEST_PICTURE = 3200
# Lone small labels on much paper look little like lettering.
_LEAST_LIKE_LETTERS = 0.3
# Where hardly any lines are found, more may be at this size.
_FEW_LINES = 5
_SECOND_LOOK = 960
_LEAST_SURE = 0.5
# A line read less surely is tried upside down too; lines up the page stand so half the time.
_SURE_LEVEL = 0.8
_SURE_UPRIGHT = 0.95
_LEAST_TRIED = 0.1
# A line is slanted when it is so much lower than the upright box around it.
_SLANTED = 0.75
# Channels, height and least width a line is read at, one by one: most are short, and those read
# together are all padded to the longest.
_NARROWEST_LINE = (3, 48, 64)

_lock = threading.Lock()


def recognised(pixels: Pixels) -> tuple[Line, ...]:
    """Return the lines of lettering seen in a picture, those that run up the page among them."""
    longest = max(pixels.shape[:2])
    zoom = min(_MOST_ENLARGED, max(1.0, _SMALL_PICTURE / longest))
    lines = _recognised(pixels, zoom)
    if len(lines) < _FEW_LINES and zoom * longest > _SECOND_LOOK:
        again = _recognised(pixels, _SECOND_LOOK / longest)
        return max(lines, again, key=lambda found: sum(len(line.text) for line in found))
    return lines


def _recognised(pixels: Pixels, zoom: float) -> tuple[Line, ...]:
    """Return the lines seen in a picture made larger or smaller."""
    image = np.asarray(cv2.cvtColor(pixels, cv2.COLOR_RGB2BGR), np.uint8)
    if zoom != 1:
        way = cv2.INTER_CUBIC if zoom > 1 else cv2.INTER_AREA
        image = np.asarray(cv2.resize(image, None, fx=zoom, fy=zoom, interpolation=way), np.uint8)
    with _lock:
        found = _engine()(image, use_det=True, use_cls=False)
        if found.boxes is None or found.txts is None:
            return ()
        seen = [
            _upright(image, np.asarray(corners, np.float32), _Seen(text, float(score)))
            for corners, text, score in zip(found.boxes, found.txts, found.scores, strict=True)
        ]
    return tuple(
        _line(np.asarray(corners, float) / zoom, each)
        for corners, each in zip(found.boxes, seen, strict=True)
        if each.score >= _LEAST_SURE and each.text.strip()
    )


def _line(corners: Places, seen: "_Seen") -> Line:
    (left, top), (right, bottom) = corners.min(axis=0), corners.max(axis=0)
    sides = math.dist(*corners[[0, 1]]), math.dist(*corners[[1, 2]])
    boxed = min(right - left, bottom - top)
    return Line(
        text=seen.text.strip(),
        box_px=(float(left), float(top), float(right), float(bottom)),
        is_vertical=_is_tall(corners) and len(seen.text.strip()) > 1,
        slanted_px=min(sides) if min(sides) < _SLANTED * boxed else None,
        confidence=min(1.0, seen.score),
    )


class _Seen(NamedTuple):
    """A line as it was read, and how sure that is."""

    text: str
    score: float


def _upright(image: Pixels, corners: Places, seen: _Seen) -> _Seen:
    """Return a line as it is read best: as it stood, or turned upside down.

    Lines up the page may run either way; others are turned only where they were hardly read.
    """
    if seen.score >= (_SURE_UPRIGHT if _is_tall(corners) else _SURE_LEVEL):
        return seen
    turned = _engine()(np.rot90(_cut_out(image, corners), 2), use_det=False, use_cls=False)
    if not turned.txts:
        return seen
    return max(seen, _Seen(turned.txts[0], float(turned.scores[0])), key=lambda each: each.score)


def _cut_out(image: Pixels, corners: Places) -> Pixels:
    """Return the quadrilateral of a line as a picture; one that runs up the page is laid down."""
    width = max(1, round(max(math.dist(*corners[[0, 1]]), math.dist(*corners[[2, 3]]))))
    height = max(1, round(max(math.dist(*corners[[1, 2]]), math.dist(*corners[[0, 3]]))))
    box = np.array([(0, 0), (width, 0), (width, height), (0, height)], np.float32)
    matrix = cv2.getPerspectiveTransform(np.asarray(corners, np.float32), box)
    cut = cv2.warpPerspective(
        image, matrix, (width, height), flags=cv2.INTER_CUBIC, borderMode=cv2.BORDER_REPLICATE
    )
    return np.asarray(np.rot90(cut) if _is_tall(corners) else cut, np.uint8)


def _is_tall(corners: Places) -> bool:
    """Tell whether a line of that quadrilateral runs up the page."""
    across, down = math.dist(*corners[[0, 1]]), math.dist(*corners[[1, 2]])
    return down >= 1.5 * across


def sureness(strip: Pixels) -> Share:
    """Return how surely one line of lettering is read as it stands, cut out of a picture."""
    image = np.ascontiguousarray(strip[..., ::-1])
    with _lock:
        found = _engine()(image, use_det=False, use_cls=False)
    return float(found.scores[0]) if found.scores else 0.0


@cache
def _engine() -> Any:
    """Return the recogniser; loading it takes half a second."""
    from rapidocr import RapidOCR  # kept out of the way of those who read no picture

    return RapidOCR(
        params={
            "Global.log_level": "error",
            "Global.max_side_len": _LARGEST_PICTURE,
            "Global.text_score": _LEAST_TRIED,
            "Det.limit_type": "max",
            "Det.limit_side_len": _LOOKED_AT,
            "Det.box_thresh": _LEAST_LIKE_LETTERS,
            "Rec.rec_img_shape": list(_NARROWEST_LINE),
            "Rec.rec_batch_num": 1,
        }
    )
