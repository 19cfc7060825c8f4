"""Leeways: what each doubt leaves open of the liquid that a job takes.

Errors of single rooms are independent. Rooms of a storey whose ceilings were assumed to be equally
high are wrong together, as are all openings of a kind that were assumed to be of usual height.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from enum import IntEnum

from attrs import evolve, frozen

from estimator.estimation.book import Book
from estimator.measures import CubicMetres, Metres, Share
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import of_one_picture
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.quote.question import Matter
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind

WRONG_ROOM: Share = 0.5
"""A room that was read wrongly is off by about half: a wall was missed or made up (our guess)."""

USE_ERROR: Share = 0.6
"""Surface of what stands in a room, from one use to another, as a share of its mean.

One standard deviation over the uses of the packaged book for rooms of 12 and 30 m².
"""

_CONTENTS = {SurfaceKind.FURNITURE, SurfaceKind.TOUCH_POINT}
_FACES = {OpeningKind.DOOR: SurfaceKind.DOOR, OpeningKind.WINDOW: SurfaceKind.GLASS}


class Growth(IntEnum):
    """How a treated area grows with the error of the scale: its power."""

    NOT = 0
    WITH_LENGTH = 1
    WITH_AREA = 2


@frozen(kw_only=True)
class Subject:
    """What a doubt is about, so that one answer settles all that it leaves open."""

    matter: Matter
    rooms: tuple[str, ...] = ()
    opening: OpeningKind | None = None


@frozen(kw_only=True)
class Leeway:
    """What a doubt leaves open of the surfaces on one picture that grow alike.

    Parameters
    ----------
    deviation
        One standard deviation of the liquid they take.
    """

    subject: Subject
    storey: int
    growth: Growth
    deviation: CubicMetres


@frozen(kw_only=True)
class Liquid:
    """The liquid of a job by what it is laid on, and what every doubt leaves open of it.

    Parameters
    ----------
    volume
        By the first storey on a picture, and by how the surfaces grow with its scale.
    scale_error
        One standard deviation of the scale of each picture, by its first storey.
    """

    volume: Mapping[tuple[int, Growth], CubicMetres]
    scale_error: Mapping[int, Share]
    leeways: tuple[Leeway, ...]


def liquid_of(
    plan: Plan,
    schedule: Schedule,
    doubts: Sequence[Doubt],
    book: Book,
    *,
    walls_to: Metres | None = None,
) -> Liquid:
    """Return the liquid of a job with what is open about it.

    Parameters
    ----------
    walls_to
        Height up to which walls are treated; what lies higher matters to nobody.
    """
    film = {film.lie: film.volume * (1 + film.loss) for film in book.films}
    first = {level.number: _picture(plan, level.number) for level in plan.storeys}
    volume: dict[tuple[int, Growth], CubicMetres] = {}
    leeways: list[tuple[Leeway, object]] = []
    rooms, errors = {room.id: room for room in plan.rooms}, _errors(doubts)
    for row in schedule.rooms:
        room, storey = rooms[row.room], first[row.storey]
        own = _by_growth(row.surfaces, film)
        for growth, liquid in own.items():
            volume[storey, growth] = volume.get((storey, growth), 0.0) + liquid
        leeways += _leeways(room, row, storey, own, film, errors.get(room.id, {}), walls_to)
    return Liquid(
        volume=volume,
        scale_error={
            first[level.number]: level.scale.relative_error if level.scale else 0.0
            for level in plan.storeys
        },
        leeways=_together(leeways),
    )


def growth_of(surface: Surface) -> Growth:
    """Return how a surface grows with the scale of the plan."""
    if surface.kind in {SurfaceKind.FLOOR, SurfaceKind.CEILING}:
        return Growth.WITH_AREA
    if surface.kind in {SurfaceKind.WALL, SurfaceKind.GLASS}:
        return Growth.WITH_LENGTH
    return Growth.NOT


def _picture(plan: Plan, storey: int) -> int:
    return of_one_picture(plan, storey)[0].number


def _by_growth(surfaces: Iterable[Surface], film: Mapping[Lie, float]) -> dict[Growth, float]:
    own: dict[Growth, float] = {}
    for surface in surfaces:
        growth = growth_of(surface)
        own[growth] = own.get(growth, 0.0) + surface.treated * film[surface.lie]
    return own


def _leeways(
    room: Room,
    row: RoomSchedule,
    storey: int,
    own: Mapping[Growth, float],
    film: Mapping[Lie, float],
    errors: Mapping[Aspect, float],
    walls_to: Metres | None,
) -> Iterator[tuple[Leeway, object]]:
    """Yield what is open about one room, each with what it shares with others or None."""

    def leeway(
        matter: Matter, growth: Growth, deviation: float, opening: OpeningKind | None = None
    ) -> Leeway:
        subject = Subject(matter=matter, rooms=(room.id,), opening=opening)
        return Leeway(subject=subject, storey=storey, growth=growth, deviation=deviation)

    area, length = own.get(Growth.WITH_AREA, 0.0), own.get(Growth.WITH_LENGTH, 0.0)
    outline, matter = errors.get(Aspect.OUTLINE, 0.0), Matter.SIZE
    if room.outline_px is not None:
        matter = Matter.OUTLINE if outline else Matter.ROOM
        outline = outline or WRONG_ROOM * (1 - room.confidence) ** 0.5
    # A perimeter errs by half as much as the area it encloses, to first order.
    yield leeway(matter, Growth.WITH_AREA, outline * area), None
    yield leeway(matter, Growth.WITH_LENGTH, outline / 2 * length), None
    height = errors.get(Aspect.HEIGHT, 0.0)
    if walls_to is None or walls_to > (1 - height) * row.height:
        alike = (Matter.HEIGHT, storey, round(row.height, 3))
        shared = alike if room.ceiling_height is None else None
        yield leeway(Matter.HEIGHT, Growth.WITH_LENGTH, height * length), shared
    inside = sum(one.treated * film[one.lie] for one in row.surfaces if one.kind in _CONTENTS)
    for matter, aspect in ((Matter.CONTENTS, Aspect.CONTENTS), (Matter.USE, Aspect.USE)):
        yield leeway(matter, Growth.NOT, errors.get(aspect, 0.0) * inside), None
    openings = errors.get(Aspect.OPENINGS, 0.0)
    sized_by_the_book = {
        one.kind
        for one in room.openings
        if one.height is None or (one.kind is OpeningKind.WINDOW and one.sill is None)
    }
    for kind, wall in _taken_from_walls(row, film[Lie.UPRIGHT]).items():
        if kind not in sized_by_the_book:
            continue
        of_kind = leeway(Matter.OPENINGS, Growth.WITH_LENGTH, openings * wall, kind)
        yield of_kind, (Matter.OPENINGS, storey, kind)


def _taken_from_walls(row: RoomSchedule, film: float) -> dict[OpeningKind, float]:
    """Return the liquid saved on walls by openings of each kind, less what their faces take."""
    rest, saved = row.openings_area, {}
    for kind, face in _FACES.items():
        faces = [one for one in row.surfaces if one.kind is face]
        gross = sum(one.gross for one in faces)
        saved[kind] = (gross - sum(one.treated for one in faces)) * film
        rest -= gross
    saved[OpeningKind.PASSAGE] = rest * film
    return {kind: max(0.0, liquid) for kind, liquid in saved.items()}


def _together(leeways: Iterable[tuple[Leeway, object]]) -> tuple[Leeway, ...]:
    """Return leeways that leave something open, those that are wrong together made one."""
    joined: dict[object, Leeway] = {}
    for number, (one, alike) in enumerate(leeways):
        key = alike or number
        before = joined.get(key)
        if before is not None:
            rooms = (*before.subject.rooms, *one.subject.rooms)
            joined[key] = evolve(
                before,
                subject=evolve(before.subject, rooms=rooms),
                deviation=before.deviation + one.deviation,
            )
        elif one.deviation > 0:
            joined[key] = one
    return tuple(joined.values())


def _errors(doubts: Sequence[Doubt]) -> dict[str, dict[Aspect, float]]:
    """Return each room's relative error of each aspect, several doubts added in quadrature.

    A doubt of a use gives no error itself: the chance of another use does.
    """
    errors: dict[str, dict[Aspect, float]] = {}
    for doubt in doubts:
        if doubt.room is None:
            continue
        error = doubt.relative_error
        if doubt.aspect is Aspect.USE:
            error = max(error, USE_ERROR * (1 - doubt.confidence) ** 0.5)
        own = errors.setdefault(doubt.room, {})
        own[doubt.aspect] = (own.get(doubt.aspect, 0.0) ** 2 + error**2) ** 0.5
    return errors
