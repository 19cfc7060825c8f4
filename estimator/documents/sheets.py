"""The sheets of a quote: headings with units, and rows of numbers and words."""

from attrs import frozen

from estimator.documents.colouring import zones_words
from estimator.documents.lettering import plain
from estimator.documents.price_sheets import option_sheet, price_sheet
from estimator.documents.reader import Reader
from estimator.documents.sheet import Sheet
from estimator.price.rates import Rates
from estimator.quantities import Units
from estimator.quantities.language import respelled
from estimator.quantities.tokens import FOOT, INCH
from estimator.quote.quote import Quote
from estimator.quote.recipient import Recipient

_GALLON = 231 * INCH**3
_OUNCE = 0.028349523125
"""US liquid gallon and avoirdupois ounce, exact (NIST Handbook 44, appendix C)."""


@frozen(kw_only=True)
class Measures:
    """Symbols and sizes in SI units of what a reader measures with."""

    length: tuple[str, float]
    area: tuple[str, float]
    space: tuple[str, float]
    liquid: tuple[str, float]
    mass: tuple[str, float]


_MEASURES = {
    Units.METRIC: Measures(
        length=("m", 1.0), area=("m²", 1.0), space=("m³", 1.0), liquid=("L", 1e-3), mass=("g", 1e-3)
    ),
    Units.US: Measures(
        length=("ft", FOOT),
        area=("ft²", FOOT**2),
        space=("ft³", FOOT**3),
        liquid=("US gal", _GALLON),
        mass=("oz", _OUNCE),
    ),
}


def sheets(
    quote: Quote, rates: Rates, reader: Reader, recipient: Recipient | None = None
) -> tuple[Sheet, ...]:
    """Return all sheets of a quote that was priced at these rates."""
    found = (
        schedule_sheet(quote, reader),
        _rooms(quote, reader),
        _solution(quote, reader),
        _timetable(quote, reader),
        price_sheet(quote, rates, reader),
        option_sheet(quote, rates, reader),
        _addressed(quote, reader, recipient) if recipient else None,
    )
    return tuple(sheet for sheet in found if sheet)


def _measured(reader: Reader, key: str, unit: str) -> str:
    """Return a heading with its unit."""
    return reader.say("sheets", key, unit=respelled(unit, reader.language))


def _headings(reader: Reader, *keys: str) -> tuple[str, ...]:
    return tuple(reader.say("sheets", key) for key in keys)


def schedule_sheet(quote: Quote, reader: Reader) -> Sheet:
    """Return a row for every surface of every room."""
    symbol, size = _MEASURES[reader.units].area
    return Sheet(
        name=reader.say("sheets", "schedule"),
        headings=(
            *_headings(reader, "storey", "room", "use", "part", "surface", "count", "zone"),
            *(_measured(reader, key, symbol) for key in ("gross", "deducted", "net", "treated")),
            *_headings(reader, "food", "basis"),
        ),
        decimals=(0, None, None, None, None, 0, None, 2, 2, 2, 2, None, None),
        rows=tuple(
            (
                room.storey,
                plain(room.name) or room.room,
                plain(reader.label(room.use_label)),
                reader.label(surface.kind.value),
                plain(reader.label(surface.label)),
                surface.count,
                plain(reader.label(quote.solution.zone_label(surface.zone))),
                surface.gross / size,
                surface.deducted / size,
                surface.net / size,
                surface.treated / size,
                reader.label("yes" if surface.food_contact else "no"),
                reader.label(surface.basis.value),
            )
            for room in quote.schedule.rooms
            for surface in room.surfaces
        ),
    )


def _addressed(quote: Quote, reader: Reader, recipient: Recipient) -> Sheet:
    said = {
        "number": recipient.number,
        "version": recipient.version or reader.say("sheets", "draft"),
        "date": reader.day(quote.date),
        "client": recipient.client,
        "address": ", ".join(recipient.address),
        "site": recipient.site,
        "place": ", ".join(recipient.place),
    }
    return Sheet(
        name=reader.say("sheets", "quote"),
        headings=_headings(reader, "what", "value"),
        decimals=(None, None),
        rows=tuple(
            (reader.say("sheets", key), plain(one) if isinstance(one, str) else one)
            for key, one in said.items()
        ),
    )


def _rooms(quote: Quote, reader: Reader) -> Sheet:
    measures = _MEASURES[reader.units]
    length, area, space, liquid = (
        measures.length,
        measures.area,
        measures.space,
        measures.liquid,
    )
    litres: dict[str, float] = {}
    for dose in quote.solution.doses:
        litres[dose.room] = litres.get(dose.room, 0.0) + dose.volume
    back = {reentry.room: reentry for reentry in quote.timetable.reentry}
    return Sheet(
        name=reader.say("sheets", "rooms"),
        headings=(
            *_headings(reader, "storey", "room", "use"),
            _measured(reader, "floor", area[0]),
            _measured(reader, "perimeter", length[0]),
            _measured(reader, "height", length[0]),
            _measured(reader, "air", space[0]),
            _measured(reader, "treated", area[0]),
            _measured(reader, "liquid", liquid[0]),
            *_headings(reader, "closed", "because"),
        ),
        decimals=(0, None, None, 2, 2, 2, 2, 2, 3, 0, None),
        rows=tuple(
            (
                room.storey,
                plain(room.name) or room.room,
                plain(reader.label(room.use_label)),
                room.floor_area / area[1],
                room.perimeter / length[1],
                room.height / length[1],
                room.volume / space[1],
                room.treated / area[1],
                litres.get(room.room, 0.0) / liquid[1],
                back[room.room].at / 60 if room.room in back else None,
                reader.reason(back[room.room].because) if room.room in back else None,
            )
            for room in quote.schedule.rooms
        ),
    )


def _solution(quote: Quote, reader: Reader) -> Sheet:
    measures = _MEASURES[reader.units]
    (liquid, size), (mass, ounce) = measures.liquid, measures.mass
    return Sheet(
        name=reader.say("sheets", "solution"),
        headings=(
            *_headings(reader, "zones", "wanted", "contact", "tank"),
            _measured(reader, "liquid", liquid),
            _measured(reader, "water", liquid),
            *_headings(reader, "tablets"),
            _measured(reader, "powder", mass),
            _measured(reader, "concentrate", liquid),
            *_headings(reader, "obtained"),
        ),
        decimals=(None, 0, 1, 0, 3, 3, 0, 2, 3, 0),
        rows=tuple(
            (
                zones_words(mix, quote.solution, reader),
                mix.wanted * 1000,
                mix.contact_time / 60,
                number,
                fill.volume / size,
                fill.water / size,
                fill.tablets,
                fill.powder / ounce,
                fill.concentrate / size,
                fill.strength * 1000,
            )
            for mix in quote.solution.mixes
            for number, fill in enumerate(mix.fills, 1)
        ),
    )


def _timetable(quote: Quote, reader: Reader) -> Sheet:
    names = {room.room: plain(room.name) or room.room for room in quote.schedule.rooms}
    return Sheet(
        name=reader.say("sheets", "timetable"),
        headings=_headings(reader, "start", "end", "who", "step", "room"),
        decimals=(1, 1, None, None, None),
        rows=tuple(
            (
                task.start / 60,
                task.end / 60,
                reader.say("sheets", "person", number=task.person)
                if task.person
                else reader.label("nobody"),
                reader.label(task.step.value),
                names.get(task.room, task.room) if task.room else reader.label("site"),
            )
            for task in quote.timetable.tasks
        ),
    )
