"""The figures of a quote: what lists and comparisons need of it, and what its price hangs on.

They are kept with every quote, so that sites are compared, a difference is explained and an outcome
is held against its estimate without anything being reckoned anew.
"""

from collections import defaultdict
from collections.abc import Iterator, Sequence

from attrs import frozen

from estimator.estimation.book import Book
from estimator.estimation.chain import priced_work
from estimator.estimation.job import Job
from estimator.measures import (
    CubicMetres,
    CubicMetresPerSquareMetre,
    Metres,
    Seconds,
    Share,
    SquareMetres,
    checked,
)
from estimator.plan.plan import Plan
from estimator.price.build_up import Work
from estimator.price.charging import margin
from estimator.price.money import Money
from estimator.price.rates import Rates
from estimator.quote.likely import Range
from estimator.quote.quote import Quote
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, SurfaceKind
from estimator.treatment.film import Film
from estimator.visit.timetable import Step

_FLAT = frozenset({SurfaceKind.FLOOR, SurfaceKind.CEILING})
_CONTENTS = frozenset({SurfaceKind.FURNITURE, SurfaceKind.TOUCH_POINT})
_TASKS = {
    Step.PREPARE: Step.PREPARE,
    Step.UNMASK: Step.PREPARE,
    Step.SPRAY: Step.SPRAY,
    Step.WIPE: Step.WIPE,
}
"""What the crew does in a room, by the task of the book's pace that it belongs to."""


@frozen(kw_only=True, field_transformer=checked)
class RoomFigures:
    """What the work sheet plans for one room.

    Parameters
    ----------
    gone_over
        Surface sprayed with every pass counted.
    volume
        Liquid sprayed in all passes, losses included.
    loss
        Share of that liquid that misses the surface.
    passes
        How often the room is gone over.
    prepare, spray, wipe
        Working time of all who do it; preparing includes unmasking.
    """

    room: str
    name: str
    use: str
    use_label: str
    floor_area: SquareMetres
    treated: SquareMetres
    gone_over: SquareMetres
    wiped: SquareMetres
    volume: CubicMetres
    loss: Share
    passes: int
    prepare: Seconds
    spray: Seconds
    wipe: Seconds


@frozen(kw_only=True, field_transformer=checked)
class Figures:
    """What makes one site's price what it is.

    Parameters
    ----------
    rooms
        Rooms in which something is sprayed, in the order of the work sheet.
    floor_area
        Floor of all rooms, those that are not treated included.
    height
        Mean height of the rooms' walls.
    flat, upright, inside
        Treated surface of floors and ceilings, of walls with doors and glass, and of contents with
        touch points.
    volume
        Liquid sprayed, losses included.
    usual_film
        Liquid that the book lays on level surfaces, losses included.
    setting_up
        Time on site that does not grow with the rooms: setting up and cleaning down.
    work, rates, job
        What the price was made of.
    cost, charge, total
        What the visit costs the firm with overhead, what is charged before tax, and what the client
        pays.
    provisional
        Whether something must still be confirmed before anyone sprays.
    """

    title: str
    date: str
    storeys: int
    rooms: tuple[RoomFigures, ...]
    floor_area: SquareMetres
    height: Metres
    flat: SquareMetres
    upright: SquareMetres
    inside: SquareMetres
    volume: CubicMetres
    usual_film: CubicMetresPerSquareMetre
    setting_up: Seconds
    work: Work
    rates: Rates
    job: Job
    cost: Money
    charge: Money
    total: Money
    range: Range
    provisional: bool

    @property
    def currency(self) -> str:
        """Currency of every amount."""
        return self.total.currency

    @property
    def treated(self) -> SquareMetres:
        """Surface treated on the whole site."""
        return self.flat + self.upright + self.inside

    @property
    def film(self) -> CubicMetresPerSquareMetre:
        """Liquid sprayed per treated surface, passes and losses included."""
        return self.volume / self.treated if self.treated else 0.0

    @property
    def margin(self) -> float:
        """What the charge leaves after cost, as a share of the charge; below 0 a loss."""
        return float(margin(self.charge, self.cost))


