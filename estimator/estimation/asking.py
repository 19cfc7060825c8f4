"""Ask next: the questions whose answers would narrow the price most.

Each question is first weighed by how much of the variance of the price it settles, to first order
(JCGM 100:2008 [1]_, eq. 10: independent errors add in quadrature). What the weightiest are worth is
then read off the range, drawn anew with the same chance and without what the answer settles: the
span from P10 to P90 shrinks with the standard deviation, which a sample tells far better than its
tenths.

References
----------
.. [1] JCGM 100:2008, Evaluation of measurement data: Guide to the expression of uncertainty in
   measurement, section 5.1.
"""

from decimal import Decimal

import numpy as np
from attrs import evolve, frozen

from estimator.estimation.book import Book
from estimator.estimation.leeway import Leeway, Liquid, Subject
from estimator.estimation.range import Chance, Draws, fixed_share, growing_costs, parts_of, totals
from estimator.estimation.spread import Spread
from estimator.measures import Share
from estimator.plan.edits import of_one_picture
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.price.build_up import Work
from estimator.price.conditions import Conditions
from estimator.price.money import rounded
from estimator.quote.question import Matter, Question
from estimator.surfaces.measure import CONTENTS_ERROR

MOST_QUESTIONS = 12
"""Questions that are worked out exactly: nobody asks more on one call."""

# What an answer leaves open, since people's words are no measurements (our guesses).
SCALE_LEFT: Share = 0.01
CONTENTS_LEFT: Share = 0.2
FILM_LEFT: Share = 0.05
PACE_LEFT: Share = 0.1


_LEFT = {Matter.CONTENTS: CONTENTS_LEFT / CONTENTS_ERROR}
"""The share of a leeway that stays open after its answer."""

_OPENINGS = {
    OpeningKind.DOOR: "doors",
    OpeningKind.WINDOW: "windows",
    OpeningKind.PASSAGE: "passages",
}
_OF_A_ROOM = {
    Matter.SIZE: "Size of {}",
    Matter.OUTLINE: "Outline of {}",
    Matter.ROOM: "Whether {} is read rightly",
    Matter.USE: "Use of {}",
    Matter.CONTENTS: "Contents of {}",
}


@frozen(kw_only=True)
class _Open:
    """What is open about a job, or would still be after an answer."""

    liquid: Liquid
    spread: Spread


@frozen(kw_only=True)
class _Asked:
    """A question that could be asked: about what, its weight, and what it would leave open."""

    subject: Subject
    storey: int | None = None
    variance: float
    left: _Open


def questions(
    plan: Plan, work: Work, conditions: Conditions, liquid: Liquid, book: Book, *, seed: int
) -> tuple[Question, ...]:
    """Return what could be asked, the questions that narrow the price most first.

    Parameters
    ----------
    liquid
        The liquid of the job with what is open about it.
    seed
        That of the range, so that both are drawn with the same chance.
    """
    now = _Open(liquid=liquid, spread=book.spread)
    asked = sorted(_asked(now, work, conditions, book), key=lambda one: -one.variance)[
        :MOST_QUESTIONS
    ]
    chance = Chance.drawn(parts_of(liquid), seed=seed)

    def drawn(still: _Open) -> Draws:
        return totals(work, conditions, parts_of(still.liquid), book, chance, still.spread)

    drawn_now = drawn(now)
    p10, p90 = np.quantile(drawn_now, [0.1, 0.9]).tolist()
    deviation = float(np.std(drawn_now)) or 1.0

    def narrowing(after: _Open) -> Decimal:
        return Decimal(str((p90 - p10) / 2 * (1 - float(np.std(drawn(after))) / deviation)))

    worth = [
        Question(
            matter=one.subject.matter,
            says=_says(plan, one),
            narrows=rounded(narrowing(one.left), book.rates.currency),
            rooms=one.subject.rooms,
            storey=one.storey,
            opening=one.subject.opening,
        )
        for one in asked
    ]
    found = [question for question in worth if question.narrows.amount > 0]
    return tuple(sorted(found, key=lambda question: -question.narrows.amount))


