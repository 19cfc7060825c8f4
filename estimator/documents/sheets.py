"""The sheets of a quote: headings with units, and rows of numbers and words."""

from collections.abc import Iterator

from attrs import frozen

from estimator.documents.colouring import zones_words
from estimator.documents.lettering import plain
from estimator.price.build_up import PriceLine
from estimator.price.money import Money
from estimator.quantities import Units
from estimator.quantities.tokens import FOOT, INCH
from estimator.quote.quote import Quote

Cell = str | int | float | None

_GALLON = 231 * INCH**3
_OUNCE = 0.028349523125
"""US liquid gallon and avoirdupois ounce, exact (NIST Handbook 44, appendix C)."""


@frozen(kw_only=True)
class Sheet:
    """A table under its name.

    Parameters
    ----------
    decimals
        Decimals shown in each column; None for words.
    """

    name: str
    headings: tuple[str, ...]
    decimals: tuple[int | None, ...]
    rows: tuple[tuple[Cell, ...], ...]


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


def sheets(quote: Quote, units: Units) -> tuple[Sheet, ...]:
    """Return all sheets of a quote."""
    return (
        schedule_sheet(quote, units),
        _rooms(quote, units),
        _solution(quote, units),
        _timetable(quote),
        _price(quote),
    )


def schedule_sheet(quote: Quote, units: Units) -> Sheet:
    """Return a row for every surface of every room."""
    symbol, size = _MEASURES[units].area
    return Sheet(
        name="Schedule",
        headings=(
            "Storey",
            "Room",
            "Use",
            "Part",
            "Surface",
            "Count",
            "Strength zone",
            *(f"{what} ({symbol})" for what in ("Gross", "Deducted", "Net", "Treated")),
            "Touches food",
            "Basis",
        ),
        decimals=(0, None, None, None, None, 0, None, 2, 2, 2, 2, None, None),
        rows=tuple(
            (
                room.storey,
                plain(room.name) or room.room,
                plain(room.use_label),
                surface.kind.value,
                plain(surface.label),
                surface.count,
                plain(quote.solution.zone_label(surface.zone)),
                surface.gross / size,
                surface.deducted / size,
                surface.net / size,
                surface.treated / size,
                "yes" if surface.food_contact else "no",
                surface.basis.value,
            )
            for room in quote.schedule.rooms
            for surface in room.surfaces
        ),
    )


def _rooms(quote: Quote, units: Units) -> Sheet:
    measures = _MEASURES[units]
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
        name="Rooms",
        headings=(
            "Storey",
            "Room",
            "Use",
            f"Floor ({area[0]})",
            f"Perimeter ({length[0]})",
            f"Height ({length[0]})",
            f"Air ({space[0]})",
            f"Treated ({area[0]})",
            f"Solution ({liquid[0]})",
            "Closed until (min after arrival)",
            "Because",
        ),
        decimals=(0, None, None, 2, 2, 2, 2, 2, 3, 0, None),
        rows=tuple(
            (
                room.storey,
                plain(room.name) or room.room,
                plain(room.use_label),
                room.floor_area / area[1],
                room.perimeter / length[1],
                room.height / length[1],
                room.volume / space[1],
                room.treated / area[1],
                litres.get(room.room, 0.0) / liquid[1],
                back[room.room].at / 60 if room.room in back else None,
                back[room.room].because if room.room in back else None,
            )
            for room in quote.schedule.rooms
        ),
    )


def _solution(quote: Quote, units: Units) -> Sheet:
    (liquid, size), (mass, ounce) = _MEASURES[units].liquid, _MEASURES[units].mass
    return Sheet(
        name="Solution",
        headings=(
            "Strength zones",
            "Wanted (ppm)",
            "Contact time (min)",
            "Tank",
            f"Solution ({liquid})",
            f"Water ({liquid})",
            "Tablets",
            f"Powder ({mass})",
            f"Concentrate ({liquid})",
            "Obtained (ppm)",
        ),
        decimals=(None, 0, 1, 0, 3, 3, 0, 2, 3, 0),
        rows=tuple(
            (
                zones_words(mix, quote.solution),
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


def _timetable(quote: Quote) -> Sheet:
    names = {room.room: plain(room.name) or room.room for room in quote.schedule.rooms}
    return Sheet(
        name="Timetable",
        headings=("Start (min)", "End (min)", "Who", "Step", "Room"),
        decimals=(1, 1, None, None, None),
        rows=tuple(
            (
                task.start / 60,
                task.end / 60,
                f"Person {task.person}" if task.person else "nobody",
                task.step.value,
                names.get(task.room, task.room) if task.room else "site",
            )
            for task in quote.timetable.tasks
        ),
    )


def _price(quote: Quote) -> Sheet:
    price = quote.price
    currency = price.total.currency
    return Sheet(
        name="Price",
        headings=("Line", "Quantity", "Unit", "Rate", f"Amount ({currency})"),
        decimals=(None, 3, None, 3, 2),
        rows=(
            *_lines((*price.costs, *price.additions)),
            _sum("Charge", price.charge),
            *_lines(price.taxes),
            _sum("Total", price.total),
            _sum("Total below this with a chance of 10 %", quote.range.p10),
            _sum("Total below this with a chance of 50 %", quote.range.p50),
            _sum("Total below this with a chance of 90 %", quote.range.p90),
        ),
    )


def _lines(lines: tuple[PriceLine, ...]) -> Iterator[tuple[Cell, ...]]:
    for line in lines:
        yield (
            plain(line.label),
            float(line.quantity),
            plain(line.unit),
            float(line.rate),
            float(line.amount.amount),
        )


def _sum(label: str, amount: Money) -> tuple[Cell, ...]:
    return label, None, None, None, float(amount.amount)
