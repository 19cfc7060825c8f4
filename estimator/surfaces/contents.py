"""What stands in a room: the surface it adds, and the floor and wall it hides."""

from collections.abc import Iterator
from functools import lru_cache

import numpy as np
import shapely
from attrs import frozen
from numpy.typing import NDArray
from shapely.geometry import Polygon

from estimator.measures import Metres, Share, SquareMetres
from estimator.plan.furnishing import Furnishing
from estimator.plan.room import Basis, Room
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.furniture import FurnitureKind, faces, hides_wall_below
from estimator.surfaces.schedule import Lie, Surface, SurfaceKind
from estimator.surfaces.scope import NOTHING, Scope
from estimator.surfaces.solids import Footprint
from estimator.surfaces.uses import Content, RoomUse

WITHIN_REACH: Metres = 0.10
"""A gap behind furniture narrower than this lets no spray in, so both its faces are hidden."""

MOST_FILLED = 0.6
"""Share of the floor assumed contents may stand on: people must still walk and open doors."""


@frozen(kw_only=True)
class Contents:
    """The furniture of a room.

    Parameters
    ----------
    surfaces
        Its rows of the schedule.
    stands_on
        Floor it hides.
    backs
        Each kind that stands along a wall, and the length of wall it stands along.
    """

    surfaces: tuple[Surface, ...]
    stands_on: SquareMetres
    backs: tuple[tuple[FurnitureKind, Metres], ...]

    def __add__(self, other: "Contents") -> "Contents":
        return Contents(
            surfaces=self.surfaces + other.surfaces,
            stands_on=self.stands_on + other.stands_on,
            backs=self.backs + other.backs,
        )

    @property
    def assumed(self) -> Share:
        """The share of its surface that is assumed."""
        gross = sum(surface.gross for surface in self.surfaces)
        assumed = sum(one.gross for one in self.surfaces if one.basis is Basis.ASSUMED)
        return assumed / gross if gross else 1.0

    def hides_wall_below(self, level: Metres) -> SquareMetres:
        """Return the area of wall below a level that lies hidden behind furniture."""
        return sum(along * hides_wall_below(kind, level) for kind, along in self.backs)


@frozen(kw_only=True, cache_hash=True)
class _Pieces:
    """So many pieces of a kind on one footprint, along so much wall altogether."""

    kind: FurnitureKind
    count: int
    footprint: Footprint
    along_wall: Metres


def contents(
    room: Room, outline: Polygon, use: RoomUse, book: SurfaceBook, scope: Scope
) -> Contents:
    """Return what was placed in the room, and what is taken to stand in it beside that."""
    placed = _what_was_placed(room, outline, use, book, scope)
    counts = _counts(room, outline, use, book, placed.stands_on)
    return placed + _usual(use, counts, book, scope) if any(counts) else placed


def usual_counts(
    room: Room, outline: Polygon, use: RoomUse, book: SurfaceBook
) -> tuple[tuple[str, int], ...]:
    """Return what is taken to stand in a room beside what was placed: kinds and how many of each.

    Raises
    ------
    NoSuchEntry
        When the book lacks a kind of furniture.
    """
    taken = _what_was_placed(room, outline, use, book, NOTHING).stands_on
    counts = _counts(room, outline, use, book, taken)
    kinds = (content.kind for content in use.contents)
    return tuple((kind, count) for kind, count in zip(kinds, counts, strict=True) if count)


def _what_was_placed(
    room: Room, outline: Polygon, use: RoomUse, book: SurfaceBook, scope: Scope
) -> Contents:
    walls = _edges(outline) if room.furnishings else None
    return _standing(
        tuple(_placed(one, use, book, walls) for one in room.furnishings),
        use.zone,
        room.basis,
        scope,
    )


def _counts(
    room: Room, outline: Polygon, use: RoomUse, book: SurfaceBook, taken: SquareMetres
) -> tuple[int, ...]:
    """Return how many of each of the usual contents of a use are taken to stand on what is left."""
    usual = assumed_contents(room, use, book)
    counts = tuple(
        int(content.per_room + content.per_area * outline.area + 0.5) if content in usual else 0
        for content in use.contents
    )
    room_left = max(0.0, MOST_FILLED * outline.area - taken)
    return (
        _fitting(use, counts, room_left, book)
        if _floor_taken(use, counts, book) > room_left
        else counts
    )


def assumed_contents(room: Room, use: RoomUse, book: SurfaceBook) -> tuple[Content, ...]:
    """Return what of the usual contents of a room's use must be assumed to stand in it.

    All of it where nothing was placed; nothing where loose furniture was, or somebody said that
    the room is empty. Plans of homes to let and to sell often draw what is built in and nothing
    else: where only that was placed, it takes the place of its own kind and family.
    """
    if room.empty or not use.contents:
        return ()
    if not room.furnishings:
        return use.contents
    placed = [book.kind(one.kind) for one in room.furnishings]
    if not all(kind.fixed for kind in placed):
        return ()
    slugs = {kind.slug for kind in placed}
    families = {kind.family for kind in placed} - {None}
    return tuple(
        content
        for content in use.contents
        if content.kind not in slugs and book.kind(content.kind).family not in families
    )


@lru_cache(maxsize=8192)
def _usual(use: RoomUse, counts: tuple[int, ...], book: SurfaceBook, scope: Scope) -> Contents:
    pieces = tuple(
        _unplaced(book.kind(content.kind), count)
        for content, count in zip(use.contents, counts, strict=True)
        if count
    )
    return _standing(pieces, use.zone, Basis.ASSUMED, scope)


