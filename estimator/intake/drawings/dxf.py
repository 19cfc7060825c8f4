"""DXF drawings: rooms from their outlines, or else from the walls around them."""

import io
from collections.abc import Iterator, Mapping, Sequence

import shapely
from attrs import evolve, frozen
from ezdxf import recover
from ezdxf.document import Drawing
from shapely.geometry import LineString

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.drawings.assembly import (
    UNKNOWN_USE,
    at_origin,
    in_reading_order,
    named,
    outline_of,
    rooms_in_metres,
)
from estimator.intake.drawings.choosing import chosen
from estimator.intake.drawings.dxf_contents import Contents, Piece, contents_of
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
    wall_choices,
)
from estimator.intake.drawings.fittings import Fitting, fitted
from estimator.intake.drawings.gaps import Evidence, Gap, covers
from estimator.intake.drawings.swings import doors_by_swing
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.furnishing import Furnishing
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room

REMEDY = "save it again as DXF with its walls or room outlines in the model space"

# In metres.
_NEAR = 0.5  # from a block to where it was inserted
_THROUGH_WALL = 0.3  # from a block to the faces of its wall
_APART = 3.0  # between two plans
_FEWEST_APART = 2  # rooms of a plan of its own


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
        contents = contents_of(document, name, furniture)
    except EstimatorError:
        raise
    except Exception as error:  # whatever damaged parts make the library raise
        raise SourceError(name, "the drawing is damaged", REMEDY) from error
    unit, found, doubts = _sized(document, contents, name)
    letterings = [
        evolve(text, at=(text.at[0] * unit.metres, text.at[1] * unit.metres))
        for text in contents.letterings
    ]
    rooms = named(found.rooms, letterings, uses)
    rooms = _furnished(rooms, contents.pieces, unit.metres)
    if contents.strange:
        says = f"{contents.strange} parts are of a kind of their own and are left out."
        doubts.append(Doubt(aspect=Aspect.OTHER, says=says, confidence=0.7))
    doubts += _doubts(found, rooms)
    return Plan(rooms=at_origin(rooms), doubts=tuple(doubts))


@frozen(kw_only=True, eq=False)
class _Found:
    """Rooms in metres, and doors and windows that stand by none of their walls."""

    rooms: tuple[Room, ...]
    left: tuple[Fitting, ...]
    by_outlines: bool


def _opened(data: bytes, name: str) -> Drawing:
    try:
        document, _ = recover.read(io.BytesIO(data))
    except Exception as error:
        raise SourceError(name, "the drawing is damaged or cut off", REMEDY) from error
    return document


def _sized(document: Drawing, contents: Contents, name: str) -> tuple[Unit, _Found, list[Doubt]]:
    """Return the unit and the rooms by it."""
    unit = declared_unit(document)
    found = _rooms(contents, unit.metres) if unit else None
    if unit and found and found.rooms:
        side = middling_side(found.rooms)
        if POSSIBLE_SIDE[0] <= side <= POSSIBLE_SIDE[1]:
            return unit, found, []
    tried = {label: _rooms(contents, metres) for label, metres in USUAL_UNITS.items()}
    likeliest = likeliest_unit(document, {label: one.rooms for label, one in tried.items()})
    if likeliest is None:
        raise NoClosedRoom(name, "no outlines or walls in it enclose a room", REMEDY)
    said = f"says {unit.name}, which cannot be" if unit else "does not say its unit"
    doubt = Doubt(
        aspect=Aspect.SCALE,
        says=f"The file {said}; {likeliest.name} are taken by the usual size of rooms and doors.",
        confidence=likeliest.confidence,
    )
    return likeliest, tried[likeliest.name], [doubt]


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
    return _Found(rooms=rooms, left=left, by_outlines=by_outlines)


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


def _doubts(found: _Found, rooms: Sequence[Room]) -> Iterator[Doubt]:
    """Yield what the drawing leaves open."""
    if not found.by_outlines:
        says = "No layer holds outlines of rooms; the rooms are what the drawn walls enclose."
        yield Doubt(aspect=Aspect.OUTLINE, says=says, confidence=0.9)
    if found.left:
        count = len(found.left)
        says = f"{count} doors or windows stand by no wall of a room and are left out."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.5)
    if not any(room.openings for room in rooms):
        says = "No doors and windows were recognised in the drawing; walls are taken as closed."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.3)
    for room in rooms:
        if room.use == UNKNOWN_USE:
            says = f"What {room.name} is used for is not known; an ordinary room is assumed."
            yield Doubt(aspect=Aspect.USE, room=room.id, says=says, confidence=0.5)
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
