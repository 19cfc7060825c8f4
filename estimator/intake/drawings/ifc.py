"""Spaces of an IFC model: outlines, heights and names as they are modelled."""

import math
from collections.abc import Iterator, Mapping, Sequence
from importlib import import_module
from typing import Any

from attrs import evolve, frozen
from shapely.geometry import LineString, Polygon

from estimator.errors import EstimatorError, NoClosedRoom, SourceError
from estimator.intake.drawings.assembly import UNKNOWN_USE, at_origin
from estimator.intake.drawings.fittings import Fitting, fitted
from estimator.intake.drawings.solids import footprint, height_of
from estimator.intake.room_names import numbered, use_of
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Storey

REMEDY = "export the model again with its rooms as spaces (IfcSpace)"

_LEAST_ROOM = 0.3  # m²
_LEAF = 0.05  # metres about the line of a door or window
_CHORD = 0.0005  # metres between a curve and its chords
_NOT_FLOOR = ("GFA", "EXTERNAL", "PARKING", "BERTH")  # kinds of space that are no room [IFC4]


@frozen(kw_only=True, eq=False)
class _Space:
    """A space in metres; ``level`` is the height of its floor."""

    room: Room
    level: float
    has_level_ceiling: bool


def ifc_plan(data: bytes, name: str, uses: Mapping[str, str]) -> Plan:
    """Read the spaces of a model.

    Parameters
    ----------
    uses
        Use of a room by word, the words in lower case.

    Raises
    ------
    SourceError
        When the extra ``ifc`` is not installed, or the file is damaged.
    NoClosedRoom
        When it has no space with a shape.
    """
    reader = _part("ifcopenshell", name)
    try:
        return _plan(reader.file.from_string(data.decode("utf-8", errors="replace")), name, uses)
    except EstimatorError:
        raise
    except Exception as error:  # whatever damaged parts make the library raise
        raise SourceError(name, "the model is damaged or cut off", REMEDY) from error


def _plan(model: Any, name: str, uses: Mapping[str, str]) -> Plan:
    unit = float(_part("ifcopenshell.util.unit", name).calculate_unit_scale(model))
    levels = sorted(
        model.by_type("IfcBuildingStorey"), key=lambda level: (level.Elevation or 0.0, level.id())
    )
    numbers = {level.id(): number for number, level in enumerate(levels)}
    shaped: list[_Space] = []
    shapeless = 0
    for space in model.by_type("IfcSpace"):
        if _is_room(space):
            found = _space(space, len(shaped) + 1, numbers, uses, name)
            shaped += [found] if found else []
            shapeless += found is None
    if not shaped:
        raise NoClosedRoom(name, "no space of the model has a shape", REMEDY)
    fittings, sizeless = _fittings(model, numbers, shaped, unit, name)
    names = numbered(space.room.name for space in shaped)
    rooms = [evolve(space.room, name=called) for space, called in zip(shaped, names, strict=True)]
    placed, left = fitted(rooms, fittings)
    shaped = [
        evolve(space, room=room) for space, room in zip(shaped, at_origin(placed), strict=True)
    ]
    return Plan(
        title=next((one.Name for one in model.by_type("IfcBuilding") if one.Name), ""),
        storeys=_storeys(levels, shaped),
        rooms=tuple(space.room for space in shaped),
        doubts=tuple(_doubts(shaped, shapeless, sizeless + len(left))),
    )


def _part(module: str, name: str) -> Any:
    """Return a part of the library that reads models."""
    try:
        return import_module(module)
    except ImportError as error:
        raise SourceError(
            name,
            "reading IFC takes an extra that is not installed",
            'install it with pip install "estimator[ifc]"',
        ) from error


def _is_room(space: Any) -> bool:
    """Tell whether a space is a room: not outdoors, and not made of smaller spaces."""
    kind = getattr(space, "PredefinedType", None)
    outdoors = getattr(space, "InteriorOrExteriorSpace", None) == "EXTERNAL"
    parts = (part for made in space.IsDecomposedBy or () for part in made.RelatedObjects)
    return kind not in _NOT_FLOOR and not outdoors and not any(p.is_a("IfcSpace") for p in parts)


def _space(
    space: Any, place: int, numbers: Mapping[int, int], uses: Mapping[str, str], name: str
) -> _Space | None:
    """Return a space with its outline and height; None when it has no shape."""
    mesh = _mesh(space, name)
    outline = footprint(*mesh) if mesh else None
    if mesh is None or outline is None or outline.area < _LEAST_ROOM:
        return None
    height, is_level = height_of(*mesh, outline)
    called = " ".join((space.LongName or space.Name or "Room").split())
    room = Room(
        id=f"room-{place}",
        name=called,
        use=use_of(called, uses) or UNKNOWN_USE,
        storey=numbers.get(_storey_of(space), 0),
        outline=outline,
        ceiling_height=height or None,
        basis=Basis.MEASURED,
    )
    lowest = min(z for _, _, z in mesh[0])
    return _Space(room=room, level=float(lowest), has_level_ceiling=is_level)


