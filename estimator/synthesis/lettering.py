"""Letters as masks, in the open fonts that come inside Pillow and reportlab.

``plain`` is Pillow's own face, the Vera faces travel with reportlab; ``pen`` is lettered by hand
stroke by stroke.
"""

from functools import lru_cache
from pathlib import Path

import numpy as np
import reportlab
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from estimator.synthesis.pen_letters import pen_width

_FONTS = Path(reportlab.__file__).parent / "fonts"
FONT_FILES = {
    "sans": _FONTS / "Vera.ttf",
    "bold": _FONTS / "VeraBd.ttf",
    "italic": _FONTS / "VeraIt.ttf",
    "bold italic": _FONTS / "VeraBI.ttf",
}
PEN = "pen"
FONTS = ("plain", *FONT_FILES)
CAPITAL_SHARE = 0.72  # height of a capital in these faces, of the size of the face
_MEASURED_PX = 64  # size at which extents are taken, large enough that hinting does not tell


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


@lru_cache(maxsize=256)
def _capitals(size: int, font: str) -> tuple[float, float]:
    """Return where capitals begin and end below the top of a line."""
    top, bottom = _face(size, font).getbbox("H")[1::2]
    return float(top), float(bottom)


@lru_cache(maxsize=8192)
def _measured(text: str, font: str) -> tuple[float, float]:
    """Return the width and the capital height of a line at the measured size."""
    top, bottom = _capitals(_MEASURED_PX, font)
    return float(_face(_MEASURED_PX, font).getlength(text)), bottom - top


def extent(text: str, size: float, font: str = "plain") -> tuple[float, float]:
    """Return the width and the capital height of a line of text, in pixels."""
    if font == PEN:
        return pen_width(text, size * CAPITAL_SHARE), size * CAPITAL_SHARE
    width, height = _measured(text, _able(text, font))
    return width * size / _MEASURED_PX, height * size / _MEASURED_PX


@lru_cache(maxsize=8192)
def stamp(text: str, size: int, font: str = "plain") -> NDArray[np.uint8]:
    """Return a line of text as a mask, shape (H, W), centred on its capitals."""
    font = _able(text, font)
    face = _face(size, font)
    left, _, right, _ = face.getbbox(text)
    cap_top, cap_bottom = _capitals(size, font)
    spare = max(2, round(size * 0.3))  # room for descenders, the same above to keep it centred
    width = max(1, round(right - left) + 2)
    height = round(cap_bottom - cap_top) + 2 * spare
    image = Image.new("L", (width, height), 0)
    ImageDraw.Draw(image).text((1 - left, spare - cap_top), text, fill=255, font=face)
    return np.asarray(image)
