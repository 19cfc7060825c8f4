"""The one place where pixels become metres: scales from what is known about a plan."""

import math
import re
from collections.abc import Sequence

import numpy as np
from shapely.geometry import Polygon

from estimator.errors import QuantityError, ScaleUnknown
from estimator.measures import Metres, Ratio, Share, SquareMetres
from estimator.plan.opening import OpeningKind, Point
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source
from estimator.reading.picture import Picture

INCH: Metres = 0.0254  # exactly (NIST SP 811, appendix B)

# One standard deviation of a length in the picture, where a hand or the reader placed its ends.
POINTED_PX = 1.5
# Printed sizes are rounded and rooms drawn a little off them (common practice).
PRINTED_ERROR: Share = 0.01
# Printed totals count inner walls: rooms sum to a median 94 % of them, nine in ten within 4 points.
ROOMS_OF_TOTAL: Share = 0.94
TOTAL_ERROR: Share = 0.025
# A print may have another scale than the drawing [ISO 5455:1979]; printers shrink to fit.
STATED_ERROR: Share = 0.02
# Doors between rooms are 0.6 to 1.0 m wide in the clear; 0.8 is usual (common practice).
USUAL_DOOR: Metres = 0.8
DOOR_ERROR: Share = 0.15

_STATED = re.compile(
    r"""
    \b1\s?:\s?\d{1,4}\b(?:\s?@\s?A[0-4]\b)?
    | (?:\d+\s)?\d+(?:/\d+)?\s?(?:"|″|”|in\b|inch\b)\s?=\s?\d+\s?(?:'|′|’|ft\b|feet\b)
      (?:\s?-?\s?\d+\s?(?:"|″|”))?
    """,
    re.VERBOSE | re.IGNORECASE,
)


def _positive(what: str, value: float, unit: str) -> float:
    if not 0 < value < math.inf:
        raise QuantityError(what, f"it is {value:g} {unit}", "give one above 0")
    return value


def scale_from_points(start_px: Point, end_px: Point, distance: Metres) -> Scale:
    """Return the scale from two points a known distance apart.

    Raises
    ------
    QuantityError
        When the points coincide or the distance is not above 0.

    Examples
    --------
    >>> scale_from_points((0.0, 0.0), (300.0, 400.0), 5.0).metres_per_px
    0.01
    """
    _positive("distance", distance, "m")
    apart = _positive("points", math.dist(start_px, end_px), "pixels apart")
    return Scale(
        metres_per_px=distance / apart,
        relative_error=min(1.0, math.sqrt(2) * POINTED_PX / apart),
        basis=f"two points {distance:g} m apart",
    )


def extents_px(room: Room) -> tuple[float, float]:
    """Return the larger and the smaller extent of a room along its own sides, in pixels.

    Printed sizes are a room's largest extents, not the sides of a rectangle of its area.
    """
    outline = _outline_px(room)
    left, top, right, bottom = outline.bounds
    sides = (right - left, bottom - top)
    turned = outline.minimum_rotated_rectangle
    if isinstance(turned, Polygon) and (
        turned.area < 0.85 * sides[0] * sides[1] or outline.area > 0.93 * turned.area
    ):
        corners = list(turned.exterior.coords)
        sides = (math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2]))
    return max(sides), min(sides)


def scale_from_room(room: Room, width: Metres, depth: Metres) -> Scale:
    """Return the scale from a room's printed width and depth, in either order.

    Raises
    ------
    QuantityError
        When a size is not above 0.
    ScaleUnknown
        When the room has no outline in a picture.
    """
    known = sorted((_positive("width", width, "m"), _positive("depth", depth, "m")))
    long_px, short_px = extents_px(room)
    by_each = (known[1] / long_px, known[0] / short_px)
    metres_per_px = math.sqrt(by_each[0] * by_each[1])
    apart = abs(math.log(by_each[0] / by_each[1]))
    return Scale(
        metres_per_px=metres_per_px,
        relative_error=min(1.0, math.hypot(PRINTED_ERROR, apart / 2)),
        basis=f"{room.name or room.id}, {width:g} × {depth:g} m",
    )


def scale_from_room_area(room: Room, area: SquareMetres) -> Scale:
    """Return the scale from the known floor area of a room.

    Raises
    ------
    QuantityError
        When the area is not above 0.
    ScaleUnknown
        When the room has no outline in a picture.
    """
    _positive("area", area, "m²")
    return Scale(
        metres_per_px=math.sqrt(area / _outline_px(room).area),
        relative_error=PRINTED_ERROR,
        basis=f"{room.name or room.id}, {area:g} m²",
    )


