"""A firm's logo as it is given: a small PNG or JPEG, checked before anything unpacks it."""

import warnings
from io import BytesIO
from pathlib import Path

from PIL import Image

from estimator.errors import CatalogueError

MOST_BYTES = 2_000_000
MOST_PIXELS = 6_000_000
"""More than a letterhead ever shows: 20 mm of height at 1,200 dots to the inch are 945 pixels."""

_KINDS = {"PNG", "JPEG"}


def logo(data: bytes, name: str) -> bytes:
    """Return a logo that papers can show.

    Raises
    ------
    CatalogueError
        When it is too large, of another kind, or damaged.
    """
    if len(data) > MOST_BYTES:
        raise _too_large(name, len(data))
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)
            picture = Image.open(BytesIO(data), formats=sorted(_KINDS))
        if picture.width * picture.height > MOST_PIXELS:
            raise Image.DecompressionBombError
        picture.load()
    except Image.DecompressionBombError:
        raise CatalogueError(
            name,
            "the logo has too many pixels",
            f"give one of at most {MOST_PIXELS / 1e6:g} million",
        ) from None
    except (OSError, SyntaxError, ValueError):
        raise CatalogueError(
            name, "it is no picture of a logo", "give a PNG or JPEG file that opens elsewhere"
        ) from None
    return data


def logo_file(path: Path) -> bytes:
    """Return the logo in a file.

    Raises
    ------
    CatalogueError
        When it cannot be opened or is no logo.
    """
    try:
        if (size := path.stat().st_size) > MOST_BYTES:
            raise _too_large(path.name, size)
        data = path.read_bytes()
    except OSError:
        raise CatalogueError(
            path.name, "the logo cannot be opened", "put the picture beside the book"
        ) from None
    return logo(data, path.name)


def _too_large(name: str, size: int) -> CatalogueError:
    return CatalogueError(
        name,
        f"the logo takes {size / 1e6:,.1f} MB",
        f"give one of at most {MOST_BYTES / 1e6:g} MB",
    )
