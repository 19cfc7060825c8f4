"""The plan as plain data, schema ``plan/1``: the contract of ``plan.json``.

Lengths are metres, ``_px`` pixels of the picture as given (y downwards). ``source`` and ``scale``
are those of the first storey; ``storeys`` lists all of them and may be left out for one. A storey
whose picture shows its sheet askew has a ``sheet`` with the projective map from the picture to the
sheet laid flat; its scale is metres per pixel of the flat sheet then.
"""

import math
from collections.abc import Callable, Mapping, Sequence
from typing import Any, TypeVar, cast

from shapely.geometry import Polygon

from estimator.errors import EstimatorError, PlanError
from estimator.plan.consistency import consistent, mended_outline
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.furnishing import Furnishing
from estimator.plan.geometry import polygon
from estimator.plan.opening import Hinge, Opening, OpeningKind, Point
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Ceiling, Profile, Room
from estimator.plan.sheet import Sheet
from estimator.plan.storey import Scale, Source, Storey

SCHEMA = "plan/1"

Data = Mapping[str, Any]
Made = TypeVar("Made")


def plan_to_dict(plan: Plan) -> dict[str, Any]:
    """Return the plan as JSON-ready data."""
    storeys = [_storey_out(storey) for storey in plan.storeys]
    return {
        "schema": SCHEMA,
        "title": plan.title,
        "source": storeys[0]["source"],
        "scale": storeys[0]["scale"],
        "storeys": storeys,
        "rooms": [_room_out(room) for room in plan.rooms],
        "doubts": [
            {
                "aspect": doubt.aspect.value,
                "room": doubt.room,
                "says": doubt.says,
                "confidence": doubt.confidence,
                "relative_error": doubt.relative_error,
            }
            for doubt in plan.doubts
        ],
    }


def plan_from_dict(data: object) -> Plan:
    """Return the plan that the data describe, contradictions mended with a doubt that says so.

    Raises
    ------
    PlanError
        When the data are of another schema, lack something, or contradict each other beyond
        mending; the sentence names the room.
    """
    return consistent(plan_as_written(data))


def plan_as_written(data: object) -> Plan:
    """Return the plan that the data describe, with whatever contradictions it was saved with.

    Raises
    ------
    PlanError
        When the data are of another schema or lack something; the sentence names the room.
    """
    if not isinstance(data, Mapping) or data.get("schema") != SCHEMA:
        raise PlanError("plan", f"it is not a {SCHEMA} document", "make one with estimator read")
    mended: list[Doubt] = []
    level = {"number": 0, "source": data.get("source"), "scale": data.get("scale")}
    storeys = _each("storey", data.get("storeys") or [level], _storey_in)
    rooms = _each("room", data.get("rooms"), lambda room: _room_in(room, mended))
    doubts = _each("doubt", data.get("doubts"), _doubt_in)
    return Plan(
        title=str(data.get("title") or ""),
        storeys=storeys,
        rooms=rooms,
        doubts=doubts + tuple(mended),
    )


def _each(what: str, found: object, make: Callable[[Any], Made]) -> tuple[Made, ...]:
    """Return what ``make`` makes of every entry; what it trips over becomes one sentence."""
    if not isinstance(found or [], list):
        raise PlanError(what, "there is no list of them", "give a list")
    made = []
    for at, entry in enumerate(cast("list[Any]", found or []), start=1):
        try:
            made.append(make(entry))
        except EstimatorError:
            raise
        except KeyError as error:
            raise PlanError(f"{what} {at}", f"{error} is missing", "add it") from error
        except (TypeError, ValueError, AttributeError, IndexError) as error:
            raise PlanError(f"{what} {at}", f"a value is unusable ({error})", "mend it") from error
    return tuple(made)


def _points_out(ring: Sequence[Any]) -> list[list[float]]:
    return [[x, y] for x, y in ring[:-1]]


def _outline_out(outline: Polygon | None) -> tuple[list[list[float]] | None, list[Any]]:
    if outline is None:
        return None, []
    holes = [_points_out(hole.coords[:]) for hole in outline.interiors]
    return _points_out(outline.exterior.coords[:]), holes


def _room_out(room: Room) -> dict[str, Any]:
    outline, holes = _outline_out(room.outline)
    outline_px, holes_px = _outline_out(room.outline_px)
    return {
        "id": room.id,
        "name": room.name,
        "use": room.use,
        "storey": room.storey,
        "outline": outline,
        "holes": holes,
        "outline_px": outline_px,
        "holes_px": holes_px,
        "ceiling_height": room.ceiling_height,
        "ceiling": None
        if room.ceiling is None
        else {
            "profile": room.ceiling.profile.value,
            "top": room.ceiling.top,
            "towards": room.ceiling.towards,
        },
        "confidence": room.confidence,
        "basis": room.basis.value,
        "empty": room.empty,
        "openings": [
            {
                "id": opening.id,
                "kind": opening.kind.value,
                "start": _point_out(opening.start),
                "end": _point_out(opening.end),
                "start_px": _point_out(opening.start_px),
                "end_px": _point_out(opening.end_px),
                "height": opening.height,
                "sill": opening.sill,
                "leads_to": opening.leads_to,
                "opens_in": opening.opens_in,
                "hinge": opening.hinge and opening.hinge.value,
                "confidence": opening.confidence,
            }
            for opening in room.openings
        ],
        "furnishings": [
            {
                "kind": piece.kind,
                "count": piece.count,
                "footprint": _outline_out(piece.footprint)[0],
                "footprint_px": _outline_out(piece.footprint_px)[0],
                "confidence": piece.confidence,
            }
            for piece in room.furnishings
        ],
    }


