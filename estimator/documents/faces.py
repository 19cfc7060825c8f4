"""The faces that papers are set in, and which letters each of them writes.

All that the packaged typeface can write is set in it. Thai has a face of its design, and Chinese,
Japanese and Korean share one that has no bold. What none of them has is not written.
"""

import re
from functools import cache, lru_cache
from importlib.resources import files
from io import BytesIO
from itertools import groupby
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont

from estimator.documents.right_to_left import drawn
from estimator.documents.thai import LETTER_OF, formed

REGULAR, BOLD = "Estimator", "Estimator-Bold"
_THAI, _THAI_BOLD, _HAN = "Estimator-Thai", "Estimator-Thai-Bold", "Estimator-Han"
_FILES = {
    REGULAR: "DejaVuSansCondensed.ttf",
    BOLD: "DejaVuSansCondensed-Bold.ttf",
    _THAI: "Waree.ttf",
    _THAI_BOLD: "Waree-Bold.ttf",
    _HAN: "WenQuanYiMicroHei.ttf",
}
_THAI_BLOCK = range(0x0E00, 0x0E80)


def font_bytes(face: str) -> bytes:
    """Return the TrueType file of a face."""
    return (files("estimator.documents") / "fonts" / _FILES[face]).read_bytes()


@cache
def font(face: str) -> TTFont:
    """Return a face as reportlab measures it."""
    return _Read(face, BytesIO(font_bytes(face)), shapable=False)


@cache
def register() -> None:
    """Give reportlab the packaged typeface."""
    for face in (REGULAR, BOLD):
        pdfmetrics.registerFont(font(face))
    _family(REGULAR, BOLD)


@lru_cache(maxsize=8192)
def runs(line: str, bold: bool = False) -> tuple[tuple[str, str], ...]:
    """Return a line in pieces of one face each, with the letters as they are drawn.

    >>> runs("Lab 厨房 2")
    (('Estimator', 'Lab '), ('Estimator-Han', '厨房'), ('Estimator', ' 2'))
    """
    own = BOLD if bold else REGULAR
    line = drawn(line)
    if _own_letters().issuperset(map(ord, line)):
        return ((own, line),)
    pieces = groupby(line, lambda letter: _face_of(ord(letter), bold) or own)
    return tuple(
        (face, formed("".join(letters)) if face in (_THAI, _THAI_BOLD) else "".join(letters))
        for face, letters in pieces
    )


def is_written(letter: str) -> bool:
    """Whether any face has a letter."""
    return _face_of(ord(letter), bold=False) is not None


def _face_of(code: int, bold: bool) -> str | None:
    if code in _own_letters():
        return BOLD if bold else REGULAR
    if code in _THAI_BLOCK:
        thai = _THAI_BOLD if bold else _THAI
        return thai if code in _thai(bold).face.charToGlyph else None
    return _HAN if code in _han().face.charToGlyph else None


@cache
def _own_letters() -> frozenset[int]:
    """Return the code points that both weights of the typeface can write."""
    regular, bold = (frozenset(font(face).face.charToGlyph) for face in (REGULAR, BOLD))
    return regular & bold


@cache
def _thai(bold: bool) -> TTFont:
    for face in (_THAI, _THAI_BOLD):
        _stand_in(face)
    _family(_THAI, _THAI_BOLD)
    return font(_THAI_BOLD if bold else _THAI)


@cache
def _han() -> TTFont:
    """Return the face of Chinese, Japanese and Korean, which takes a tenth of a second to open."""
    _stand_in(_HAN)
    _family(_HAN, _HAN)
    return font(_HAN)


def _stand_in(face: str) -> None:
    """Give reportlab a face whose lines stand where those of the typeface do."""
    own, other = font(REGULAR).face, font(face).face
    other.ascent, other.descent = own.ascent, own.descent
    pdfmetrics.registerFont(font(face))


def _family(regular: str, bold: str) -> None:
    pdfmetrics.registerFontFamily(
        regular, normal=regular, bold=bold, italic=regular, boldItalic=bold
    )


class _Read(TTFont):
    """A font whose letters are read out of a PDF as what was written."""

    def addObjects(self, doc: Any) -> None:  # noqa: N802 - the name is reportlab's
        """Add the font to a document.

        Forms of Thai are read as their letters, and letters beyond the first 65,536 as the two
        halves that the PDF Reference asks for.
        """
        super().addObjects(doc)
        ending = f"+{self.face.name.decode()}"
        for name, made in doc.idToObject.items():
            if name.startswith("toUnicodeCMap:") and name.endswith(ending):
                made.content = _READ_AS.sub(_read_as, made.content)


_READ_AS = re.compile("(?<=> <)(F7[01].|[0-9A-F]{5,6})(?=>)")


def _read_as(found: re.Match[str]) -> str:
    letter = chr(int(found[0], 16))
    return LETTER_OF.get(letter, letter).encode("utf-16-be").hex().upper()
