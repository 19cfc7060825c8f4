"""Letters as masks, in the open fonts that come inside Pillow and reportlab.

``plain`` is Pillow's own face, the Vera faces travel with reportlab, and ``pen`` and ``stencil``
are the single-stroke Hershey letters of OpenCV.
"""

from functools import lru_cache
from pathlib import Path

import cv2
import numpy as np
import reportlab
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

_FONTS = Path(reportlab.__file__).parent / "fonts"
FONT_FILES = {
    "sans": _FONTS / "Vera.ttf",
    "bold": _FONTS / "VeraBd.ttf",
    "italic": _FONTS / "VeraIt.ttf",
    "bold italic": _FONTS / "VeraBI.ttf",
}
STROKED = {
    "pen": cv2.FONT_HERSHEY_SIMPLEX,
    "stencil": cv2.FONT_HERSHEY_DUPLEX,
    "roman": cv2.FONT_HERSHEY_COMPLEX,
    "script": cv2.FONT_HERSHEY_SCRIPT_SIMPLEX,
}
FONTS = ("plain", *FONT_FILES, *STROKED)
_MEASURED_PX = 64  # size at which extents are taken, large enough that hinting does not tell
_HERSHEY_PX = 30  # height of a Hershey line at scale 1, descenders included


@lru_cache(maxsize=256)
def _face(size: int, font: str) -> ImageFont.FreeTypeFont:
    if font in FONT_FILES:
        return ImageFont.truetype(str(FONT_FILES[font]), size)
    face = ImageFont.load_default(size)
    if not isinstance(face, ImageFont.FreeTypeFont):
        raise RuntimeError("Pillow was built without FreeType, so plans cannot be lettered")
    return face


def _able(text: str, font: str) -> str:
    """Return the font, or one that has the letters it lacks: Pillow's has no superscripts."""
    return "sans" if font == "plain" and not text.isascii() else font


def extent(text: str, size: float, font: str = "plain") -> tuple[float, float]:
    """Return the width and the capital height of a line of text, in pixels."""
    if font in STROKED:
        height, width = stamp(text, round(size), font).shape
        return float(width), float(height) * 0.7
    face = _face(_MEASURED_PX, _able(text, font))
    top, bottom = face.getbbox("H")[1::2]
    share = size / _MEASURED_PX
    return float(face.getlength(text)) * share, float(bottom - top) * share


@lru_cache(maxsize=8192)
def stamp(text: str, size: int, font: str = "plain") -> NDArray[np.uint8]:
    """Return a line of text as a mask, shape (H, W), centred on its capitals."""
    if font in STROKED:
        return _stroked(text, size, font)
    face = _face(size, _able(text, font))
    left, _, right, _ = face.getbbox(text)
    cap_top, cap_bottom = face.getbbox("H")[1::2]
    spare = max(2, round(size * 0.3))  # room for descenders, the same above to keep it centred
    width = max(1, round(right - left) + 2)
    height = round(cap_bottom - cap_top) + 2 * spare
    image = Image.new("L", (width, height), 0)
    ImageDraw.Draw(image).text((1 - left, spare - cap_top), text, fill=255, font=face)
    return np.asarray(image)


def _stroked(text: str, size: int, font: str) -> NDArray[np.uint8]:
    scale, weight = size / _HERSHEY_PX, max(1, round(size / 11))
    (width, height), below = cv2.getTextSize(text, STROKED[font], scale, weight)
    mask = np.zeros((height + 2 * below + 2, width + 4), np.uint8)
    origin = (2, height + below)
    cv2.putText(mask, text, origin, STROKED[font], scale, 255, weight, cv2.LINE_AA)
    return mask
