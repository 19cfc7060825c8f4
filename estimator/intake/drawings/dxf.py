"""DXF drawings: rooms from their outlines, or else from the walls around them."""

import io
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cache

import shapely
from attrs import evolve, frozen
from ezdxf import recover
from ezdxf.document import Drawing
from shapely.geometry import LineString

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.drawings.assembly import (
    UNKNOWN_USE,
    Lettering,
    at_origin,
    in_reading_order,
    named,
    outline_of,
    rooms_in_metres,
)
from estimator.intake.drawings.choosing import chosen
from estimator.intake.drawings.dxf_contents import Contents, Piece
from estimator.intake.drawings.dxf_sheets import Sheet, sheets_by_layers, sheets_of
from estimator.intake.drawings.dxf_units import (
    POSSIBLE_SIDE,
    USUAL_UNITS,
    Unit,
    declared_unit,
    likeliest_unit,
    middling_side,
)
from estimator.intake.drawings.dxf_walls import (
    distinct,
    in_metres,
    room_outlines,
    swings,
    swings_in_blocks,
    wall_choices,
)
from estimator.intake.drawings.fittings import Fitting, fitted
from estimator.intake.drawings.gaps import Evidence, Gap, covers
from estimator.intake.drawings.hanging import hung
from estimator.intake.drawings.swings import doors_by_swing
from estimator.intake.storeys import Caption, in_storeys
from estimator.measures import Metres
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import stacked
from estimator.plan.furnishing import Furnishing
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Storey

REMEDY = "save it again as DXF with its walls or room outlines in the model space"

# In metres.
_NEAR = 0.5  # from a block to where it was inserted
_THROUGH_WALL = 0.3  # from a block to the faces of its wall
_APART = 3.0  # between two plans
_FEWEST_APART = 2  # rooms of a plan of its own


@frozen(kw_only=True, eq=False)
class _Found:
    """Rooms in metres, and doors and windows that stand by none of their walls."""

    rooms: tuple[Room, ...]
    left: tuple[Fitting, ...]
    by_outlines: bool


_Reader = Callable[[Contents, Metres], _Found]
"""Reads the rooms when a unit is so many metres, each once."""


def dxf_plan(data: bytes, name: str, uses: Mapping[str, str], furniture: Mapping[str, str]) -> Plan:
    """Read the rooms of a DXF.

    Parameters
    ----------
    uses, furniture
        Use of a room and kind of furniture by word, the words in lower case.

    Raises
    ------
    SourceError
        When the file is damaged or too large.
    NoClosedRoom
        When nothing in it encloses a room.
    """
    document = _opened(data, name)
    try:
        sheets = _sheets(document, name, furniture)
    except EstimatorError:
        raise
    except Exception as error:  # whatever damaged parts make the library raise
        raise SourceError(name, "the drawing is damaged", REMEDY) from error
    read = cache(_rooms)
    unit, doubts = _unit(document, sheets, name, read)
    found = [(sheet, read(sheet.contents, unit.metres)) for sheet in sheets]
    plan = stacked([_plan(sheet, one, unit.metres, uses) for sheet, one in found if one.rooms])
    return evolve(plan, doubts=(*doubts, *plan.doubts))


def _sheets(document: Drawing, name: str, furniture: Mapping[str, str]) -> list[Sheet]:
    """Return what is drawn, by storeys where layers or layouts tell them apart."""
    sheets = sheets_of(document, name, furniture)
    if len(sheets) == 1:
        parts = list(sheets_by_layers(document, sheets[0].contents, name, furniture))
        return parts or sheets
    return sheets


def _plan(sheet: Sheet, found: _Found, metres: Metres, uses: Mapping[str, str]) -> Plan:
    """Return the storeys on one sheet."""
    contents = sheet.contents
    letterings = [
        evolve(text, at=(text.at[0] * metres, text.at[1] * metres)) for text in contents.letterings
    ]
    rooms = _furnished(named(found.rooms, letterings, uses), contents.pieces, metres)
    plan = Plan(storeys=(Storey(name=sheet.name),), rooms=rooms)
    if not sheet.name:
        plan = in_storeys(plan, _captions(letterings, rooms))
    doubts = [*plan.doubts, *_doubts(found, plan)]
    if contents.strange:
        says = f"{contents.strange} parts are of a kind of their own and are left out."
        doubts.append(Doubt(aspect=Aspect.OTHER, says=says, confidence=0.7))
    apart = {
        room.id: room
        for storey in plan.storeys
        for room in at_origin([room for room in plan.rooms if room.storey == storey.number])
    }
    return evolve(plan, rooms=tuple(apart[room.id] for room in plan.rooms), doubts=tuple(doubts))


def _captions(letterings: Sequence[Lettering], rooms: Sequence[Room]) -> list[Caption]:
    """Return the lines of text that stand in no room."""
    tree = shapely.STRtree([outline_of(room) for room in rooms])
    return [
        Caption(text=line, box=(*text.at, *text.at))
        for text in letterings
        if not tree.query(shapely.Point(text.at), predicate="intersects").size
        for line in text.text.splitlines()
    ]


def _opened(data: bytes, name: str) -> Drawing:
    try:
        document, _ = recover.read(io.BytesIO(data))
    except Exception as error:
        raise SourceError(name, "the drawing is damaged or cut off", REMEDY) from error
    return document


