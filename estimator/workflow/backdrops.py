"""Pictures of storeys to draw over: laid flat, small enough to send, with their straight ink."""

from functools import lru_cache

import cv2
import numpy as np
from attrs import frozen

from estimator.plan.sheet import Sheet
from estimator.plan.storey import Storey
from estimator.reading.sheet.flattening import laid_flat
from estimator.reading.tracing import Ink, traced
from estimator.workflow.pages import Page, page_of

# Both are as good as what was given, to the eye, at half the size.
_LONGEST_PX = 4000
_QUALITY = 88


@frozen(kw_only=True, eq=False)
class Backdrop:
    """The picture of a storey, laid flat.

    Parameters
    ----------
    jpeg
        The picture, perhaps at fewer pixels than its own.
    width_px, height_px
        Its size in its own pixels, in which rooms and ink are placed.
    """

    jpeg: bytes
    width_px: int
    height_px: int
    ink: Ink


def backdrop(storey: Storey, pages: tuple[Page, ...]) -> Backdrop | None:
    """Return the picture a storey was read from; None when it is not at hand.

    Raises
    ------
    SourceError
        When the page cannot be opened again.
    """
    page = page_of(storey, pages)
    return _backdrop(page, storey.sheet) if page else None


@lru_cache(maxsize=8)
def _backdrop(page: Page, sheet: Sheet | None) -> Backdrop:
    picture = page.picture()
    if sheet is not None:
        picture = laid_flat(picture, sheet)
    pixels = picture.pixels
    zoom = min(1.0, _LONGEST_PX / max(picture.width_px, picture.height_px))
    shown = cv2.resize(pixels, None, fx=zoom, fy=zoom, interpolation=cv2.INTER_AREA)
    parts = [cv2.IMWRITE_JPEG_QUALITY, _QUALITY]
    _, written = cv2.imencode(".jpg", cv2.cvtColor(shown, cv2.COLOR_RGB2BGR), parts)
    return Backdrop(
        jpeg=np.asarray(written).tobytes(),
        width_px=picture.width_px,
        height_px=picture.height_px,
        ink=traced(pixels),
    )