def scale_from_total_area(
    rooms: Sequence[Room], area: SquareMetres, *, with_inner_walls: bool
) -> Scale:
    """Return the scale from the known floor area of all rooms together.

    Parameters
    ----------
    with_inner_walls
        Whether the area counts the walls between the rooms, as printed totals usually do.

    Raises
    ------
    QuantityError
        When the area is not above 0.
    ScaleUnknown
        When no room has an outline in a picture.
    """
    _positive("total area", area, "m²")
    drawn = sum(room.outline_px.area for room in rooms if room.outline_px)
    if not drawn:
        raise ScaleUnknown("total area", "no room was read from a picture", "give a room's sizes")
    floor = ROOMS_OF_TOTAL * area if with_inner_walls else area
    counted = "inner walls included" if with_inner_walls else "floors only"
    return Scale(
        metres_per_px=math.sqrt(floor / drawn),
        relative_error=TOTAL_ERROR if with_inner_walls else PRINTED_ERROR,
        basis=f"a total of {area:g} m², {counted}",
    )


def scale_from_resolution(ratio: Ratio, dpi: float) -> Scale:
    """Return the scale of a drawing at 1 to ``ratio`` scanned or drawn at so many dots an inch.

    Metres per pixel = 0.0254 × ratio ÷ dots an inch.

    Raises
    ------
    QuantityError
        When the ratio or the resolution is not above 0.

    Examples
    --------
    >>> round(scale_from_resolution(100, 300).metres_per_px, 6)
    0.008467
    """
    _positive("drawing scale", ratio, "to 1")
    _positive("resolution", dpi, "dots an inch")
    return Scale(
        metres_per_px=INCH * ratio / dpi,
        relative_error=STATED_ERROR,
        basis=f"the drawing scale 1:{ratio:g} at {dpi:g} dots an inch",
    )


def scale_from_sheet(ratio: Ratio, sheet: tuple[Metres, Metres], source: Source) -> Scale:
    """Return the scale of a drawing at 1 to ``ratio`` whose picture shows the whole sheet.

    Raises
    ------
    QuantityError
        When the ratio or a side of the sheet is not above 0, or picture and sheet differ in shape.
    """
    _positive("drawing scale", ratio, "to 1")
    short, long = sorted(_positive("sheet", side, "m") for side in sheet)
    short_px, long_px = sorted((source.width_px, source.height_px))
    by_each = (ratio * long / long_px, ratio * short / short_px)
    apart = abs(math.log(by_each[0] / by_each[1]))
    if apart > 0.05:
        raise QuantityError(
            "sheet",
            f"the picture is {source.width_px} × {source.height_px} pixels, of another shape",
            "give the size of the whole sheet shown, or two points a known distance apart",
        )
    return Scale(
        metres_per_px=math.sqrt(by_each[0] * by_each[1]),
        relative_error=math.hypot(STATED_ERROR, apart / 2),
        basis=f"the drawing scale 1:{ratio:g} on a sheet of {short:g} × {long:g} m",
    )


def scale_from_doors(rooms: Sequence[Room]) -> Scale:
    """Guess the scale from the usual width of doors, when nothing at all is known.

    Raises
    ------
    ScaleUnknown
        When no door was seen.
    """
    widths = [
        math.dist(opening.start_px, opening.end_px)
        for room in rooms
        for opening in room.openings
        if opening.kind is OpeningKind.DOOR and opening.start_px and opening.end_px
    ]
    if not widths:
        raise ScaleUnknown(
            "scale", "no door was seen to guess it from", "give one known length or area"
        )
    usual = float(np.median(widths))
    return Scale(
        metres_per_px=USUAL_DOOR / usual,
        relative_error=DOOR_ERROR,
        basis=f"a guess: doors are usually {USUAL_DOOR:g} m wide",
    )


def stated_scales(picture: Picture) -> tuple[str, ...]:
    """Return every scale of a drawing printed in the file's own text, in reading order.

    Examples
    --------
    >>> from estimator.reading.picture import Word
    >>> words = (Word(text="Scale", left_px=0, top_px=0, right_px=9, bottom_px=9),
    ...          Word(text="1:50", left_px=9, top_px=0, right_px=19, bottom_px=9))
    >>> stated_scales(Picture(pixels=np.zeros((9, 19, 3), np.uint8), words=words))
    ('1:50',)
    """
    text = " ".join(word.text for word in picture.words)
    return tuple(dict.fromkeys(match[0].strip() for match in _STATED.finditer(text)))


def _outline_px(room: Room) -> Polygon:
    if room.outline_px is None:
        raise ScaleUnknown(
            room.name or room.id, "it was not read from a picture", "choose a room that was"
        )
    return room.outline_px
