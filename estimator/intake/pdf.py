"""Pages of PDF documents, drawn at a known resolution, with the words of their text layer."""

import ctypes
import threading
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
import pypdfium2  # type: ignore[import-untyped]
import pypdfium2.raw as pdfium  # type: ignore[import-untyped]

from estimator.errors import EmptyPage, LockedDocument, SourceError
from estimator.intake.sniffing import REMEDY
from estimator.reading.arrays import Pixels
from estimator.reading.picture import Picture, Word

LONG_SIDE = 2600
"""Pixels along the longer side of a page: walls are some pixels thick, reading stays quick."""

_POINTS_PER_INCH = 72.0  # ISO 32000-1, 8.3.2.3: default user space
_MOST_CHARACTERS = 50_000
_lock = threading.Lock()  # the renderer serves one thread at a time


def page_count(data: bytes, name: str) -> int:
    """Return the number of pages.

    Raises
    ------
    SourceError
        LockedDocument when it asks for a password; EmptyPage when it has no page; else when it is
        damaged.
    """
    with opened(data, name) as document:
        return len(document)


def page_picture(data: bytes, name: str, page: int) -> Picture:
    """Draw one page of those it has.

    Raises
    ------
    SourceError
        As `page_count`.
    """
    with opened(data, name) as document:
        try:
            sheet = document[page - 1]
            long_side = max(sheet.get_size())
            if not long_side > 0:
                raise EmptyPage(name, f"page {page} has no size", "send a page with a plan on it")
            scale = LONG_SIDE / long_side
            bitmap = sheet.render(scale=scale, rev_byteorder=True, prefer_bgrx=False)
            pixels = _rgb(bitmap)
            words = tuple(_words(sheet, bitmap.get_posconv(sheet), pixels.shape))
        except pypdfium2.PdfiumError as error:
            raise SourceError(name, f"page {page} is damaged", REMEDY) from error
    return Picture(pixels=pixels, file=name, page=page, dpi=_POINTS_PER_INCH * scale, words=words)


@contextmanager
def opened(data: bytes, name: str) -> Iterator[pypdfium2.PdfDocument]:
    """Open a document while nobody else uses the renderer.

    Raises
    ------
    SourceError
        As `page_count`.
    """
    with _lock:
        try:
            document = pypdfium2.PdfDocument(data)
        except pypdfium2.PdfiumError as error:
            raise _refusal(data, name) from error
        try:
            yield document
        finally:
            document.close()


def _refusal(data: bytes, name: str) -> SourceError:
    """Return why a document does not open; the renderer's own error may be that of another."""
    handle = pdfium.FPDF_LoadMemDocument64(data, len(data), None)
    if handle:
        pdfium.FPDF_CloseDocument(handle)
        return EmptyPage(name, "the document has no page", "send one with a plan")
    if pdfium.FPDF_GetLastError() in (pdfium.FPDF_ERR_PASSWORD, pdfium.FPDF_ERR_SECURITY):
        return LockedDocument(name, "it asks for a password", "send a copy without one")
    return SourceError(name, "the document is damaged or cut off", REMEDY)


def _rgb(bitmap: pypdfium2.PdfBitmap) -> Pixels:
    """Return a copy of a bitmap's first three channels."""
    return np.array(bitmap.to_numpy()[:, :, :3], dtype=np.uint8, order="C")


def _words(
    sheet: pypdfium2.PdfPage, place: pypdfium2.PdfPosConv, shape: tuple[int, ...]
) -> Iterator[Word]:
    """Yield the words of the text layer that lie on the page."""
    text = sheet.get_textpage()
    letters: list[str] = []
    corners: list[tuple[int, int]] = []
    count = min(text.count_chars(), _MOST_CHARACTERS)
    for index in range(count + 1):
        code = pdfium.FPDFText_GetUnicode(text, index) if index < count else 0
        letter = chr(code) if 0 < code < 0xD800 or 0xE000 <= code < 0x110000 else " "
        if letter.isspace() or not letter.isprintable():
            if letters and (word := _word(letters, corners, shape)):
                yield word
            letters, corners = [], []
            continue
        left, bottom, right, top = (ctypes.c_double() for _ in range(4))
        if pdfium.FPDFText_GetCharBox(text, index, left, right, bottom, top):
            corners += [
                place.to_bitmap(x.value, y.value) for x in (left, right) for y in (bottom, top)
            ]
        letters.append(letter)


def _word(
    letters: list[str], corners: list[tuple[int, int]], shape: tuple[int, ...]
) -> Word | None:
    """Return a word with the box around its letters; None when it is off the page."""
    if not corners:
        return None
    across, down = [x for x, _ in corners], [y for _, y in corners]
    if max(across) < 0 or max(down) < 0 or min(across) > shape[1] or min(down) > shape[0]:
        return None
    return Word(
        text="".join(letters),
        left_px=float(min(across)),
        top_px=float(min(down)),
        right_px=float(max(across)),
        bottom_px=float(max(down)),
    )