def _mesh(thing: Any, name: str) -> tuple[Any, Any] | None:
    """Return the corners, y downwards, and the triangles of what fills a space."""
    if not thing.Representation:
        return None
    geometry = _part("ifcopenshell.geom", name)
    settings = geometry.settings()
    settings.set("use-world-coords", True)
    settings.set("mesher-linear-deflection", _CHORD)
    try:
        shape = geometry.create_shape(settings, thing).geometry
    except RuntimeError:
        return None
    corners = [
        (x, -y, z)
        for x, y, z in zip(shape.verts[::3], shape.verts[1::3], shape.verts[2::3], strict=True)
    ]
    triangles = list(zip(shape.faces[::3], shape.faces[1::3], shape.faces[2::3], strict=True))
    return (corners, triangles) if triangles else None


def _storey_of(thing: Any) -> int:
    """Return the id of the storey that something lies on; 0 when it lies on none."""
    while thing is not None and not thing.is_a("IfcBuildingStorey"):
        inside = getattr(thing, "ContainedInStructure", None) or ()
        part_of = getattr(thing, "Decomposes", None) or ()
        holders = [relation.RelatingStructure for relation in inside]
        holders += [relation.RelatingObject for relation in part_of]
        thing = holders[0] if holders else None
    return thing.id() if thing is not None else 0


def _fittings(
    model: Any, numbers: Mapping[int, int], spaces: Sequence[_Space], unit: float, name: str
) -> tuple[list[Fitting], int]:
    """Return doors and windows with a size and a place, and how many have none."""
    placing = _part("ifcopenshell.util.placement", name)
    found, sizeless = [], 0
    for kind, called in ((OpeningKind.DOOR, "IfcDoor"), (OpeningKind.WINDOW, "IfcWindow")):
        for thing in model.by_type(called):
            width = (thing.OverallWidth or 0.0) * unit
            if not width > 0 or thing.ObjectPlacement is None:
                sizeless += 1
                continue
            place = placing.get_local_placement(thing.ObjectPlacement)
            x, y, z = (float(part) * unit for part in place[:3, 3])
            along = float(place[0, 0]), -float(place[1, 0])
            if not math.hypot(*along) > 0:
                sizeless += 1
                continue
            line = LineString([(x, -y), (x + along[0] * width, -y + along[1] * width)])
            storey = numbers.get(_storey_of(thing), 0)
            floor = [space.level for space in spaces if space.room.storey == storey]
            sill = max(z - min(floor), 0.0) if floor and kind is OpeningKind.WINDOW else None
            found.append(
                Fitting(
                    kind=kind,
                    at=(line.centroid.x, line.centroid.y),
                    extent=Polygon(line.buffer(_LEAF, cap_style="flat")),
                    storey=storey,
                    height=(thing.OverallHeight or 0.0) * unit or None,
                    sill=sill,
                )
            )
    return found, sizeless


def _storeys(levels: Sequence[Any], spaces: Sequence[_Space]) -> tuple[Storey, ...]:
    """Return the storeys that have rooms; one without a name when the model has none."""
    used = {space.room.storey for space in spaces}
    names = {number: level.LongName or level.Name or "" for number, level in enumerate(levels)}
    return tuple(Storey(number=number, name=names.get(number, "")) for number in sorted(used))


def _doubts(spaces: Sequence[_Space], shapeless: int, unplaced: int) -> Iterator[Doubt]:
    if shapeless:
        says = f"{shapeless} spaces of the model have no shape and are left out."
        yield Doubt(aspect=Aspect.OUTLINE, says=says, confidence=0.5)
    if unplaced:
        says = f"{unplaced} doors or windows have no size or stand by no room and are left out."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.5)
    if not any(space.room.openings for space in spaces):
        says = "No doors and windows were found in the model; walls are taken as closed."
        yield Doubt(aspect=Aspect.OPENINGS, says=says, confidence=0.3)
    for space in spaces:
        room = space.room
        if not space.has_level_ceiling:
            says = f"The ceiling of {room.name} is not level; its mean height is taken."
            yield Doubt(
                aspect=Aspect.HEIGHT, room=room.id, says=says, confidence=0.8, relative_error=0.05
            )
        if room.use == UNKNOWN_USE:
            says = f"What {room.name} is used for is not known; an ordinary room is assumed."
            yield Doubt(aspect=Aspect.USE, room=room.id, says=says, confidence=0.5)
