"""The crew's work sheet: what to mix, where to spray it in which order, what was really used."""

from collections.abc import Iterator

from reportlab.platypus import BalancedColumns, Flowable, KeepTogether, Spacer

from estimator.documents.frame import banner, bullets, figures, page_head
from estimator.documents.lettering import legible
from estimator.documents.palette import ACCENT, ALARM
from estimator.documents.paper import content_width, heading, printed, style, table, text
from estimator.documents.stops import Stop, stops, tanks
from estimator.documents.wording import day_words, product_words, sprayed_words
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
from estimator.treatment.cautions import Decision

_BOX = "☐"
_WEAR = "protective-wear"
"""Slug of the caution that stands above all others on this sheet."""

_LINE = "______"
_ROOM_COLUMNS = {
    "": 0.035,
    "Start": 0.05,
    "Room": 0.165,
    "Strength": 0.085,
    "Tank": 0.05,
    "Spray": 0.105,
    "Surface": 0.09,
    "Keep wet": 0.07,
    "Wipe, rinse": 0.165,
    "Closed until": 0.07,
    "Used": 0.065,
    "Done": 0.05,
}
"""Headings with their shares of the width."""


def worksheet_pdf(plan: Plan, quote: Quote, units: Units) -> bytes:
    """Return the sheet the crew takes along; the same inputs give the same bytes."""
    made, _ = printed(
        list(_story(plan, quote, units)),
        units,
        title=f"Work sheet: {quote.title}",
        subject="Work sheet for surface disinfection by electrostatic spraying",
        foot=f"Work sheet of {day_words(quote.date)}, plan {quote.provenance.plan_digest}",
    )
    return made


def clock(after: Seconds) -> str:
    """Return a time after arrival in hours and minutes.

    >>> clock(3900)
    '1:05'
    """
    hours, minutes = divmod(round(after / 60), 60)
    return f"{hours}:{minutes:02d}"


def _story(plan: Plan, quote: Quote, units: Units) -> Iterator[Flowable]:
    yield from page_head("WORK SHEET", quote, units)
    if quote.provisional:
        yield banner(
            "Do not spray before this is confirmed. " + " ".join(quote.solution.unconfirmed),
            units,
            colour=ALARM,
        )
    timetable, volume = quote.timetable, quote.solution.volume
    for caution in quote.cautions:
        if caution.slug == _WEAR:
            yield banner(caution.text, units, colour=ACCENT)
    yield figures(
        (
            (str(timetable.crew), "person" if timetable.crew == 1 else "people"),
            (shown_duration(timetable.on_site), "on site"),
            (shown_volume(volume, units), sprayed_words(volume, units)),
            (str(len(tanks(quote))), "tanks to mix"),
        ),
        units,
    )
    yield Spacer(1, 6)
    yield from _mixing(quote, units)
    yield Spacer(1, 7)
    yield from _rooms(plan, quote, units)
    yield Spacer(1, 7)
    yield from _cautions(quote)
    yield KeepTogether([Spacer(1, 6), *_record(units)])


def _mixing(quote: Quote, units: Units) -> Iterator[Flowable]:
    yield heading("Mixing, tank by tank")
    wide = content_width(units)
    yield table(
        ("Tank", "Strength", "Water", "Add", "Gives", "Really added", "Done"),
        [
            (
                str(tank.number),
                shown_concentration(tank.mix.wanted),
                shown_volume(tank.fill.water, units),
                product_words(tank.fill, units),
                f"{shown_volume(tank.fill.volume, units)} of "
                f"{shown_concentration(tank.fill.strength)}",
                _LINE,
                _BOX,
            )
            for tank in tanks(quote)
        ],
        [share * wide for share in (0.07, 0.12, 0.18, 0.17, 0.27, 0.12, 0.07)],
        size=7.8,
    )


def _rooms(plan: Plan, quote: Quote, units: Units) -> Iterator[Flowable]:
    yield heading("Rooms in order")
    yield text(
        "Times are hours and minutes after arrival. Work backwards to the way out; nobody walks "
        "through a wet room.",
        style(7.4, spaceAfter=2),
    )
    names = {room.room: legible(room.name) or room.room for room in quote.schedule.rooms}
    back = {room.room: room.at for room in quote.timetable.reentry}
    several = len(plan.storeys) > 1
    floors = {room.room: f" ({_storey(plan, room.storey)})" for room in quote.schedule.rooms}
    wide = content_width(units)

    def row(number: int, stop: Stop) -> tuple[str, ...]:
        first, last = stop.tanks
        name = names.get(stop.room, stop.room) + (floors.get(stop.room, "") if several else "")
        return (
            str(number),
            clock(stop.start) if stop.start is not None else "",
            name,
            shown_concentration(stop.strength),
            str(first) if first == last else f"{first}–{last}",
            shown_volume(stop.volume, units),
            shown_area(stop.area, units) + (f" ×{stop.passes}" if stop.passes > 1 else ""),
            shown_duration(stop.contact_time),
            _wiped(quote, stop) if stop.wiped else "–",
            clock(back[stop.room]) if stop.room in back else "",
            _LINE,
            _BOX,
        )

    yield table(
        tuple(_ROOM_COLUMNS),
        [row(number, stop) for number, stop in enumerate(stops(quote), 1)],
        [share * wide for share in _ROOM_COLUMNS.values()],
        size=7.4,
    )


def _wiped(quote: Quote, stop: Stop) -> str:
    """Return what is wiped and rinsed in a room because food touches it."""
    return "; ".join(
        dict.fromkeys(
            surface.label
            for room in quote.schedule.rooms
            if room.room == stop.room
            for surface in room.surfaces
            if surface.food_contact and surface.treated
        )
    )


def _storey(plan: Plan, number: int) -> str:
    return legible(plan.storey(number).name) or f"storey {number}"


def _cautions(quote: Quote) -> Iterator[Flowable]:
    """Yield what the crew must observe; what only the client decides on stays on the quote."""
    said = [
        *quote.solution.warnings,
        *(
            caution.text
            for caution in quote.cautions
            if caution.where is not Decision.QUOTE and caution.slug != _WEAR
        ),
    ]
    if said:
        yield BalancedColumns(
            [heading("Before and while spraying"), *bullets(said, 6.5)],
            nCols=2,
            innerPadding=14,
        )


def _record(units: Units) -> Iterator[Flowable]:
    wide = content_width(units)
    blank = "_" * 14
    yield heading("What it really took")
    yield table(
        ("Arrived", "Left", "People", "Solution left over", "Product used", "Signed"),
        [(blank,) * 6],
        [wide / 6] * 6,
        size=9,
    )
    yield Spacer(1, 3)
    yield text("Remarks: " + "_" * 110, style(7.6))
