"""What each printed figure claims about the scale, measured on the room or line it belongs to."""

import math
from collections.abc import Iterator, Sequence
from statistics import median

import shapely
from shapely.geometry import Polygon

from estimator.errors import EstimatorError, ScaleUnknown
from estimator.lettering.chords import chord
from estimator.lettering.consensus import Claim, Option
from estimator.lettering.dimensions import dimension_px, ink_of
from estimator.lettering.labels import (
    FloorArea,
    Label,
    NotToScale,
    RoomSize,
    StatedScale,
    WallLength,
)
from estimator.lettering.lengths import Lettered
from estimator.lettering.line import Box
from estimator.lettering.naming import Placed, names_in
from estimator.lettering.scale_bars import scale_bar
from estimator.lettering.sizes import Size
from estimator.measures import Metres, Share, SquareMetres
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale
from estimator.quantities.scales import sheet_sides
from estimator.reading import scale as scales
from estimator.reading.picture import Picture

SIDES, AREAS, LENGTHS = "room sides", "room areas", "wall lengths"
BAR, STATED, TOTAL, DOORS = "scale bar", "stated scale", "total area", "usual doors"

# One standard deviation of where a wall or a tick is read, in pixels.
_WALL_PX = 1.0
_TICK_PX = 0.7
# Rooms are drawn a little off their printed sizes, dimension lines hardly (common practice).
_ROOM_ERROR: Share = 0.01
_LINE_ERROR: Share = 0.004
_BAR_LETTERS: Share = 0.15  # of a letter's height: where a mark is read
# Rooms may be missing from a total, or counted that are not in it.
_TOTAL_ERROR: Share = 0.05
# Half a width of even rounding is 1.73 standard deviations of it.
_ROUNDED = math.sqrt(12)
# How likely another width than the largest is meant.
_USUAL_CHORD: Share = 0.7
_BESIDE: Share = 0.5
_SAME: Share = 0.01
_SCANNED = (0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9)
# Sizes of a room that holds the names of several are rather of a part of it.
_SHARED: Share = 0.4
# Resolutions that scanners and drawing programs use; lower ones are mere defaults of pictures.
_LEAST_DPI = 99.0
_NOT_TO_SCALE: Share = 0.3
_DOORS: Share = 0.3
_SAME_TOTAL: Share = 0.01


def claims(plan: Plan, found: Placed, picture: Picture) -> tuple[Claim, ...]:
    """Return what everything printed, and the usual doors, claim about the scale."""
    everything = tuple(label for labels in found.in_rooms.values() for label in labels)
    everything += found.elsewhere
    told_off = any(isinstance(label, NotToScale) for label in everything)
    return (
        *_of_rooms(plan, found),
        *_of_lengths(everything, picture),
        *_of_bar(everything),
        *_of_stated(everything, plan, picture, _NOT_TO_SCALE if told_off else 1.0),
        *_of_totals(everything, found, plan),
        *_of_doors(plan),
    )


def _of_rooms(plan: Plan, found: Placed) -> Iterator[Claim]:
    for room in plan.rooms:
        labels = found.in_rooms.get(room.id, ())
        if room.outline_px is None:
            continue
        sized = [label for label in labels if isinstance(label, RoomSize)]
        shared = len(sized) > 1 or len(names_in(labels)) > 1
        weight = room.confidence * (_SHARED if shared else 1.0)
        for size in sized:
            yield from _of_size(room, size, weight)
        for label in labels:
            if isinstance(label, FloorArea) and not label.says_total and not shared:
                yield _of_area(room, room.outline_px, label, weight)


def _of_size(room: Room, label: RoomSize, weight: float) -> Iterator[Claim]:
    """Yield a claim of each side: the longer is the longer extent, or that beside the lettering."""
    extents = scales.extents_px(room)
    assert room.outline_px is not None
    others = [
        (other_px, sure)
        for other_px, sure in _chords(room.outline_px, label.line.centre_px)
        if other_px > 0 and all(abs(other_px / extent - 1) > _SAME for extent in extents)
    ]
    size = label.sizes.likeliest
    for place, printed in enumerate(sorted((size.width, size.depth), reverse=True)):
        options = []
        for way in label.sizes.ways:
            side = sorted((way.width, way.depth), reverse=True)[place]
            sure = way.likelihood / size.likelihood
            options.append(_side(side, extents[place], way, sure))
            options += [_side(side, other_px, way, fit * sure) for other_px, fit in others]
        yield Claim(
            says=f"{room.name}, {printed:.2f} m",
            kind=SIDES,
            options=tuple(options),
            weight=weight,
            printed=printed,
            room=room.id,
        )


def _side(side: Metres, side_px: float, way: Size, likelihood: float) -> Option:
    rounding = way.step / _ROUNDED / side
    placing = math.sqrt(2) * _WALL_PX / side_px
    return Option(
        metres_per_px=side / side_px,
        relative_error=min(1.0, math.hypot(rounding, placing, _ROOM_ERROR)),
        likelihood=min(1.0, likelihood),
    )


def _chords(outline: Polygon, at: tuple[float, float]) -> Iterator[tuple[float, Share]]:
    """Yield other widths and depths that may be meant, each with how likely.

    That from wall to wall through the lettering, where a room is wider elsewhere; and the usual
    one, where recesses of windows and doors widen the whole.
    """
    left, top, right, bottom = outline.bounds
    at = min(right, max(left, at[0])), min(bottom, max(top, at[1]))
    for low, high, place, lies_across in (
        (top, bottom, at[1], True),
        (left, right, at[0], False),
    ):
        spread = [chord(outline, low + share * (high - low), lies_across) for share in _SCANNED]
        yield median(spread), _USUAL_CHORD
        yield chord(outline, place, lies_across), _BESIDE


