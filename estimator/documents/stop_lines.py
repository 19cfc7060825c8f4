"""What the crew reads at each stop, in words; the same on paper and on a phone."""

from attrs import frozen

from estimator.documents.lettering import legible
from estimator.documents.stops import Stop
from estimator.measures import Seconds
from estimator.plan.plan import Plan
from estimator.quantities import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_volume,
)
from estimator.quote.quote import Quote
from estimator.visit.precautions import Precaution


@frozen(kw_only=True)
class StopLine:
    """One stop in words; what does not apply is empty.

    Parameters
    ----------
    start, closed_until
        Hours and minutes after arrival.
    passes
        How often it is gone over and when again, where once is not enough.
    mask
        What is to be masked, removed or switched off.
    wipe
        What is wiped and rinsed.
    """

    number: int
    start: str
    room: str
    storey: str
    person: int
    strength: str
    tanks: str
    fill_in: str
    spray: str
    surface: str
    passes: int
    keep_wet: str
    mask: tuple[Precaution, ...]
    wipe: str
    closed_until: str


def stop_lines(
    plan: Plan, quote: Quote, stops: tuple[Stop, ...], units: Units
) -> tuple[StopLine, ...]:
    """Return the stops in words, in their order."""
    rooms = {room.room: room for room in quote.schedule.rooms}
    back = {one.room: one.at for one in quote.timetable.reentry}
    lines = []
    for number, stop in enumerate(stops, 1):
        room = rooms.get(stop.room)
        lines.append(
            StopLine(
                number=number,
                start="" if stop.start is None else clock(stop.start),
                room=legible(room.name) or room.room if room else stop.room,
                storey=storey_words(plan, room.storey) if room else "",
                person=stop.person,
                strength=shown_concentration(stop.strength),
                tanks=", ".join(map(str, stop.tanks)),
                fill_in=shown_volume(stop.filled, units) if stop.filled else "",
                spray=shown_volume(stop.volume, units),
                surface=shown_area(stop.area, units),
                passes=stop.passes,
                keep_wet=shown_duration(stop.contact_time),
                mask=tuple(one for one, where in quote.timetable.precautions if stop.room in where),
                wipe=_wiped(quote, stop),
                closed_until=clock(back[stop.room]) if stop.room in back else "",
            )
        )
    return tuple(lines)


def clock(after: Seconds) -> str:
    """Return a time after arrival in hours and minutes.

    >>> clock(3900)
    '1:05'
    """
    hours, minutes = divmod(round(after / 60), 60)
    return f"{hours}:{minutes:02d}"


def storey_words(plan: Plan, number: int) -> str:
    """Return the name of a storey; nothing where there is only one."""
    if len(plan.storeys) < 2:
        return ""
    return legible(plan.storey(number).name) or f"storey {number}"


def _wiped(quote: Quote, stop: Stop) -> str:
    """Return what is wiped and rinsed because food touches it."""
    if not stop.wiped:
        return ""
    return "; ".join(
        dict.fromkeys(
            surface.label
            for room in quote.schedule.rooms
            if room.room == stop.room
            for surface in room.surfaces
            if surface.food_contact and surface.treated
        )
    )
