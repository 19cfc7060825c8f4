"""The rooms that were read, laid over the picture they were read from."""

from io import BytesIO

import numpy as np
import shapely
from numpy.typing import NDArray
from PIL import Image, ImageDraw
from shapely.geometry import Polygon

from estimator.documents.drawing import DOUBTFUL
from estimator.documents.figure import Figure, Shape, in_pixels
from estimator.documents.labels import LEADING, label
from estimator.documents.lettering import legible, shortened, width
from estimator.documents.openings import leaves
from estimator.documents.palette import ACCENT, DOUBT, INK, USE_TINTS, WHITE
from estimator.documents.raster import write
from estimator.errors import DocumentError
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.quote.colour import rgb

_FILLED = 110
_SURE = 0.9
"""Rooms less sure than this say how sure they are."""
_FURNITURE = "#5a6b7b"
_GAP_COLOURS = {
    OpeningKind.DOOR: ACCENT,
    OpeningKind.PASSAGE: "#6a4c93",
    OpeningKind.WINDOW: "#2f7fb8",
}


def overlay_png(pixels: NDArray[np.uint8], plan: Plan, storey: int = 0) -> bytes:
    """Return a PNG of the picture with the rooms, openings, furniture and names read from it.

    Parameters
    ----------
    pixels
        The picture as given, RGB, shape (H, W, 3).

    Raises
    ------
    DocumentError
        When the pixels are no RGB picture.
    """
    if pixels.ndim != 3 or pixels.shape[2] != 3 or pixels.dtype != np.uint8 or not pixels.size:
        raise DocumentError(
            "overlay", f"the picture has shape {pixels.shape}", "give RGB pixels of 8 bits each"
        )
    figure = in_pixels(plan, storey)
    size = pixels.shape[1], pixels.shape[0]
    text = max(7.0, min(min(size) / 48, 0.12 * _middling_side(figure)))
    line = max(1, round(text / 7))
    picture = Image.fromarray(pixels).convert("RGBA")
    picture.alpha_composite(_fills(figure, size))
    draw = ImageDraw.Draw(picture)
    for shape in figure.shapes:
        _outline(draw, shape, line)
    for shape in figure.shapes:
        for piece in shape.room.furnishings:
            if piece.footprint_px is not None:
                _piece(draw, piece.footprint_px, piece.kind, text)
    for shape in figure.shapes:
        for gap in shape.gaps:
            colour = _GAP_COLOURS[gap.kind]
            draw.line([gap.start, gap.end], fill=colour, width=2 * line + 1)
            if gap.hinge is not None:
                for hinge, *arc in leaves(gap, figure):
                    draw.line([*arc, hinge], fill=colour, width=max(1, line // 2))
    for shape in figure.shapes:
        _name(picture, shape, text)
    written = BytesIO()
    picture.convert("RGB").save(written, "PNG")
    return written.getvalue()


def _fills(figure: Figure, size: tuple[int, int]) -> Image.Image:
    layer = Image.new("RGBA", size)
    draw = ImageDraw.Draw(layer)
    strong = [_stronger(tint) for tint in USE_TINTS]
    # Large rooms first, so that a hole filled with a room of its own shows that room.
    for at, shape in enumerate(sorted(figure.shapes, key=lambda shape: -shape.outline.area)):
        fill = rgb(DOUBT) if shape.room.confidence < DOUBTFUL else strong[at % len(strong)]
        draw.polygon(_ring(shape.outline.exterior), fill=(*fill, _FILLED))
        for hole in shape.outline.interiors:
            draw.polygon(_ring(hole), fill=(0, 0, 0, 0))
    return layer


def _stronger(tint: str) -> tuple[int, int, int]:
    """Return a tint as strong as it must be to show when half seen through."""
    red, green, blue = (max(0, round(255 - 3.2 * (255 - part))) for part in rgb(tint))
    return red, green, blue


def _outline(draw: ImageDraw.ImageDraw, shape: Shape, line: int) -> None:
    doubtful = shape.room.confidence < DOUBTFUL
    colour = DOUBT if doubtful else ACCENT
    for ring in (shape.outline.exterior, *shape.outline.interiors):
        corners = _ring(ring)
        draw.line([*corners, corners[0]], fill=colour, width=line + doubtful * line, joint="curve")


def _piece(draw: ImageDraw.ImageDraw, footprint: Polygon, kind: str, text: float) -> None:
    """Outline a piece of furniture thinly, and say what it is where that fits."""
    ring = _ring(footprint.exterior)
    draw.line([*ring, ring[0]], fill=_FURNITURE, width=1)
    words, small = legible(kind.replace("_", " ")), max(7.0, 0.5 * text)
    left, top, right, bottom = footprint.bounds
    if width(words, small, False) <= right - left and small <= bottom - top:
        place = footprint.representative_point()
        write(draw, (place.x, place.y), words, round(small), fill=_FURNITURE)


def _name(picture: Image.Image, shape: Shape, text: float) -> None:
    """Write name and confidence on a card in the room."""
    room = shape.room
    name = legible(room.name) or room.id
    hints = [f"{room.confidence:.0%} sure"] if room.confidence < _SURE else []
    inner = shapely.buffer(shape.outline, -0.1 * text, join_style="mitre")
    parts = [part for part in shapely.get_parts(inner) if isinstance(part, Polygon)]
    found = parts and label(max(parts, key=lambda part: part.area), name, hints, text)
    if found:
        lines = [(line.text, line.size, line.bold) for line in found.lines]
        x, y = found.x, found.y
    else:
        point = shape.outline.representative_point()
        left, _, right, _ = shape.outline.bounds
        small = max(7.0, 0.6 * text)
        lines = [(shortened(name, max(right - left, 4 * small), small, True), small, True)]
        x, y = point.x, point.y
    wide = max(width(words, size, bold) for words, size, bold in lines) + 0.7 * text
    high = sum(size * LEADING for _, size, _ in lines) + 0.15 * text
    card = Image.new("RGBA", picture.size if high > picture.height else (round(wide), round(high)))
    draw = ImageDraw.Draw(card)
    draw.rounded_rectangle(
        (0, 0, card.width - 1, card.height - 1), radius=0.3 * text, fill=(*rgb(WHITE), 205)
    )
    top = 0.08 * text
    for words, size, bold in lines:
        write(
            draw,
            (card.width / 2, top + size * LEADING / 2),
            words,
            max(6, round(size)),
            fill=DOUBT if not bold and room.confidence < DOUBTFUL else INK,
            bold=bold,
        )
        top += size * LEADING
    place = round(x - card.width / 2), round(y - card.height / 2)
    picture.paste(card, place, card)


def _middling_side(figure: Figure) -> float:
    sides = sorted(shape.outline.area**0.5 for shape in figure.shapes)
    return sides[len(sides) // 2] if sides else 0.0


def _ring(ring: shapely.LinearRing) -> list[tuple[float, float]]:
    return [(float(x), float(y)) for x, y in ring.coords[:-1]]
