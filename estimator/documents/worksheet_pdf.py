"""The crew's work sheet: what to mix, where to spray it in which order, what was really used."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from reportlab.platypus import BalancedColumns, Flowable, KeepTogether, PageBreak, Spacer

from estimator.documents.frame import banner, bullets, figures, page_head
from estimator.documents.lettering import legible
from estimator.documents.palette import ACCENT, ALARM
from estimator.documents.paper import (
    Drawing,
    content_height,
    content_width,
    heading,
    printed,
    style,
    table,
    text,
)
from estimator.documents.route_map import route_map
from estimator.documents.stops import Stop, Tank, stops, tanks
from estimator.documents.wording import (
    day_words,
    keeping_words,
    product_words,
    sprayed_words,
    stock_words,
    water_words,
)
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
from estimator.visit.emergency import EMERGENCIES

_BOX = "☐"
_WEAR = "protective-wear"
"""Slug of the caution that stands above all others on this sheet."""

_LINE = "______"
_MAP_SHARE = 0.31
"""Share of a page's height that the map takes."""

_MANY = 30
"""From so many stops on they are set smaller."""

_ROOM_COLUMNS = {
    "": 0.03,
    "Start": 0.045,
    "Room": 0.1,
    "Who": 0.045,
    "Strength": 0.085,
    "Mix": 0.065,
    "Fill in": 0.087,
    "Spray": 0.087,
    "Surface": 0.07,
    "Keep wet": 0.055,
    "Mask": 0.068,
    "Wipe, rinse": 0.11,
    "Closed until": 0.055,
    "Used": 0.053,
    "Done": 0.045,
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
    found = stops(quote)
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
            (str(timetable.sprayers), "of them spraying"),
            (shown_duration(timetable.on_site), "on site"),
            (shown_volume(volume, units), sprayed_words(volume, units)),
            (str(len(tanks(quote))), "mixes to make up"),
        ),
        units,
    )
    if timetable.findings:
        yield Spacer(1, 5)
        yield banner(" ".join(timetable.findings), units)
    yield from _maps(plan, quote, found, units)
    many = len(found) > _MANY
    yield from _cautions(quote, emergency=many)
    yield PageBreak()
    yield from _mixing(quote, units)
    yield Spacer(1, 6)
    yield from _rooms(plan, quote, found, units)
    yield from _to_mask(quote)
    if not many:
        yield KeepTogether([Spacer(1, 6), *_emergency()])
    yield KeepTogether([Spacer(1, 6), *_record(units)])


def _maps(plan: Plan, quote: Quote, found: Sequence[Stop], units: Units) -> Iterator[Flowable]:
    """Yield each storey with the stops in their order; together they take about half a page."""
    at = {room.room: room.storey for room in quote.schedule.rooms}
    used = [
        storey
        for storey in plan.storeys
        if any(at.get(stop.room) == storey.number for stop in found)
    ]
    for storey in used:
        drawing = Drawing(
            route_map(
                plan,
                quote,
                found,
                units,
                storey.number,
                wide=content_width(units),
                high=_MAP_SHARE * content_height(units) / min(len(used), 2),
                text=8.0,
            )
        )
        name = f": {_storey(plan, storey.number)}" if len(plan.storeys) > 1 else ""
        yield KeepTogether([Spacer(1, 5), heading(f"The way{name}"), drawing])