def _of_area(room: Room, outline: Polygon, label: FloorArea, weight: float) -> Claim:
    rounding = 0.1 / _ROUNDED / label.area
    placing = _WALL_PX / 2 * outline.length / outline.area / 2
    option = Option(
        metres_per_px=math.sqrt(label.area / outline.area),
        relative_error=min(1.0, math.hypot(rounding / 2, placing, _ROOM_ERROR)),
    )
    return Claim(
        says=f"{room.name}, {label.area:.1f} m²",
        kind=AREAS,
        options=(option,),
        weight=weight,
        printed=label.area,
        room=room.id,
    )


def _of_lengths(labels: Sequence[Label], picture: Picture) -> Iterator[Claim]:
    lengths = [label for label in labels if isinstance(label, WallLength)]
    if not lengths:
        return
    ink = ink_of(picture.pixels)
    for label in lengths:
        drawn = dimension_px(ink, label.line)
        if drawn is None:
            continue
        likeliest = label.ways[0]
        options = tuple(
            Option(
                metres_per_px=way.value / drawn,
                relative_error=_line_error(way, drawn),
                likelihood=way.likelihood / likeliest.likelihood,
            )
            for way in label.ways
        )
        yield Claim(
            says=f"the length {likeliest.value:.2f} m",
            kind=LENGTHS,
            options=options,
            weight=likeliest.likelihood,
        )


def _line_error(way: Lettered, drawn: float) -> Share:
    rounding = way.step / _ROUNDED / way.value
    return min(1.0, math.hypot(rounding, math.sqrt(2) * _TICK_PX / drawn, _LINE_ERROR))


def _of_bar(labels: Sequence[Label]) -> Iterator[Claim]:
    bar = scale_bar(labels)
    if bar is not None:
        option = Option(
            metres_per_px=bar.length / bar.length_px,
            relative_error=min(
                1.0, math.hypot(_LINE_ERROR, _BAR_LETTERS * bar.letter_px / bar.length_px)
            ),
        )
        yield Claim(says=f"the scale bar, {bar.length:.2f} m", kind=BAR, options=(option,))


def _of_stated(
    labels: Sequence[Label], plan: Plan, picture: Picture, weight: float
) -> Iterator[Claim]:
    for label in labels:
        if isinstance(label, StatedScale) and (scale := _stated(label, plan, picture)):
            yield _claim(scale, f"the stated scale 1:{label.scale.ratio:g}", STATED, weight)
            return


def _stated(label: StatedScale, plan: Plan, picture: Picture) -> Scale | None:
    """Return the scale stated for the sheet shown, or for the picture's resolution."""
    ratio, sheet = label.scale.ratio, label.scale.sheet
    source = plan.storeys[0].source
    try:
        if sheet is not None and source is not None:
            return scales.scale_from_sheet(ratio, sheet_sides(sheet), source)
    except EstimatorError:
        pass
    if picture.dpi is not None and picture.dpi > _LEAST_DPI:
        return scales.scale_from_resolution(ratio, picture.dpi)
    return None


def _of_totals(labels: Sequence[Label], found: Placed, plan: Plan) -> Iterator[Claim]:
    """Yield a claim of each total: an area that says so, or that stands outside the rooms."""
    told: list[float] = []
    for label in labels:
        if not isinstance(label, FloorArea):
            continue
        if not (label.says_total or label in found.elsewhere):
            continue
        if any(abs(label.area / other - 1) <= _SAME_TOTAL for other in told):
            continue
        told.append(label.area)
        options = [
            option
            for rooms in _counted(plan, label.line.box_px)
            if (option := _of_total(rooms, label.area)) is not None
        ]
        if options:
            says = f"a total of {label.area:.1f} m²"
            yield Claim(says=says, kind=TOTAL, options=tuple(options), weight=1.0)


def _counted(plan: Plan, box_px: Box) -> Iterator[Sequence[Room]]:
    """Yield the rooms that a total may count: all, or those of the storey it stands by."""
    yield plan.rooms
    if len(plan.storeys) > 1:
        outlines = [room.outline_px or Polygon() for room in plan.rooms]
        nearest = int(shapely.STRtree(outlines).nearest(shapely.box(*box_px)))
        yield [room for room in plan.rooms if room.storey == plan.rooms[nearest].storey]


def _of_total(rooms: Sequence[Room], area: SquareMetres) -> Option | None:
    try:
        scale = scales.scale_from_total_area(rooms, area, with_inner_walls=True)
    except ScaleUnknown:
        return None
    return Option(metres_per_px=scale.metres_per_px, relative_error=_TOTAL_ERROR)


def _of_doors(plan: Plan) -> Iterator[Claim]:
    try:
        yield _claim(scales.scale_from_doors(plan.rooms), "doors 0.8 m wide", DOORS, _DOORS)
    except ScaleUnknown:
        return


def _claim(scale: Scale, says: str, kind: str, weight: float) -> Claim:
    option = Option(metres_per_px=scale.metres_per_px, relative_error=scale.relative_error)
    return Claim(says=says, kind=kind, options=(option,), weight=weight)
