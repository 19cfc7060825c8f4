"""Where the sprayer stops: each room once for every strength, with the tanks it is sprayed from."""

from attrs import frozen

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
        Numbers of the first and the last tank it is sprayed from.
    start
        When spraying begins, counted from arrival; None when the timetable does not say.
    """

    room: str
    strength: KilogramsPerCubicMetre
    tanks: tuple[int, int]
    start: Seconds | None
    volume: CubicMetres
    area: SquareMetres
    passes: int
    contact_time: Seconds
    wiped: SquareMetres


def tanks(quote: Quote) -> tuple[Tank, ...]:
    """Return all fillings of the tank in the order they are used: from weak to strong."""
    fills = [(mix, fill) for mix in _weak_first(quote) for fill in mix.fills]
    return tuple(
        Tank(number=number, mix=mix, fill=fill) for number, (mix, fill) in enumerate(fills, 1)
    )


def stops(quote: Quote) -> tuple[Stop, ...]:
    """Return all stops in the order they are sprayed."""
    found = []
    first_tank = 1
    starts = [
        (task.room, task.start)
        for task in sorted(quote.timetable.tasks, key=lambda task: task.start)
        if task.step is Step.SPRAY
    ]
    for mix in _weak_first(quote):
        doses = _doses_by_room(quote, mix)
        sprayed = 0.0
        while doses:
            room, start = _next(starts, doses, quote)
            dose = doses.pop(room)
            first = _tank_at(mix, sprayed)
            sprayed += sum(one.volume for one in dose)
            last = max(first, _tank_at(mix, sprayed - _ROUNDING * mix.needed))
            found.append(
                Stop(
                    room=room,
                    strength=mix.wanted,
                    tanks=(first_tank + first, first_tank + last),
                    start=start,
                    volume=sum(one.volume for one in dose),
                    area=sum(one.area for one in dose),
                    passes=max(one.passes for one in dose),
                    contact_time=max(one.contact_time for one in dose),
                    wiped=sum(one.wiped for one in dose),
                )
            )
        first_tank += len(mix.fills)
    return tuple(found)


def _weak_first(quote: Quote) -> list[Mix]:
    return sorted(quote.solution.mixes, key=lambda mix: mix.wanted)


def _doses_by_room(quote: Quote, mix: Mix) -> dict[str, list[Dose]]:
    doses: dict[str, list[Dose]] = {}
    for dose in quote.solution.doses:
        if dose.strength == mix.wanted and dose.volume:
            doses.setdefault(dose.room, []).append(dose)
    return doses


def _next(
    starts: list[tuple[str | None, Seconds]], doses: dict[str, list[Dose]], quote: Quote
) -> tuple[str, Seconds | None]:
    """Return the next room with a dose, using up the spraying up to it."""
    for at, (room, start) in enumerate(starts):
        if room in doses:
            del starts[: at + 1]
            return room, start
    order = quote.timetable.order
    return min(doses, key=lambda room: order.index(room) if room in order else len(order)), None


def _tank_at(mix: Mix, sprayed: CubicMetres) -> int:
    """Return the index of the tank in use when so much of a mix has been sprayed."""
    filled = 0.0
    for at, fill in enumerate(mix.fills):
        filled += fill.volume
        if sprayed < filled * (1 - _ROUNDING):
            return at
    return max(0, len(mix.fills) - 1)
