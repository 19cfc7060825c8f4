"""The picture a plan is read from."""

from typing import Any

import numpy as np
from attrs import cmp_using, field, frozen

from estimator.plan.storey import Source
from estimator.reading.arrays import Pixels


@frozen(kw_only=True)
class Word:
    """A printed word found in the file as text, with its box in pixels of the picture."""

    text: str
    left_px: float
    top_px: float
    right_px: float
    bottom_px: float


def _rgb(pixels: Any) -> Pixels:
    """Return a read-only view of RGB pixels."""
    view = np.asarray(pixels).view()
    view.flags.writeable = False
    return view


@frozen(kw_only=True)
class Picture:
    """One page or picture, upright as it is shown.

    Parameters
    ----------
    pixels : uint8, shape (H, W, 3)
        Red, green, blue.
    file
        Name of the file it came from, for messages and for the plan's source.
    page
        Counts from 1.
    dpi
        Pixels to an inch of paper; None when nobody knows.
    words
        What the file itself holds as text, such as a PDF's text layer; empty for a scan.
    """

    pixels: Pixels = field(converter=_rgb, eq=cmp_using(eq=np.array_equal))
    file: str = "picture"
    page: int = 1
    dpi: float | None = None
    words: tuple[Word, ...] = ()

    def __attrs_post_init__(self) -> None:
        if self.pixels.dtype != np.uint8 or self.pixels.ndim != 3 or self.pixels.shape[2] != 3:
            raise ValueError(
                f"pixels must be uint8 of shape (H, W, 3), got {self.pixels.dtype} of shape "
                f"{self.pixels.shape}"
            )

    @property
    def width_px(self) -> int:
        """Width in pixels."""
        return int(self.pixels.shape[1])

    @property
    def height_px(self) -> int:
        """Height in pixels."""
        return int(self.pixels.shape[0])

    @property
    def source(self) -> Source:
        """The picture as the plan remembers it."""
        return Source(
            file=self.file, page=self.page, width_px=self.width_px, height_px=self.height_px
        )
