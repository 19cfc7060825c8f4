"""Sentences and dates that several papers say alike."""

from collections.abc import Sequence
from datetime import date
from itertools import groupby

from estimator.documents.recipes import jug_units
from estimator.measures import CubicMetres
from estimator.plan.doubt import Doubt
from estimator.quantities import (
    Units,
    shown_area,
    shown_concentration,
    shown_duration,
    shown_mass,
    shown_volume,
)
from estimator.quantities.in_units import in_units
from estimator.quote.quote import Quote
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.totals import by_kind
from estimator.treatment.solution import Mix, Solution, TankFill

KIND_WORDS = {
    SurfaceKind.FLOOR: "floors",
    SurfaceKind.WALL: "walls",
    SurfaceKind.CEILING: "ceilings",
    SurfaceKind.DOOR: "doors",
    SurfaceKind.GLASS: "glass",
    SurfaceKind.REVEAL: "reveals of doors and windows",
    SurfaceKind.FURNITURE: "furniture and fixtures",
    SurfaceKind.TOUCH_POINT: "touch points",
}

_MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]


def day_words(written: str) -> str:
    """Return an ISO date in words that no reader takes for another day.

    >>> day_words("2026-03-02")
    '2 March 2026'
    """
    try:
        day = date.fromisoformat(written)
    except ValueError:
        return written
    return f"{day.day} {_MONTHS[day.month - 1]} {day.year}"


def listed(words: Sequence[str]) -> str:
    """Return words as a list in a sentence.

    >>> listed(["floors", "walls", "doors"])
    'floors, walls and doors'
    """
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))


def scope_words(quote: Quote, units: Units) -> str:
    """Return what is treated and what is not, in two sentences."""
    totals = by_kind(quote.schedule)
    treated = [KIND_WORDS[kind] for kind in KIND_WORDS if kind in totals and totals[kind].treated]
    left_out = [
        KIND_WORDS[kind]
        for kind in KIND_WORDS
        if kind in totals and totals[kind].gross and not totals[kind].treated
    ]
    rooms = len(quote.schedule.rooms)
    where = "1 room" if rooms == 1 else f"{rooms:,} rooms"
    said = (
        f"Spraying {listed(treated) or 'nothing'} in {where} with "
        f"{shown_area(quote.schedule.floor_area, units)} of floor."
    )
    return f"{said} Not included: {listed(left_out)}." if left_out else said


def product_words(taken: Mix | TankFill, units: Units) -> str:
    """Return how much product goes into a mix or a tank."""
    if taken.tablets:
        return f"{taken.tablets:,} tablet{'s' if taken.tablets != 1 else ''}"
    if taken.powder:
        return f"{shown_mass(taken.powder, units)} powder"
    if taken.concentrate:
        return f"{shown_volume(taken.concentrate, units)} concentrate"
    return "ready to use"


def water_words(water: CubicMetres, solution: Solution, units: Units) -> str:
    """Return water in fillings of the crew's own jug and a rest, in the units on the jug."""
    if solution.measuring is None:
        return shown_volume(water, units)
    units = jug_units(solution.measuring, units)
    jugs, rest = solution.measuring.jugs(water)
    parts = [f"{jugs} × {shown_volume(solution.measuring.jug, units)}"] if jugs else []
    if rest:
        parts.append(shown_volume(rest, units))
    return " + ".join(parts) or "none"


def keeping_words(solution: Solution) -> str:
    """Return how long mixed solution may be used and which strength comes first, in sentences."""
    if not solution.mixes or solution.use_within is None:
        return ""
    says = "as the label says" if solution.use_within_by_label else "at most, by guidance"
    order = "from weak to strong"
    if solution.mixes[0].wanted > solution.mixes[-1].wanted:
        order = "from strong to weak, as the label says, and rinse the tank in between"
    return (
        f"Use each tank within {shown_duration(solution.use_within)} of mixing, {says}. "
        f"Work {order}."
    )


def stock_words(mix: Mix, units: Units) -> str:
    """Return the other way to a weak solution from big tablets; nothing where there is none."""
    if mix.stock is None:
        return ""
    stock = mix.stock
    tanks = "; ".join(
        f"{f'{count} × ' if (count := len(list(alike))) > 1 else ''}"
        f"{shown_volume(fill.concentrate, units)} of it made up to "
        f"{shown_volume(fill.volume, units)}"
        for fill, alike in groupby(stock.fills)
    )
    return (
        f"{shown_concentration(mix.wanted)} exactly, where the label allows a stock: "
        f"{stock.tablets} tablet{'s' if stock.tablets != 1 else ''} in "
        f"{shown_volume(stock.water, units)} of water ({shown_concentration(stock.strength)}), "
        f"then {tanks}. {shown_volume(stock.left_over, units)} of stock is left over."
    )


def assumed_words(quote: Quote, units: Units) -> list[str]:
    """Return the assumptions, the same one about several rooms said once."""
    names = {room.room: room.name for room in quote.schedule.rooms}
    alike: dict[str, list[Doubt]] = {}
    for doubt in quote.assumptions:
        name = names.get(doubt.room or "")
        alike.setdefault(doubt.says.replace(name, "\0") if name else doubt.says, []).append(doubt)
    said = []
    for doubts in alike.values():
        first = in_units(doubts[0].says, units, list(names.values()))
        others = list(dict.fromkeys(names.get(doubt.room or "", "") for doubt in doubts[1:]))
        if any(others):
            first = f"{first.rstrip('.')}; likewise for {listed(others)}."
        said.append(first)
    return said


def sprayed_words(volume: CubicMetres, units: Units) -> str:
    """Return what a figure of liquid is, with litres where it is in gallons: labels speak of both.

    >>> sprayed_words(0.012, Units.US)
    'solution to spray (12 L)'
    """
    litres = f" ({shown_volume(volume, Units.METRIC)})" if units is Units.US else ""
    return f"solution to spray{litres}"
