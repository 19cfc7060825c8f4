"""Pictures of pixels: PNG, JPEG, TIFF, WebP, GIF and BMP.

The size stands in the header and is judged before anything is decoded. Colours are brought to RGB
band by band, so that beside the decoded picture only a small part is held twice.
"""

import io
import math
import warnings
from collections.abc import Callable
from contextlib import suppress
from typing import TypeVar

import numpy as np
from numpy.typing import NDArray
from PIL import (
    BmpImagePlugin,
    GifImagePlugin,
    Image,
    ImageFile,
    JpegImagePlugin,
    PngImagePlugin,
    TiffImagePlugin,
    WebPImagePlugin,
)

from estimator.errors import SourceError
from estimator.intake.sniffing import REMEDY
from estimator.reading.arrays import Pixels
from estimator.reading.picture import Picture

LARGEST_DECODED = 420_000_000
"""Bytes a picture may fill when decoded.

That is 20,000 x 20,000 pixels in grey or as a common JPEG, 10,000 x 10,000 in colour.
"""

LARGEST_KEPT = 24_000_000
"""Pixels that are kept; a larger picture is reduced by a whole factor."""

_BAND = 2_000_000  # pixels brought to RGB at a time
_BYTES = {"1": 1, "L": 1, "P": 1, "LA": 4, "PA": 4, "I;16": 2, "I;16B": 2, "I;16L": 2}
_COEFFICIENTS = 6  # bytes to a pixel of a JPEG in several scans, which is held whole
_CANVASES = 16  # bytes to a pixel of a WebP, which is drawn on several canvases
_LARGEST_TIFF = 170_000_000  # pixels; the decoder refuses more by itself
_START_OF_SCAN = b"\xff\xda"
_WHITES = (255, 1023, 4095, 16383, 65535)  # paper white in 8 to 16 bits
_SCREEN_DPI = (72.0, 96.0)  # written by default; no paper was meant
_LEAST_DPI, _MOST_DPI = 20.0, 5000.0
_ORIENTATION_TAG = 0x0112

Answer = TypeVar("Answer")

# Plugins are called directly: Pillow's own guard against large pictures is one global number.
_OPENERS: dict[str, Callable[[io.BytesIO], ImageFile.ImageFile]] = {
    "png": PngImagePlugin.PngImageFile,
    "jpeg": JpegImagePlugin.JpegImageFile,
    "tiff": TiffImagePlugin.TiffImageFile,
    "webp": WebPImagePlugin.WebPImageFile,
    "gif": GifImagePlugin.GifImageFile,
    "bmp": BmpImagePlugin.BmpImageFile,
}

# How a picture is turned upright, by the orientation its camera wrote (Exif 2.3, tag 274).
_UPRIGHT: dict[int, Callable[[Pixels], Pixels]] = {
    2: lambda pixels: pixels[:, ::-1],
    3: lambda pixels: pixels[::-1, ::-1],
    4: lambda pixels: pixels[::-1],
    5: lambda pixels: pixels.swapaxes(0, 1),
    6: lambda pixels: pixels.swapaxes(0, 1)[:, ::-1],
    7: lambda pixels: pixels[::-1, ::-1].swapaxes(0, 1),
    8: lambda pixels: pixels.swapaxes(0, 1)[::-1],
}


def page_count(data: bytes, kind: str, name: str) -> int:
    """Return the number of pages of a TIFF; every other picture has one.

    Raises
    ------
    SourceError
        When the file is damaged.
    """
    if kind != "tiff":
        return 1
    return _guarded(name, lambda: int(getattr(_opened(data, kind), "n_frames", 1)))


