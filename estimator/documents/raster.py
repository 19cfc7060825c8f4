"""Lines of text on a picture."""

from functools import lru_cache
from io import BytesIO

from PIL import ImageDraw, ImageFont

from estimator.documents.faces import BOLD, REGULAR, font_bytes, runs


def write(
    draw: ImageDraw.ImageDraw,
    middle: tuple[float, float],
    line: str,
    size_px: int,
    *,
    fill: str,
    bold: bool = False,
) -> None:
    """Write a line around a place."""
    pieces = [(_font(face, size_px), piece) for face, piece in runs(line, bold)]
    ascent, descent = _font(BOLD if bold else REGULAR, size_px).getmetrics()
    x = middle[0] - sum(font.getlength(piece) for font, piece in pieces) / 2
    base = middle[1] + (ascent - descent) / 2
    for font, piece in pieces:
        draw.text((x, base), piece, font=font, fill=fill, anchor="ls")
        x += font.getlength(piece)


@lru_cache(maxsize=64)
def _font(face: str, size_px: int) -> ImageFont.FreeTypeFont:
    return ImageFont.truetype(
        BytesIO(font_bytes(face)), size_px, layout_engine=ImageFont.Layout.BASIC
    )