def _point_out(point: Point | None) -> list[float] | None:
    return list(point) if point else None


def _storey_out(storey: Storey) -> dict[str, Any]:
    source, scale, sheet = storey.source, storey.scale, storey.sheet
    data = {
        "number": storey.number,
        "name": storey.name,
        "source": None
        if source is None
        else {
            "file": source.file,
            "page": source.page,
            "width_px": source.width_px,
            "height_px": source.height_px,
        },
        "scale": None
        if scale is None
        else {
            "metres_per_px": scale.metres_per_px,
            "relative_error": scale.relative_error,
            "basis": scale.basis,
        },
    }
    if sheet is not None:
        data["sheet"] = {
            "from_picture": list(sheet.from_picture),
            "width_px": sheet.width_px,
            "height_px": sheet.height_px,
        }
    return data


def _storey_in(data: Data) -> Storey:
    source, scale, sheet = data.get("source"), data.get("scale"), data.get("sheet")
    return Storey(
        number=int(data.get("number", 0)),
        name=str(data.get("name") or ""),
        source=source
        and Source(
            file=str(source["file"]),
            page=int(source.get("page") or 1),
            width_px=int(source["width_px"]),
            height_px=int(source["height_px"]),
        ),
        sheet=sheet
        and Sheet(
            from_picture=sheet["from_picture"],
            width_px=int(sheet["width_px"]),
            height_px=int(sheet["height_px"]),
        ),
        scale=scale
        and Scale(
            metres_per_px=scale["metres_per_px"],
            relative_error=scale["relative_error"],
            basis=str(scale.get("basis") or ""),
        ),
    )


def _outline_in(
    where: str, corners: Any, holes: Any, doubts: list[Doubt], room_id: str
) -> Polygon | None:
    if corners is None:
        return None
    if len(corners) < 3:
        raise PlanError(where, "its outline has fewer than three corners", "give at least three")
    rings = [corners, *(holes or ())]
    if not all(math.isfinite(part) for ring in rings for corner in ring for part in corner):
        raise PlanError(where, "its outline has a corner without a place", "give two numbers each")
    outline, says = mended_outline(where, polygon(corners, holes or ()))
    if says:
        doubts.append(Doubt(aspect=Aspect.OUTLINE, room=room_id, says=says, confidence=0.5))
    return outline


def _room_in(data: Data, doubts: list[Doubt]) -> Room:
    room_id = str(data["id"])
    where = str(data.get("name") or room_id)
    ceiling = data.get("ceiling")
    return Room(
        id=room_id,
        name=str(data.get("name") or ""),
        use=str(data.get("use") or "room"),
        storey=int(data.get("storey") or 0),
        outline=_outline_in(where, data.get("outline"), data.get("holes"), doubts, room_id),
        outline_px=_outline_in(
            where, data.get("outline_px"), data.get("holes_px"), doubts, room_id
        ),
        ceiling_height=data.get("ceiling_height"),
        ceiling=ceiling
        and Ceiling(
            profile=Profile(ceiling["profile"]),
            top=ceiling["top"],
            towards=float(ceiling.get("towards") or 0.0),
        ),
        confidence=data.get("confidence", 1.0),
        basis=Basis(data.get("basis") or "measured"),
        empty=bool(data.get("empty", False)),
        openings=_each(f"{where}, opening", data.get("openings"), _opening_in),
        furnishings=_each(f"{where}, furnishing", data.get("furnishings"), _furnishing_in),
    )


def _point_in(point: Any) -> Point | None:
    return (float(point[0]), float(point[1])) if point else None


def _opening_in(data: Data) -> Opening:
    return Opening(
        id=str(data["id"]),
        kind=OpeningKind(data["kind"]),
        start=_point_in(data.get("start")),
        end=_point_in(data.get("end")),
        start_px=_point_in(data.get("start_px")),
        end_px=_point_in(data.get("end_px")),
        height=data.get("height"),
        sill=data.get("sill"),
        leads_to=data.get("leads_to"),
        opens_in=data.get("opens_in"),
        hinge=data.get("hinge") and Hinge(data["hinge"]),
        confidence=data.get("confidence", 1.0),
    )


def _furnishing_in(data: Data) -> Furnishing:
    footprint, footprint_px = data.get("footprint"), data.get("footprint_px")
    return Furnishing(
        kind=str(data["kind"]),
        count=int(data.get("count", 1)),
        footprint=footprint and polygon(footprint),
        footprint_px=footprint_px and polygon(footprint_px),
        confidence=data.get("confidence", 1.0),
    )


def _doubt_in(data: Data) -> Doubt:
    return Doubt(
        aspect=Aspect(data["aspect"]),
        room=data.get("room"),
        says=str(data["says"]),
        confidence=data["confidence"],
        relative_error=data.get("relative_error", 0.0),
    )
