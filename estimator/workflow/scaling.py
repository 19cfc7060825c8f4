"""Give a plan its scale from whatever is known about it."""

from attrs import frozen

from estimator.errors import ScaleUnknown
from estimator.measures import Metres, Ratio, SquareMetres
from estimator.plan.edits import of_one_picture, rescaled
from estimator.plan.flat import laid_flat
from estimator.plan.opening import Point
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale
from estimator.quantities.scales import DrawingScale, sheet_sides
from estimator.reading import scale as scales


@frozen(kw_only=True)
class KnownLength:
    """Two points of the picture that are so far apart on site."""

    start_px: Point
    end_px: Point
    length: Metres


@frozen(kw_only=True)
class KnownRoom:
    """A room whose largest width and depth are known."""

    room: str
    width: Metres
    depth: Metres


@frozen(kw_only=True)
class KnownRoomArea:
    """A room whose floor area is known."""

    room: str
    area: SquareMetres


@frozen(kw_only=True)
class KnownTotal:
    """A known floor area of all rooms on a picture, with or without the walls between them."""

    area: SquareMetres
    with_inner_walls: bool


@frozen(kw_only=True)
class DrawnAt:
    """A drawing scale, with the resolution of the picture or the sheet it shows."""

    drawing_scale: DrawingScale
    dpi: Ratio | None = None


Known = KnownLength | KnownRoom | KnownRoomArea | KnownTotal | DrawnAt


def scaled_by(plan: Plan, known: Known, storey: int = 0) -> Plan:
    """Return the plan with every room on a storey's picture sized by what is known.

    Raises
    ------
    EstimatorError
        One sentence on why no scale follows from it.
    """
    return rescaled(plan, _scale(plan, known, storey), storey)


def scaled_by_doors(plan: Plan, storey: int = 0) -> Plan:
    """Return the plan sized by a guess from its doors, or as it is when it has none."""
    try:
        return rescaled(plan, scales.scale_from_doors(_rooms(laid_flat(plan), storey)), storey)
    except ScaleUnknown:
        return plan


def _scale(plan: Plan, known: Known, storey: int) -> Scale:
    sheet, plan = plan.storey(storey).sheet, laid_flat(plan)
    match known:
        case KnownLength():
            start, end = known.start_px, known.end_px
            if sheet:
                start, end = sheet.flat_point(start), sheet.flat_point(end)
            return scales.scale_from_points(start, end, known.length)
        case KnownRoom():
            return scales.scale_from_room(plan.room(known.room), known.width, known.depth)
        case KnownRoomArea():
            return scales.scale_from_room_area(plan.room(known.room), known.area)
        case KnownTotal():
            return scales.scale_from_total_area(
                _rooms(plan, storey), known.area, with_inner_walls=known.with_inner_walls
            )
        case DrawnAt():
            return _drawn_at(plan, known, storey)


def _drawn_at(plan: Plan, known: DrawnAt, storey: int) -> Scale:
    ratio, sheet = known.drawing_scale.ratio, known.drawing_scale.sheet
    source = plan.storey(storey).source
    if sheet is not None and source is not None:
        return scales.scale_from_sheet(ratio, sheet_sides(sheet), source)
    if known.dpi is not None:
        return scales.scale_from_resolution(ratio, known.dpi)
    raise ScaleUnknown(
        f"1:{ratio:g}",
        "a drawing scale says nothing without the size of the sheet",
        "give the sheet, as in 1:50 @ A3, or the picture's dots an inch",
    )


def _rooms(plan: Plan, storey: int) -> tuple[Room, ...]:
    numbers = {level.number for level in of_one_picture(plan, storey)}
    return tuple(room for room in plan.rooms if room.storey in numbers)
