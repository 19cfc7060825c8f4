"""What the colours of rooms say: strength, use or confidence."""

from enum import StrEnum

from attrs import field, frozen

from estimator.documents.lettering import legible
from estimator.documents.palette import (
    CONFIDENCE_RAMP,
    USE_TINTS,
    WHITE,
    confidence_colour,
    strength_colours,
)
from estimator.documents.reader import Reader
from estimator.measures import KilogramsPerCubicMetre
from estimator.plan.plan import Plan
from estimator.quote.quote import Quote
from estimator.treatment.solution import Mix, Solution


class ColourBy(StrEnum):
    """What decides the colour of a room."""

    STRENGTH = "strength"
    USE = "use"
    CONFIDENCE = "confidence"


@frozen(kw_only=True)
class Colouring:
    """The colour of each room by its id, and what each colour says.

    Parameters
    ----------
    spots
        Colours a room has besides, such as those of other strengths used in it.
    """

    fills: dict[str, str]
    spots: dict[str, tuple[str, ...]] = field(factory=dict)
    legend: tuple[tuple[str, str], ...]


def colouring(
    plan: Plan, quote: Quote | None, by: ColourBy, storey: int, reader: Reader | None = None
) -> Colouring:
    """Return how the rooms of a storey are coloured, in English where no reader is given."""
    reader = reader or Reader()
    if by is ColourBy.STRENGTH and quote is not None:
        return _by_strength(plan, quote, storey, reader)
    if by is ColourBy.CONFIDENCE:
        return _by_confidence(plan, storey, reader)
    return _by_use(plan, quote, storey, reader)


def main_strengths(quote: Quote) -> dict[str, KilogramsPerCubicMetre]:
    """Return for each treated room the strength that most of its surface takes."""
    area: dict[tuple[str, KilogramsPerCubicMetre], float] = {}
    for dose in quote.solution.doses:
        if not dose.area:
            continue
        key = dose.room, dose.strength
        area[key] = area.get(key, 0.0) + dose.area
    # Sorted by area, so that for each room the largest comes last and stays.
    return {room: strength for (room, strength), _ in sorted(area.items(), key=lambda row: row[1])}


def zones_words(mix: Mix, solution: Solution, reader: Reader | None = None) -> str:
    """Return the zones that a mix serves in words, in English where no reader is given."""
    reader = reader or Reader()
    return ", ".join(legible(reader.label(solution.zone_label(zone))) for zone in mix.zones)


def _by_strength(plan: Plan, quote: Quote, storey: int, reader: Reader) -> Colouring:
    mixes = sorted(quote.solution.mixes, key=lambda mix: mix.wanted)
    colours = strength_colours(mix.wanted for mix in mixes)
    main = main_strengths(quote)
    rooms = [room.id for room in plan.rooms if room.storey == storey]
    used: dict[str, set[KilogramsPerCubicMetre]] = {}
    for dose in quote.solution.doses:
        if dose.area and dose.room in rooms:
            used.setdefault(dose.room, set()).add(dose.strength)
    here = {strength for strengths in used.values() for strength in strengths}
    legend = [
        (
            colours[mix.wanted],
            reader.say(
                "drawing",
                "legend",
                strength=reader.strength(mix.wanted),
                zones=zones_words(mix, quote.solution, reader),
            ),
        )
        for mix in mixes
        if mix.wanted in here
    ]
    spots = {
        room: tuple(colours[strength] for strength in sorted(strengths - {main[room]}))
        for room, strengths in used.items()
    }
    if any(spots.values()):
        legend.append(("", reader.say("drawing", "spot")))
    if any(room not in main for room in rooms):
        legend.append((WHITE, reader.say("drawing", "untreated")))
    return Colouring(
        fills={room: colours[main[room]] for room in rooms if room in main},
        spots=spots,
        legend=tuple(legend),
    )


def _by_use(plan: Plan, quote: Quote | None, storey: int, reader: Reader) -> Colouring:
    labels = {room.use: room.use_label for room in quote.schedule.rooms} if quote else {}

    def words(use: str) -> str:
        return legible(reader.label(labels.get(use) or use.replace("_", " ").capitalize()))

    uses = list(dict.fromkeys(room.use for room in plan.rooms))
    tints = {use: USE_TINTS[at % len(USE_TINTS)] for at, use in enumerate(uses)}
    rooms = [room for room in plan.rooms if room.storey == storey]
    shown = dict.fromkeys(room.use for room in rooms)
    return Colouring(
        fills={room.id: tints[room.use] for room in rooms},
        legend=tuple((tints[use], words(use)) for use in shown),
    )


def _by_confidence(plan: Plan, storey: int, reader: Reader) -> Colouring:
    rooms = [room for room in plan.rooms if room.storey == storey]
    words = [reader.say("drawing", sure) for sure in ("hardly", "doubt", "fairly", "sure")]
    fills = {room.id: confidence_colour(room.confidence) for room in rooms}
    return Colouring(
        fills=fills,
        legend=tuple(
            (colour, text)
            for colour, text in zip(CONFIDENCE_RAMP, words, strict=True)
            if colour in fills.values()
        ),
    )