def picture(data: bytes, kind: str, name: str, page: int = 1) -> Picture:
    """Return one page of a picture, upright, over white, in RGB.

    Raises
    ------
    SourceError
        When it is damaged or too large.
    """
    image = _guarded(name, lambda: _opened(data, kind, page))
    _refuse_too_large(image, name, _most_pixels(image, data))
    shrunk = 1
    if isinstance(image, JpegImagePlugin.JpegImageFile):
        full_width, factor = image.width, _factor(image.width, image.height)
        image.draft(None, (image.width // factor, image.height // factor))  # by 2, 4 or 8
        shrunk = round(full_width / image.width)
    shrunk *= _factor(image.width, image.height)
    dpi = _dpi(image)
    pixels = _guarded(name, lambda: _upright_rgb(image))
    return Picture(pixels=pixels, file=name, page=page, dpi=dpi / shrunk if dpi else None)


def _opened(data: bytes, kind: str, page: int = 1) -> ImageFile.ImageFile:
    image = _OPENERS[kind](io.BytesIO(data))
    if page > 1:
        image.seek(page - 1)
    return image


def _guarded(name: str, work: Callable[[], Answer]) -> Answer:
    """Return what the work returns; whatever the decoder raises says the file is damaged."""
    try:
        return work()
    except Exception as error:
        raise SourceError(name, "the picture is damaged or cut off", REMEDY) from error


def _factor(width: int, height: int) -> int:
    """Return the whole factor by which a picture of that size is reduced."""
    return math.ceil(math.sqrt(max(width * height / LARGEST_KEPT, 1.0)))


def _most_pixels(image: Image.Image, data: bytes) -> int:
    """Return how many pixels a picture of that kind may have to be decoded in bounded memory."""
    if isinstance(image, JpegImagePlugin.JpegImageFile):
        is_held_whole = "progressive" in image.info or data.count(_START_OF_SCAN) > 1
        return LARGEST_DECODED // (_COEFFICIENTS if is_held_whole else 1)
    if isinstance(image, WebPImagePlugin.WebPImageFile):
        return LARGEST_DECODED // _CANVASES
    most = LARGEST_DECODED // _BYTES.get(image.mode, 4)
    return min(most, _LARGEST_TIFF) if isinstance(image, TiffImagePlugin.TiffImageFile) else most


def _refuse_too_large(image: Image.Image, name: str, most_pixels: int) -> None:
    if image.width * image.height > most_pixels:
        raise SourceError(
            name,
            f"the picture is {image.width:,} x {image.height:,} pixels, too large to open",
            f"send at most {most_pixels / 1e6:.0f} million pixels of this kind, or a PDF",
        )


def _dpi(image: Image.Image) -> float | None:
    """Return the resolution written in the file, when it can have been meant."""
    with suppress(KeyError, TypeError, ValueError, ZeroDivisionError):
        across, down = (float(value) for value in image.info["dpi"])
        is_square = abs(across - down) <= 0.01 * across
        if is_square and _LEAST_DPI <= across <= _MOST_DPI and round(across, 1) not in _SCREEN_DPI:
            return across
    return None


def _upright_rgb(image: ImageFile.ImageFile) -> Pixels:
    """Decode, reduce and turn a picture."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # judged before
        image.load()
    factor = _factor(image.width, image.height)
    width, height = -(-image.width // factor), -(-image.height // factor)
    pixels = np.empty((height, width, 3), np.uint8)
    white = _white(image)
    rows = max(_BAND // image.width // factor, 1) * factor
    for top in range(0, image.height, rows):
        band = image.crop((0, top, image.width, min(top + rows, image.height)))
        reduced = _rgb(band, white).reduce(factor)
        pixels[top // factor : top // factor + reduced.height] = np.asarray(reduced)
    turn = _UPRIGHT.get(_orientation(image))
    return np.ascontiguousarray(turn(pixels)) if turn else pixels


def _orientation(image: Image.Image) -> int:
    with suppress(Exception):  # a picture is worth reading even where its camera data are not
        return int(image.getexif().get(_ORIENTATION_TAG, 1))
    return 1


def _white(image: Image.Image) -> float:
    """Return the value of white in a picture of more than 8 bits; 255 for the rest."""
    if not image.mode.startswith(("I", "F")):
        return 255.0
    most = float(np.max(image.getextrema()))
    if image.mode == "F" and most <= 1.0:
        return 1.0
    return float(next((white for white in _WHITES if white >= most), most))


def _rgb(band: Image.Image, white: float) -> Image.Image:
    """Return part of a picture in RGB, transparent parts white."""
    if band.mode.startswith(("I", "F")):
        values: NDArray[np.float32] = np.asarray(band).astype(np.float32) * (255.0 / white)
        return Image.fromarray(np.clip(np.nan_to_num(values), 0, 255).astype(np.uint8)).convert(
            "RGB"
        )
    if band.mode in ("LA", "PA", "RGBA", "La", "RGBa") or "transparency" in band.info:
        paper = Image.new("RGBA", band.size, "white")
        return Image.alpha_composite(paper, band.convert("RGBA")).convert("RGB")
    return band.convert("RGB")