def _unit(
    document: Drawing, sheets: Sequence[Sheet], name: str, read: _Reader
) -> tuple[Unit, list[Doubt]]:
    """Return the unit of the drawing, as it says or as the rooms of a sheet make likely.

    Raises
    ------
    NoClosedRoom
        When no unit makes any rooms.
    """
    unit = declared_unit(document)
    if unit is not None:
        for sheet in sheets:
            rooms = read(sheet.contents, unit.metres).rooms
            if rooms and POSSIBLE_SIDE[0] <= middling_side(rooms) <= POSSIBLE_SIDE[1]:
                return unit, []
    said = f"says {unit.name}, which cannot be" if unit else "does not say its unit"
    for sheet in sheets:
        likeliest = likeliest_unit(
            document,
            {label: read(sheet.contents, size).rooms for label, size in USUAL_UNITS.items()},
        )
        if likeliest is not None:
            says = (
                f"The file {said}; {likeliest.name} are taken by the usual size of rooms and doors."
            )
            doubt = Doubt(aspect=Aspect.SCALE, says=says, confidence=likeliest.confidence)
            return likeliest, [doubt]
    raise NoClosedRoom(name, "no outlines or walls in it enclose a room", REMEDY)


def _rooms(contents: Contents, metres: float) -> _Found:
    """Return the rooms when a unit is so many metres."""
    fittings = [_fitting(piece, metres) for piece in contents.pieces if _is_opening(piece)]
    outlines = distinct([in_metres(outline, metres) for outline in room_outlines(contents)])
    gaps: tuple[Gap, ...] = ()
    by_outlines = bool(outlines)
    if outlines:
        edges = shapely.union_all([outline.boundary for outline in outlines])
        evidence = Evidence(curves=tuple(swings(contents, metres)))
        fittings += [door.fitting for door in doors_by_swing(evidence, edges, gaps)]
    else:
        objects = tuple((fitting.kind, fitting.extent) for fitting in fittings)
        choice = chosen(wall_choices(contents, metres, objects))
        if choice:
            outlines, gaps = list(choice.found.rooms), choice.found.gaps
            fittings += choice.found.fittings
    rooms = rooms_in_metres(in_reading_order(outlines), gaps)
    rooms, left = fitted(rooms, [fitting for fitting in fittings if not _in_a_gap(fitting, gaps)])
    curves = [*swings(contents, metres), *swings_in_blocks(contents, metres)]
    return _Found(rooms=hung(rooms, curves), left=left, by_outlines=by_outlines)


def _is_opening(piece: Piece) -> bool:
    return isinstance(piece.kind, OpeningKind)


def _fitting(piece: Piece, metres: float) -> Fitting:
    extent = in_metres(piece.extent, metres)
    at = piece.at[0] * metres, piece.at[1] * metres
    if not extent.dwithin(shapely.Point(at), _NEAR):
        at = extent.centroid.x, extent.centroid.y
    return Fitting(kind=OpeningKind(piece.kind), at=at, extent=extent)


def _in_a_gap(fitting: Fitting, gaps: Sequence[Gap]) -> bool:
    return any(
        gap.kind is fitting.kind and covers(fitting.extent, LineString(side), _THROUGH_WALL)
        for gap in gaps
        for side in gap.sides
    )


def _furnished(rooms: Sequence[Room], pieces: Sequence[Piece], metres: float) -> tuple[Room, ...]:
    """Return rooms with the furniture that stands in them."""
    standing: dict[str, list[Furnishing]] = {room.id: [] for room in rooms}
    for piece in pieces:
        if not _is_opening(piece):
            footprint = in_metres(piece.extent, metres)
            middle = footprint.centroid
            room = next((room for room in rooms if outline_of(room).contains(middle)), None)
            if room:
                standing[room.id].append(Furnishing(kind=piece.kind, footprint=footprint))
    return tuple(evolve(room, furnishings=tuple(standing[room.id])) for room in rooms)


def _doubts(found: _Found, plan: Plan) -> Iterator[Doubt]:
    """Yield what the drawing leaves open."""
    if not found.by_outlines:
        says = "No layer holds outlines of rooms; the rooms are what the drawn walls enclose."
        yield Doubt(aspect=Aspect.OUTLINE, says=says, confidence=0.9)
    if found.left:
        count = len(found.left)
        says = f"{count} doors or windows stand by no wall of a room and are left out."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.5)
    if not any(room.openings for room in plan.rooms):
        says = "No doors and windows were recognised in the drawing; walls are taken as closed."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.3)
    for room in plan.rooms:
        if room.use == UNKNOWN_USE:
            says = f"What {room.name} is used for is not known; an ordinary room is assumed."
            yield Doubt(aspect=Aspect.USE, room=room.id, says=says, confidence=0.5)
    if len(plan.storeys) == 1:
        yield from _side_by_side(plan.rooms)


def _side_by_side(rooms: Sequence[Room]) -> Iterator[Doubt]:
    """Yield that there are several plans where nothing tells whether they are storeys."""
    near = shapely.union_all([outline_of(room).buffer(_APART / 2) for room in rooms])
    plans = [
        part
        for part in shapely.get_parts(near).tolist()
        if sum(part.contains(outline_of(room)) for room in rooms) >= _FEWEST_APART
    ]
    if len(plans) > 1:
        says = (
            f"The drawing holds {len(plans)} plans beside each other; they are taken as one "
            "storey, so delete what shows the same rooms twice."
        )
        yield Doubt(aspect=Aspect.OTHER, says=says, confidence=0.5)
