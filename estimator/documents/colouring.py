"""What the colours of rooms say: strength, use or confidence."""

from enum import StrEnum

from attrs import frozen

from estimator.documents.lettering import legible
from estimator.documents.palette import (
    CONFIDENCE_RAMP,
    USE_TINTS,
    WHITE,
    confidence_colour,
    strength_colours,
)
from estimator.measures import KilogramsPerCubicMetre
from estimator.plan.plan import Plan
from estimator.quantities import shown_concentration
from estimator.quote.quote import Quote


class ColourBy(StrEnum):
    """What decides the colour of a room."""

    STRENGTH = "strength"
    USE = "use"
    CONFIDENCE = "confidence"


@frozen(kw_only=True)
class Colouring:
    """The colour of each room by its id, and what each colour says."""

    fills: dict[str, str]
    legend: tuple[tuple[str, str], ...]


def colouring(plan: Plan, quote: Quote | None, by: ColourBy, storey: int) -> Colouring:
    """Return how the rooms of a storey are coloured."""
    if by is ColourBy.STRENGTH and quote is not None:
        return _by_strength(plan, quote, storey)
    if by is ColourBy.CONFIDENCE:
        return _by_confidence(plan, storey)
    return _by_use(plan, quote, storey)


def main_strengths(quote: Quote) -> dict[str, KilogramsPerCubicMetre]:
    """Return for each treated room the strength that most of its surface takes."""
    area: dict[tuple[str, KilogramsPerCubicMetre], float] = {}
    for dose in quote.solution.doses:
        key = dose.room, dose.strength
        area[key] = area.get(key, 0.0) + dose.area
    # Sorted by area, so that for each room the largest comes last and stays.
    return {room: strength for (room, strength), _ in sorted(area.items(), key=lambda row: row[1])}


def zone_words(slug: str) -> str:
    """Return a slug of the book in words.

    >>> zone_words("food_contact")
    'Food contact'
    """
    words = legible(slug).replace("_", " ").replace("-", " ").strip()
    return words[:1].upper() + words[1:]


def _by_strength(plan: Plan, quote: Quote, storey: int) -> Colouring:
    colours = strength_colours(mix.wanted for mix in quote.solution.mixes)
    strengths = main_strengths(quote)
    rooms = [room.id for room in plan.rooms if room.storey == storey]
    fills = {room: colours[strengths[room]] for room in rooms if room in strengths}
    legend = [
        (colours[mix.wanted], f"{shown_concentration(mix.wanted)}: {zones_words(mix.zones)}")
        for mix in sorted(quote.solution.mixes, key=lambda mix: mix.wanted)
        if colours[mix.wanted] in fills.values()
    ]
    if len(fills) < len(rooms):
        legend.append((WHITE, "not treated"))
    return Colouring(fills=fills, legend=tuple(legend))


def zones_words(zones: tuple[str, ...]) -> str:
    """Return the zones of one strength in words."""
    words = [zone_words(zone) for zone in zones]
    return ", ".join(words[:1] + [word.lower() for word in words[1:]])


def _by_use(plan: Plan, quote: Quote | None, storey: int) -> Colouring:
    labels = {room.use: room.use_label for room in quote.schedule.rooms} if quote else {}
    uses = list(dict.fromkeys(room.use for room in plan.rooms))
    tints = {use: USE_TINTS[at % len(USE_TINTS)] for at, use in enumerate(uses)}
    rooms = [room for room in plan.rooms if room.storey == storey]
    shown = dict.fromkeys(room.use for room in rooms)
    return Colouring(
        fills={room.id: tints[room.use] for room in rooms},
        legend=tuple((tints[use], legible(labels.get(use) or zone_words(use))) for use in shown),
    )


def _by_confidence(plan: Plan, storey: int) -> Colouring:
    rooms = [room for room in plan.rooms if room.storey == storey]
    words = ("hardly sure", "doubtful", "fairly sure", "sure")
    fills = {room.id: confidence_colour(room.confidence) for room in rooms}
    return Colouring(
        fills=fills,
        legend=tuple(
            (colour, text)
            for colour, text in zip(CONFIDENCE_RAMP, words, strict=True)
            if colour in fills.values()
        ),
    )