def figures_of(plan: Plan, quote: Quote, book: Book, job: Job) -> Figures:
    """Return the figures of a quote from what it was reckoned from."""
    parts = _parts(quote.schedule)
    return Figures(
        title=quote.title,
        date=quote.date,
        storeys=len({room.storey for room in plan.rooms}),
        rooms=tuple(_rooms(quote, book)),
        floor_area=quote.schedule.floor_area,
        height=_height(quote.schedule),
        flat=parts["flat"],
        upright=parts["upright"],
        inside=parts["inside"],
        volume=quote.solution.volume,
        usual_film=usual_film(book.films),
        setting_up=min(quote.timetable.on_site, book.site_times.arrive + book.site_times.leave),
        work=priced_work(job, quote.solution, quote.timetable),
        rates=book.rates,
        job=job,
        cost=quote.price.full_cost,
        charge=quote.price.charge,
        total=quote.price.total,
        range=quote.range,
        provisional=quote.provisional,
    )


def usual_film(films: Sequence[Film]) -> CubicMetresPerSquareMetre:
    """Return the liquid laid on level surfaces, losses included; 0 where the book has none."""
    return next((film.volume * (1 + film.loss) for film in films if film.lie is Lie.LEVEL), 0.0)


def _parts(schedule: Schedule) -> dict[str, SquareMetres]:
    """Return the treated surface by what it grows with."""
    parts = {"flat": 0.0, "upright": 0.0, "inside": 0.0}
    for room in schedule.rooms:
        for surface in room.surfaces:
            inside = "inside" if surface.kind in _CONTENTS else "upright"
            parts["flat" if surface.kind in _FLAT else inside] += surface.treated
    return parts


def _height(schedule: Schedule) -> Metres:
    """Return the mean height of all walls, long ones counting more."""
    walls = sum(room.perimeter for room in schedule.rooms)
    return sum(room.perimeter * room.height for room in schedule.rooms) / walls if walls else 0.0


def _rooms(quote: Quote, book: Book) -> Iterator[RoomFigures]:
    """Yield what is planned for each room in which something is sprayed, as the crew goes."""
    doses = defaultdict(list)
    for dose in quote.solution.doses:
        doses[dose.room].append(dose)
    times: defaultdict[tuple[str | None, Step], Seconds] = defaultdict(float)
    for task in quote.timetable.tasks:
        if task.step in _TASKS:
            times[task.room, _TASKS[task.step]] += task.end - task.start
    coats = {(one.zone, one.lie): one.film * one.passes for one in quote.solution.wetness}
    losses = {film.lie: film.loss for film in book.films}
    measured = {room.room: room for room in quote.schedule.rooms}
    for room in (measured[each] for each in quote.timetable.order):
        own = doses[room.room]
        volume = sum(dose.volume for dose in own)
        yield RoomFigures(
            room=room.room,
            name=room.name or room.use_label,
            use=room.use,
            use_label=room.use_label,
            floor_area=room.floor_area,
            treated=room.treated,
            gone_over=sum(dose.gone_over for dose in own),
            wiped=sum(dose.wiped for dose in own),
            volume=volume,
            loss=_missed(room, coats, losses) / volume if volume else 0.0,
            passes=max(dose.passes for dose in own),
            prepare=times[room.room, Step.PREPARE],
            spray=times[room.room, Step.SPRAY],
            wipe=times[room.room, Step.WIPE],
        )


def _missed(
    room: RoomSchedule,
    coats: dict[tuple[str, Lie], CubicMetresPerSquareMetre],
    losses: dict[Lie, Share],
) -> CubicMetres:
    """Return the liquid that is sprayed in a room and misses its surfaces."""
    return sum(
        one.treated * coats[one.zone, one.lie] * losses[one.lie]
        for one in room.surfaces
        if one.treated
    )
