"""What the table shows: a storey of the plan as plain data, on its ground."""

from collections.abc import Mapping
from typing import Any

from estimator.documents.palette import USE_TINTS
from estimator.plan.ground import Ground, ground_of
from estimator.plan.plan import Plan
from estimator.plan.pulling import walls_on
from estimator.plan.reshaping import rooms_on
from estimator.plan.room import Room
from estimator.plan.walls import THICKEST_WALL, rings_of, together
from estimator.quantities import Units, shown_area, shown_length
from estimator.reading.tracing import Ink
from estimator.surfaces.book import SurfaceBook

_EMPTY_PAPER = (0.0, 0.0, 12.0, 9.0)
# Paper left free around the rooms: a share of their extent, and metres at least.
_MARGIN = (0.2, 3.5)


def storey_data(plan: Plan, storey: int, book: SurfaceBook, units: Units) -> dict[str, Any]:
    """Return a storey as the table takes it: places rounded to what can be seen."""
    ground = ground_of(plan, storey)
    digits = 2 if ground.on_picture else 5
    walls = walls_on(plan, ground, storey)
    numbers = together(walls, ground.units(THICKEST_WALL))
    groups = {wall.key: number for wall, number in zip(walls, numbers, strict=True)}
    labels = {kind.slug: kind.label for kind in book.furniture}
    rooms = [
        _room(room, ground, groups, labels, units, digits)
        for room in rooms_on(plan, storey)
        if ground.outline(room)
    ]
    for at, room in enumerate(rooms):
        room["tint"] = USE_TINTS[at % len(USE_TINTS)]
    return {
        "storey": storey,
        "units": units.value,
        "perUnit": ground.metres_per_unit,
        "guessed": ground.guessed,
        "onPicture": ground.on_picture,
        "extent": _extent(plan, storey, ground, rooms),
        "rooms": rooms,
    }


def book_data(book: SurfaceBook, ink: Ink | None) -> dict[str, Any]:
    """Return what stays the same while a picture is drawn over: the book, and its straight ink."""
    return {
        "furniture": [
            {
                "slug": kind.slug,
                "label": kind.label,
                "words": kind.words,
                "length": kind.length,
                "depth": kind.depth,
            }
            for kind in sorted(book.furniture, key=lambda kind: kind.label)
        ],
        "uses": [
            {"slug": use.slug, "label": use.label}
            for use in sorted(book.uses, key=lambda use: use.label)
        ],
        "ink": ink
        and {"lines": ink.lines.round(1).tolist(), "corners": ink.corners.round(1).tolist()},
    }


def _room(
    room: Room,
    ground: Ground,
    groups: Mapping[tuple[str, int, int], int],
    labels: Mapping[str, str],
    units: Units,
    digits: int,
) -> dict[str, Any]:
    outline = ground.outline(room)
    assert outline is not None
    rings = rings_of(outline)
    return {
        "id": room.id,
        "name": room.name,
        "use": room.use,
        "sure": room.confidence,
        "size": _size(room, units),
        "area": shown_area(room.outline.area, units) if room.outline else "",
        "rings": [[_rounded(corner, digits) for corner in ring] for ring in rings],
        "groups": [
            [groups.get((room.id, at, place), -1) for place in range(len(ring))]
            for at, ring in enumerate(rings)
        ],
        "openings": [
            {
                "id": opening.id,
                "kind": opening.kind.value,
                "ends": [_rounded(end, digits) for end in ends],
            }
            for opening in room.openings
            if (ends := ground.ends(opening))
        ],
        "pieces": [
            {
                "at": at,
                "label": labels.get(piece.kind, piece.kind),
                "ring": [_rounded(corner, digits) for corner in shape.exterior.coords[:-1]],
            }
            for at, piece in enumerate(room.furnishings)
            if (shape := ground.footprint(piece))
        ],
    }


def _size(room: Room, units: Units) -> str:
    if room.outline is None:
        return "no scale yet"
    left, top, right, bottom = room.outline.bounds
    sides = f"{shown_length(right - left, units)} × {shown_length(bottom - top, units)}"
    return f"{sides} · {shown_area(room.outline.area, units)}"


def _extent(
    plan: Plan, storey: int, ground: Ground, rooms: list[dict[str, Any]]
) -> tuple[float, float, float, float]:
    """Return left, top, right and bottom of all there is to see."""
    source = plan.storey(storey).source
    if ground.sheet:
        return 0.0, 0.0, ground.sheet.width_px, ground.sheet.height_px
    if source:
        return 0.0, 0.0, source.width_px, source.height_px
    corners = [corner for room in rooms for corner in room["rings"][0]]
    if not corners:
        return _EMPTY_PAPER
    left, right = min(x for x, _ in corners), max(x for x, _ in corners)
    top, bottom = min(y for _, y in corners), max(y for _, y in corners)
    share, least = _MARGIN
    around = max(share * max(right - left, bottom - top), ground.units(least))
    return left - around, top - around, right + around, bottom + around


def _rounded(place: tuple[float, ...], digits: int) -> list[float]:
    return [round(part, digits) for part in place[:2]]
