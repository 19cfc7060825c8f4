"""Where the sprayer stops: each room once for every strength, with the tanks it is sprayed from."""

import math

from attrs import define, frozen

from estimator.measures import (
    CubicMetres,
    KilogramsPerCubicMetre,
    Seconds,
    SquareMetres,
    checked,
)
from estimator.quote.quote import Quote
from estimator.treatment.solution import Dose, Mix, TankFill
from estimator.visit.timetable import Step

_ROUNDING = 1e-9


@frozen(kw_only=True)
class Tank:
    """One filling of the tank, numbered through the whole visit."""

    number: int
    mix: Mix
    fill: TankFill


@frozen(kw_only=True, field_transformer=checked)
class Stop:
    """One room sprayed at one strength.

    Parameters
    ----------
    tanks
        Numbers of the tanks it is sprayed from.
    start
        When spraying begins, counted from arrival; None when the timetable does not say.
    person
        Who sprays it.
    filled
        Liquid filled in at this stop, before or in the middle of it.
    """

    room: str
    person: int
    filled: CubicMetres
    strength: KilogramsPerCubicMetre
    tanks: tuple[int, ...]
    start: Seconds | None
    volume: CubicMetres
    area: SquareMetres
    passes: int
    contact_time: Seconds
    wiped: SquareMetres


def tanks(quote: Quote) -> tuple[Tank, ...]:
    """Return all fillings of the tank in the order they are used."""
    fills = [(mix, fill) for mix in quote.solution.mixes for fill in mix.fills]
    return tuple(
        Tank(number=number, mix=mix, fill=fill) for number, (mix, fill) in enumerate(fills, 1)
    )


def stops(quote: Quote) -> tuple[Stop, ...]:
    """Return all stops in the order they are sprayed, at each strength."""
    first_tank, found = 1, []
    visits = _visits(quote)
    for mix in quote.solution.mixes:
        doses = _doses_by_room(quote, mix)
        reached = {
            room: visit for room in doses if (visit := visits.get((room, mix.wanted))) is not None
        }
        for room in sorted(
            doses, key=lambda room: reached[room].start if room in reached else math.inf
        ):
            dose, visit = doses[room], reached.get(room)
            used = visit.tanks if visit else {*range(len(mix.fills))}
            found.append(
                Stop(
                    room=room,
                    person=visit.person if visit else 1,
                    filled=visit.filled if visit else 0.0,
                    strength=mix.wanted,
                    tanks=tuple(first_tank + at for at in sorted(used)),
                    start=visit.start if visit else None,
                    volume=sum(one.volume for one in dose),
                    area=sum(one.area for one in dose),
                    passes=max(one.passes for one in dose),
                    contact_time=max(one.contact_time for one in dose),
                    wiped=sum(one.wiped for one in dose),
                )
            )
        first_tank += len(mix.fills)
    return tuple(found)


@define
class _Visit:
    """Somebody's spraying of a room at one strength: since when, from which fills of the mix."""

    start: Seconds
    person: int
    tanks: set[int]
    filled: CubicMetres = 0.0


def _visits(quote: Quote) -> dict[tuple[str, KilogramsPerCubicMetre], _Visit]:
    """Return who sprays each room at each strength, following the liquid through the visit."""
    mixes = {mix.wanted: mix for mix in quote.solution.mixes}
    drawn: dict[KilogramsPerCubicMetre, CubicMetres] = {}
    carried: dict[int, set[int]] = {}
    loaded: dict[int, CubicMetres] = {}
    found: dict[tuple[str, KilogramsPerCubicMetre], _Visit] = {}
    moves = (task for task in quote.timetable.tasks if task.step in (Step.REFILL, Step.SPRAY))
    for task in sorted(moves, key=lambda task: (task.start, task.step is Step.SPRAY)):
        mix = mixes.get(task.strength)
        if mix is None or task.room is None:
            continue
        if task.step is Step.REFILL:
            before = drawn.get(task.strength, 0.0)
            drawn[task.strength] = after = before + task.volume
            first, last = _tank_at(mix, before), _tank_at(mix, after - _ROUNDING * mix.needed)
            carried[task.person] = {*range(first, last + 1)}
            loaded[task.person] = loaded.get(task.person, 0.0) + task.volume
            continue
        visit = found.setdefault((task.room, task.strength), _Visit(task.start, task.person, set()))
        visit.tanks |= carried.get(task.person, {0})
        visit.filled += loaded.pop(task.person, 0.0)
    return found


def _doses_by_room(quote: Quote, mix: Mix) -> dict[str, list[Dose]]:
    doses: dict[str, list[Dose]] = {}
    for dose in quote.solution.doses:
        if dose.strength == mix.wanted and dose.volume:
            doses.setdefault(dose.room, []).append(dose)
    return doses


def _tank_at(mix: Mix, sprayed: CubicMetres) -> int:
    """Return the index of the tank in use when so much of a mix has been sprayed."""
    filled = 0.0
    for at, fill in enumerate(mix.fills):
        filled += fill.volume
        if sprayed < filled * (1 - _ROUNDING):
            return at
    return max(0, len(mix.fills) - 1)