@lru_cache(maxsize=8192)
def _floor_taken(use: RoomUse, counts: tuple[int, ...], book: SurfaceBook) -> SquareMetres:
    kinds = [book.kind(content.kind) for content in use.contents]
    return sum(
        count * faces(kind, kind.footprint).stands_on
        for kind, count in zip(kinds, counts, strict=True)
    )


def _fitting(
    use: RoomUse, counts: tuple[int, ...], room_left: SquareMetres, book: SurfaceBook
) -> tuple[int, ...]:
    """Return as many of the contents, first things first, as the floor has room for."""
    fitting = []
    for content, count in zip(use.contents, counts, strict=True):
        kind = book.kind(content.kind)
        each = faces(kind, kind.footprint).stands_on
        taken = min(count, int(room_left / each)) if each else count
        room_left -= taken * each
        fitting.append(taken)
    return tuple(fitting)


def _unplaced(kind: FurnitureKind, count: int) -> _Pieces:
    along = count * kind.length if kind.against_wall else 0.0
    return _Pieces(kind=kind, count=count, footprint=kind.footprint, along_wall=along)


def _placed(
    furnishing: Furnishing, use: RoomUse, book: SurfaceBook, walls: NDArray[np.float64] | None
) -> _Pieces:
    if furnishing.footprint is None or walls is None:
        return _unplaced(book.kind_in(use, furnishing.kind, None), furnishing.count)
    drawn = Footprint.drawn(furnishing.footprint)
    kind = book.kind_in(use, furnishing.kind, drawn)
    return _Pieces(
        kind=kind,
        count=furnishing.count,
        footprint=drawn if kind.length >= kind.depth else drawn.turned,
        along_wall=furnishing.count * _length_along(_edges(furnishing.footprint), walls),
    )


def _edges(outline: Polygon) -> NDArray[np.float64]:
    """Return the edges of all rings, shape (edges, 2 ends, 2 coordinates)."""
    rings = [shapely.get_coordinates(ring) for ring in (outline.exterior, *outline.interiors)]
    starts = np.concatenate([ring[:-1] for ring in rings])
    ends = np.concatenate([ring[1:] for ring in rings])
    apart = np.flatnonzero((starts != ends).any(axis=1))  # a corner given twice is no edge
    return np.stack([starts[apart], ends[apart]], axis=1)


def _length_along(sides: NDArray[np.float64], walls: NDArray[np.float64]) -> Metres:
    """Return the length of wall that a side of a footprint runs along within reach."""
    starts, runs = walls[:, 0], walls[:, 1] - walls[:, 0]
    lengths = np.hypot(*runs.T)
    along = runs / lengths[:, None]
    from_start = sides[:, None] - starts[:, None]  # (sides, walls, ends, coordinates)
    way = np.einsum("swec,wc->swe", from_start, along)
    off = np.abs(np.einsum("swec,wc->swe", from_start[..., ::-1] * [1.0, -1.0], along))
    overlap = np.minimum(way.max(axis=2), lengths) - np.maximum(way.min(axis=2), 0.0)
    near = off.max(axis=2) <= WITHIN_REACH
    return float(np.where(near, overlap, 0.0).clip(min=0.0).max(axis=0).sum())


@lru_cache(maxsize=8192)
def _standing(pieces: tuple[_Pieces, ...], zone: str, basis: Basis, scope: Scope) -> Contents:
    """Return contents from their pieces; a room's zone holds for kinds without one of their own."""
    return Contents(
        surfaces=tuple(
            surface
            for piece in pieces
            for surface in _surfaces(piece, piece.kind.zone or zone, basis, scope)
        ),
        stands_on=sum(
            piece.count * faces(piece.kind, piece.footprint).stands_on for piece in pieces
        ),
        backs=tuple((piece.kind, piece.along_wall) for piece in pieces if piece.along_wall),
    )


def _surfaces(pieces: _Pieces, zone: str, basis: Basis, scope: Scope) -> Iterator[Surface]:
    """Yield a row for each way the faces lie, and one for what hands touch."""
    kind = pieces.kind
    one = faces(kind, pieces.footprint)
    top, sides, under = (pieces.count * area for area in (one.top, one.sides, one.underside))
    hidden = min(sides, pieces.along_wall * hides_wall_below(kind, kind.height))
    missed = 0.0 if scope.undersides else under
    by_lie = (
        [(kind.label, kind.lie, top + sides + under, hidden, missed)]
        if kind.lie
        else [
            (f"{kind.label}, top", Lie.LEVEL, top, 0.0, 0.0),
            (f"{kind.label}, sides", Lie.UPRIGHT, sides, hidden, 0.0),
            (f"{kind.label}, underside", Lie.OVERHEAD, under, 0.0, missed),
        ]
    )
    for label, lie, gross, deducted, left_out in by_lie:
        if gross:
            yield Surface(
                kind=SurfaceKind.FURNITURE,
                item=kind.slug,
                label=label,
                count=pieces.count,
                lie=lie,
                zone=zone,
                gross=gross,
                deducted=deducted,
                treated=max(0.0, gross - deducted - left_out) if scope.furniture else 0.0,
                food_contact=kind.food_contact and lie in (kind.lie, Lie.LEVEL),
                basis=basis,
            )
    if kind.touch:
        yield Surface(
            kind=SurfaceKind.TOUCH_POINT,
            item=kind.slug,
            label=f"{kind.label}, handles",
            count=pieces.count,
            lie=Lie.INTRICATE,
            zone=zone,
            gross=pieces.count * kind.touch,
            treated=pieces.count * kind.touch if scope.touch_points else 0.0,
            basis=basis,
        )
