"""Open a picture or a page of a document as upright RGB pixels, within bounded memory."""

from pathlib import Path

import numpy as np

from estimator.errors import EmptyPage, SourceError
from estimator.intake import pdf, raster
from estimator.intake.sniffing import REMEDY, kind_of
from estimator.reading.picture import Picture

LARGEST_FILE = 200_000_000
"""Bytes of a file that is opened at most."""

_SHORTEST_SIDE = 50  # pixels; less shows no plan
_BLANK_CONTRAST = 16  # of 255; paper grain stays below


def open_picture(path: Path, page: int = 1) -> Picture:
    """Open one page of a file; a picture of one page is page 1.

    Raises
    ------
    SourceError
        UnknownFormat for another kind of file, LockedDocument for one with a password, EmptyPage
        when nothing is to be seen; else when the file is missing, damaged or too large.
    """
    return open_bytes(content_of(path), path.name, page)


def open_bytes(data: bytes, name: str, page: int = 1) -> Picture:
    """Open one page of a file's content, such as an upload.

    Raises
    ------
    SourceError
        As `open_picture`.
    """
    pages = page_count_of(data, name)
    if not 1 <= page <= pages:
        problem = "it has one page" if pages == 1 else f"it has {pages} pages"
        raise SourceError(name, f"{problem}, and page {page} was asked for", "choose another page")
    kind = kind_of(data, name)
    picture = (
        pdf.page_picture(data, name, page)
        if kind == "pdf"
        else raster.picture(data, kind, name, page)
    )
    width, height = picture.width_px, picture.height_px
    if min(width, height) < _SHORTEST_SIDE:
        raise EmptyPage(
            name,
            f"the picture is {width} x {height} pixels, too small to show a plan",
            f"send one of at least {_SHORTEST_SIDE} x {_SHORTEST_SIDE}",
        )
    if np.ptp(picture.pixels) < _BLANK_CONTRAST:
        raise EmptyPage(name, f"page {page} is blank", "send one with a plan on it")
    return picture


def page_count(path: Path) -> int:
    """Return how many pages a file has; an animated picture has one, its first frame.

    Raises
    ------
    SourceError
        As `open_picture`.
    """
    return page_count_of(content_of(path), path.name)


def page_count_of(data: bytes, name: str) -> int:
    """Return how many pages a file's content has.

    Raises
    ------
    SourceError
        As `open_picture`.
    """
    kind = kind_of(data, name)
    return pdf.page_count(data, name) if kind == "pdf" else raster.page_count(data, kind, name)


def content_of(path: Path) -> bytes:
    """Return a file's content.

    Raises
    ------
    SourceError
        When the file is missing, unreadable or too large.
    """
    try:
        if path.is_dir():
            raise SourceError(path.name, "it is a folder", "choose a file")
        size = path.stat().st_size
        if size > LARGEST_FILE:
            raise SourceError(
                path.name,
                f"the file is {size / 1e6:,.0f} MB, more than {LARGEST_FILE / 1e6:,.0f} MB",
                "send the page with the plan alone",
            )
        return path.read_bytes()
    except FileNotFoundError as error:
        raise SourceError(path.name, "there is no such file", "check its name") from error
    except OSError as error:
        raise SourceError(path.name, "the file cannot be opened", REMEDY) from error