def _mixing(quote: Quote, units: Units) -> Iterator[Flowable]:
    yield heading("Mixing, tank by tank")
    yield text(keeping_words(quote.solution), style(7.4, spaceAfter=2))
    wide = content_width(units)

    def row(alike: Sequence[Tank]) -> tuple[str, ...]:
        fill, numbers = alike[0].fill, [tank.number for tank in alike]
        return (
            str(numbers[0]) if len(numbers) == 1 else f"{numbers[0]}–{numbers[-1]}",
            shown_concentration(alike[0].mix.wanted),
            water_words(fill.water, quote.solution, units),
            product_words(fill, units),
            f"{shown_volume(fill.volume, units)} of {shown_concentration(fill.strength)}",
            _LINE,
            _BOX * len(numbers),
        )

    yield table(
        ("Mix", "Strength", "Water", "Add", "Gives", "Really added", "A box for each, done"),
        [row(list(alike)) for _, alike in groupby(tanks(quote), key=lambda tank: tank.fill)],
        [share * wide for share in (0.07, 0.11, 0.14, 0.14, 0.2, 0.11, 0.23)],
        size=7.8,
    )
    for mix in quote.solution.mixes:
        if mix.stock:
            yield text(f"Or {stock_words(mix, units)}", style(7.4, spaceBefore=2))


def _rooms(plan: Plan, quote: Quote, found: Sequence[Stop], units: Units) -> Iterator[Flowable]:
    yield heading("Rooms in order")
    yield text(
        "Numbers as on the plan; times are hours and minutes after arrival. Work backwards to the "
        "way out; nobody walks through a wet room.",
        style(7.4, spaceAfter=2),
    )
    names = {room.room: legible(room.name) or room.room for room in quote.schedule.rooms}
    back = {room.room: room.at for room in quote.timetable.reentry}
    several = len(plan.storeys) > 1
    marks: dict[str, str] = {}
    for one, rooms in quote.timetable.precautions:
        for room in rooms:
            marks[room] = marks.get(room, "") + one.mark
    floors = {room.room: f" ({_storey(plan, room.storey)})" for room in quote.schedule.rooms}
    wide = content_width(units)

    def row(number: int, stop: Stop) -> tuple[str, ...]:
        name = names.get(stop.room, stop.room) + (floors.get(stop.room, "") if several else "")
        return (
            str(number),
            clock(stop.start) if stop.start is not None else "",
            name,
            str(stop.person),
            shown_concentration(stop.strength),
            ", ".join(map(str, stop.tanks)),
            shown_volume(stop.filled, units) if stop.filled else "–",
            shown_volume(stop.volume, units),
            shown_area(stop.area, units) + (f" ×{stop.passes}" if stop.passes > 1 else ""),
            shown_duration(stop.contact_time),
            marks.get(stop.room, "–"),
            _wiped(quote, stop) if stop.wiped else "–",
            clock(back[stop.room]) if stop.room in back else "",
            _LINE,
            _BOX,
        )

    yield table(
        tuple(_ROOM_COLUMNS),
        [row(number, stop) for number, stop in enumerate(found, 1)],
        [share * wide for share in _ROOM_COLUMNS.values()],
        size=7.4 if len(found) <= _MANY else 6.0,
        padding=2.0 if len(found) <= _MANY else 0.4,
    )


def _to_mask(quote: Quote) -> Iterator[Flowable]:
    """Yield what the letters of the column to mask stand for."""
    said = "; ".join(f"{one.mark}: {one.says}" for one, _ in quote.timetable.precautions)
    if said:
        yield text(f"Mask, remove or switch off before spraying. {said}.", style(6.2))


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


def _cautions(quote: Quote, *, emergency: bool) -> Iterator[Flowable]:
    """Yield what the crew must observe; what only the client decides on stays on the quote."""
    said = [
        *quote.solution.warnings,
        *(
            caution.text
            for caution in quote.cautions
            if caution.where is not Decision.QUOTE and caution.slug != _WEAR
        ),
    ]
    yield BalancedColumns(
        [
            heading("Before and while spraying"),
            *bullets(said, 6.3),
            *(_emergency() if emergency else ()),
        ],
        nCols=2,
        innerPadding=14,
    )


def _emergency() -> Iterator[Flowable]:
    """Yield what to do when something goes wrong."""
    yield heading("If something goes wrong")
    yield text(
        "Label and safety data sheet come first. Emergency services ________ "
        "Poison centre ____________ Nearest tap or eye-wash ____________",
        style(6.5),
    )
    yield from bullets((f"{one.happened}: {one.do}" for one in EMERGENCIES), 6.5)


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
