"""The packaged typeface: its files, how wide words are, and what it cannot write."""

import unicodedata
from functools import cache, lru_cache
from importlib.resources import files
from io import BytesIO

from PIL import ImageFont
from reportlab.pdfbase.ttfonts import TTFontFile

_FILES = {False: "DejaVuSansCondensed.ttf", True: "DejaVuSansCondensed-Bold.ttf"}
_MEASURED_AT = 64
MISSING = "□"
"""Stands for a character the typeface lacks."""

_NO_CHARACTERS = "\ufffe\uffff"
_UNSEEN = {"Cf", "Mn", "Me"}
"""Categories of Unicode that take no place of their own: joiners, accents, selectors."""


@cache
def font_bytes(bold: bool) -> bytes:
    """Return the TrueType file of the regular or bold face."""
    return (files("estimator.documents") / "fonts" / _FILES[bold]).read_bytes()


@lru_cache(maxsize=64)
def raster_font(size_px: int, bold: bool) -> ImageFont.FreeTypeFont:
    """Return the face for drawing on a picture."""
    return ImageFont.truetype(
        BytesIO(font_bytes(bold)), size_px, layout_engine=ImageFont.Layout.BASIC
    )


@lru_cache(maxsize=8192)
def width(text: str, size: float, bold: bool = False) -> float:
    """Return how wide a line of text is at a size, in the unit of the size."""
    return raster_font(_MEASURED_AT, bold).getlength(text) * size / _MEASURED_AT


@lru_cache(maxsize=8192)
def plain(text: str) -> str:
    r"""Return the text on one line, free of characters that no file format takes.

    >>> plain("Küche\t 厨房\x00\n")
    'Küche 厨房'
    """
    kept = (
        " " if character.isspace() else character
        for character in unicodedata.normalize("NFC", text)
        if character.isspace()
        or (unicodedata.category(character) not in {"Cc", "Cs"} and character not in _NO_CHARACTERS)
    )
    return " ".join("".join(kept).split())


@lru_cache(maxsize=8192)
def legible(text: str) -> str:
    r"""Return the text on one line, with a box for each character that cannot be written.

    >>> legible("Küche\t Κουζίνα\x00 厨房")
    'Küche Κουζίνα □□'
    """
    written = _characters()
    return "".join(
        character if ord(character) in written else MISSING
        for character in plain(text)
        if ord(character) in written or unicodedata.category(character) not in _UNSEEN
    )


def shortened(text: str, most: float, size: float, bold: bool = False) -> str:
    """Return the text, cut with an ellipsis where it is wider than allowed."""
    if width(text, size, bold) <= most:
        return text
    kept = text
    while kept and width(kept.rstrip() + "…", size, bold) > most:
        kept = kept[:-1]
    return kept.rstrip() + "…"


@cache
def _characters() -> frozenset[int]:
    """Return the code points that both faces can write."""
    faces = (TTFontFile(BytesIO(font_bytes(bold))) for bold in (False, True))
    regular, bold = (frozenset(face.charToGlyph) for face in faces)
    return regular & bold