def _asked(now: _Open, work: Work, conditions: Conditions, book: Book) -> list[_Asked]:
    """Return every question with the variance of the cost that its answer settles."""
    timed, mixed = growing_costs(work, book.rates, conditions)
    timed *= 1 - fixed_share(work, book)
    every = (timed + mixed) / (sum(now.liquid.volume.values()) or 1.0)
    about: dict[Subject, list[Leeway]] = {}
    for one in now.liquid.leeways:
        about.setdefault(_subject(one), []).append(one)
    return [
        *(_of_leeways(now, subject, leeways, every) for subject, leeways in about.items()),
        *(
            _of_scale(now, storey, error, every)
            for storey, error in now.liquid.scale_error.items()
            if error > SCALE_LEFT
        ),
        *_of_spread(now, timed, mixed),
    ]


def _subject(leeway: Leeway) -> Subject:
    """Return what a leeway is asked about: openings of a kind on all storeys at once."""
    subject = leeway.subject
    return evolve(subject, rooms=()) if subject.matter is Matter.OPENINGS else subject


def _of_leeways(now: _Open, subject: Subject, leeways: list[Leeway], every: float) -> _Asked:
    left = _LEFT.get(subject.matter, 0.0)
    settled = set(map(id, leeways))
    after = tuple(
        evolve(one, deviation=left * one.deviation) if id(one) in settled else one
        for one in now.liquid.leeways
    )
    return _Asked(
        subject=subject,
        variance=sum((every * one.deviation) ** 2 for one in leeways) * (1 - left**2),
        left=evolve(now, liquid=evolve(now.liquid, leeways=after)),
    )


def _of_scale(now: _Open, storey: int, error: Share, every: float) -> _Asked:
    grows = sum(
        volume * growth for (at, growth), volume in now.liquid.volume.items() if at == storey
    )
    errors = {**now.liquid.scale_error, storey: SCALE_LEFT}
    return _Asked(
        subject=Subject(matter=Matter.SCALE),
        storey=storey,
        variance=(every * grows) ** 2 * (error**2 - SCALE_LEFT**2),
        left=evolve(now, liquid=evolve(now.liquid, scale_error=errors)),
    )


def _of_spread(now: _Open, timed: float, mixed: float) -> list[_Asked]:
    spread = now.spread
    film, pace = min(spread.film, FILM_LEFT), min(spread.pace, PACE_LEFT)
    return [
        _Asked(
            subject=Subject(matter=Matter.FILM),
            variance=mixed**2 * (spread.film**2 - film**2),
            left=evolve(now, spread=evolve(spread, film=film)),
        ),
        _Asked(
            subject=Subject(matter=Matter.PACE),
            variance=timed**2 * (spread.pace**2 - pace**2),
            left=evolve(now, spread=evolve(spread, pace=pace)),
        ),
    ]


def _says(plan: Plan, one: _Asked) -> str:
    subject = one.subject
    match subject.matter:
        case Matter.SCALE:
            assert one.storey is not None
            together = {level.number for level in of_one_picture(plan, one.storey)}
            if len(together) == len(plan.storeys):
                return "Scale of the plan"
            return f"Scale of {plan.storey(one.storey).name or f'storey {one.storey + 1}'}"
        case Matter.HEIGHT:
            return f"Ceiling height of {_rooms(plan, subject.rooms)}"
        case Matter.OPENINGS:
            assert subject.opening is not None
            return f"Height of the {_OPENINGS[subject.opening]}"
        case Matter.FILM:
            return "Film that your sprayer lays"
        case Matter.PACE:
            return "Pace of your crew"
        case _:
            return _OF_A_ROOM[subject.matter].format(_rooms(plan, subject.rooms))


def _rooms(plan: Plan, rooms: tuple[str, ...]) -> str:
    if len(rooms) == 1:
        return plan.room(rooms[0]).name or rooms[0]
    return "all rooms" if len(rooms) == len(plan.rooms) else f"{len(rooms)} rooms"
