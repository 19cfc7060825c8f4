"""Answers: corrections of a plan or a book that settle what a question asked."""

from collections.abc import Sequence

from attrs import evolve

from estimator.errors import QuantityError, ScaleUnknown
from estimator.estimation.asking import CONTENTS_LEFT, FILM_LEFT, PACE_LEFT
from estimator.estimation.book import Book
from estimator.measures import CubicMetresPerSquareMetre, Metres, Ratio, SquareMetresPerSecond
from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.edits import changed, with_height
from estimator.plan.furnishing import Furnishing
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.surfaces.book import SurfaceBook
from estimator.surfaces.contents import usual_counts
from estimator.treatment.film import Film

_OF_THIS_JOB = "told for this job"


def with_heights(plan: Plan, rooms: Sequence[str], height: Metres) -> Plan:
    """Return the plan with the ceilings of several rooms at one height."""
    for room_id in rooms:
        plan = with_height(plan, room_id, height)
    return plan


def with_contents(plan: Plan, room_id: str, share: Ratio, book: SurfaceBook) -> Plan:
    """Return the plan with so much of what usually stands in a room said to stand in it.

    What was placed stays. Words are no count, so a smaller doubt takes the place of the old one.

    Raises
    ------
    ScaleUnknown
        When the room has no size yet.
    NoSuchEntry
        When the book lacks its use.
    """
    room = plan.room(room_id)
    if room.outline is None:
        raise ScaleUnknown(room.name or room_id, "it has no size yet", "set the scale first")
    said = tuple(
        Furnishing(kind=kind, count=count)
        for kind, usual in usual_counts(room, room.outline, book.use(room.use), book)
        if (count := round(share * usual))
    )
    holds = evolve(room, furnishings=(*room.furnishings, *said), empty=not said)
    settled = _settled(plan, room_id, Aspect.CONTENTS)
    doubts = settled.doubts
    if said:
        says = (
            f"{room.name or room_id} was said to hold {_share_words(share)} usually stands there."
        )
        left = Doubt(
            aspect=Aspect.CONTENTS,
            room=room_id,
            says=says,
            confidence=0.8,
            relative_error=CONTENTS_LEFT,
        )
        doubts = (*doubts, left)
    return changed(evolve(settled, doubts=doubts), room_id, lambda _: holds)


def with_outline_confirmed(plan: Plan, room_id: str) -> Plan:
    """Return the plan with a room said to be there and drawn as it is."""
    settled = _settled(plan, room_id, Aspect.OUTLINE)
    return changed(settled, room_id, lambda room: evolve(room, confidence=1.0))


def with_opening_heights(plan: Plan, kind: OpeningKind, height: Metres, book: SurfaceBook) -> Plan:
    """Return the plan with every opening of a kind that nobody gave a height at one height.

    Raises
    ------
    QuantityError
        When an opening of that height would reach above its ceiling.
    NoSuchEntry
        When the book does not say where openings of the kind begin.
    """
    usual = book.opening(kind)

    def sized(room: Room, one: Opening) -> Opening:
        sill = usual.sill if one.sill is None else one.sill
        if one.kind is not kind or (one.height is not None and one.sill is not None):
            return one
        tall = height if one.height is None else one.height
        ceiling = room.ceiling_height or book.use(room.use).ceiling_height
        if sill + tall > ceiling:
            raise QuantityError(
                f"{height:.2f} m",
                f"with its sill at {sill:.2f} m the {kind} of {room.name or room.id} would reach "
                "above the ceiling",
                "give less",
            )
        return evolve(one, height=tall, sill=sill)

    rooms = (
        evolve(room, openings=tuple(sized(room, one) for one in room.openings))
        for room in plan.rooms
    )
    return evolve(plan, rooms=tuple(rooms))


def with_film(book: Book, volume: CubicMetresPerSquareMetre) -> Book:
    """Return the book with a film on level surfaces as told, and others in proportion.

    Raises
    ------
    QuantityError
        When it is nothing, or more than a pass can lay without running off.
    """
    factor = volume / next(film.volume for film in book.films if film.lie == "level")

    def laid(film: Film) -> Film:
        least = volume if film.lie == "level" else min(factor * film.volume, film.most)
        return evolve(film, volume=least, source=_OF_THIS_JOB)

    spread = evolve(book.spread, film=min(book.spread.film, FILM_LEFT), source=_OF_THIS_JOB)
    return evolve(book, films=tuple(map(laid, book.films)), spread=spread)


def with_pace(book: Book, spray: SquareMetresPerSecond) -> Book:
    """Return the book with the pace in ordinary rooms as told, and all other paces in proportion.

    Raises
    ------
    QuantityError
        When it is nothing.
    """
    if not spray > 0:
        raise QuantityError("pace", "nothing is sprayed at 0 m²/h", "give one above 0")
    factor = spray / ordinary_pace(book)
    paces = (
        evolve(
            pace,
            spray=factor * pace.spray,
            prepare=pace.prepare / factor,
            wipe=factor * pace.wipe,
            source=_OF_THIS_JOB,
        )
        for pace in book.paces
    )
    spread = evolve(book.spread, pace=min(book.spread.pace, PACE_LEFT), source=_OF_THIS_JOB)
    return evolve(book, paces=tuple(paces), spread=spread)


def ordinary_pace(book: Book) -> SquareMetresPerSecond:
    """Return how fast a person sprays in rooms that the book says nothing more about."""
    return next((pace.spray for pace in book.paces if pace.use == "*"), book.paces[0].spray)


def _settled(plan: Plan, room_id: str, aspect: Aspect) -> Plan:
    kept = (one for one in plan.doubts if not (one.room == room_id and one.aspect is aspect))
    return evolve(plan, doubts=tuple(kept))


def _share_words(share: Ratio) -> str:
    return "what" if share == 1 else f"about {share:.0%} of what"
