"""The chain: plan, schedule, solution, timetable, price, quote."""

from collections.abc import Iterator, Sequence

from attrs import evolve, frozen

from estimator.errors import PlanError
from estimator.estimation.asking import questions
from estimator.estimation.book import Book
from estimator.estimation.covering import covered, covered_beside
from estimator.estimation.digest import plan_digest, value_digest
from estimator.estimation.job import Job
from estimator.estimation.leeway import Liquid, liquid_of
from estimator.estimation.offering import terms_of
from estimator.estimation.range import parts_of, price_range
from estimator.plan.doubt import Doubt
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.ways import Ways, ways
from estimator.price.build_up import Price, Work, price
from estimator.quote.likely import Range
from estimator.quote.option import Option
from estimator.quote.quote import Provenance, Quote
from estimator.surfaces.measure import measure
from estimator.surfaces.schedule import RoomSchedule, Schedule
from estimator.treatment.cautions import cautions
from estimator.treatment.plan import treat
from estimator.treatment.solution import Dose, Solution
from estimator.treatment.zoning import zoned
from estimator.visit.plan import plan_visit
from estimator.visit.timetable import Timetable
from estimator.visit.work import RoomWork


def estimate(plan: Plan, book: Book, job: Job, *, date: str, version: str, seed: int = 0) -> Quote:
    """Return the quote for treating the rooms of a plan.

    Parameters
    ----------
    date
        Day of the quote, ISO 8601.
    version
        Version of the estimator, kept as provenance.

    Raises
    ------
    PlanError
        When the plan has no rooms or no scale yet.
    CatalogueError
        When the book lacks something the plan or the job names.
    TreatmentError
        When the label does not allow what is asked for.
    PriceError
        When the rates do not suffice.
    """
    if not plan.rooms:
        raise PlanError(plan.title or "plan", "it has no rooms", "draw or type at least one")
    made = _reckoned(plan, book, job, date=date)
    return Quote(
        title=plan.title,
        date=date,
        schedule=made.schedule,
        solution=made.solution,
        timetable=made.timetable,
        price=made.price,
        range=made.range(book, job, seed=seed),
        terms=terms_of(job, book.rates, made.price.total, on=date),
        options=tuple(_options(plan, book, job, made, date=date, seed=seed)),
        questions=questions(plan, made.work, job.conditions, made.liquid, book, seed=seed),
        cautions=cautions(made.schedule, made.solution),
        assumptions=tuple(made.doubts),
        provenance=Provenance(
            plan_digest=plan_digest(plan),
            book_digest=value_digest(book),
            job_digest=value_digest(job),
            version=version,
            seed=seed,
        ),
    )


@frozen(kw_only=True)
class _Reckoned:
    """All that one scope of a job comes to."""

    schedule: Schedule
    solution: Solution
    timetable: Timetable
    work: Work
    price: Price
    doubts: Sequence[Doubt]
    liquid: Liquid

    def range(self, book: Book, job: Job, *, seed: int) -> Range:
        """Return the range of the price."""
        return price_range(self.work, job.conditions, parts_of(self.liquid), book, seed=seed)


def _reckoned(plan: Plan, book: Book, job: Job, *, date: str) -> _Reckoned:
    product, sprayer = book.product(job.product), book.sprayer(job.sprayer)
    schedule = zoned(measure(plan, book.surfaces, job.scope), book.zoning)
    solution = treat(
        schedule,
        book.zones,
        book.films,
        product,
        tank=sprayer.tank,
        air=book.air,
        measuring=book.measuring,
        claimed=job.claimed_film,
        added=job.added,
        beside=job.beside,
        droplets=sprayer.droplets,
        on=date,
    )
    timetable = plan_visit(
        room_work(plan, schedule, solution),
        sprayer,
        book.paces,
        book.site_times,
        book.working_time,
        crew=job.crew,
        sprayers=job.sprayers,
        fills={mix.wanted: [fill.volume for fill in mix.fills] for mix in solution.mixes},
        strong_first=product.strong_first,
        label_reentry=product.reentry,
        precautions=book.precautions,
    )
    work = priced_work(job, solution, timetable)
    doubts = plan.doubts + schedule.assumed
    return _Reckoned(
        schedule=schedule,
        solution=solution,
        timetable=timetable,
        work=work,
        price=price(work, book.rates, job.conditions),
        doubts=doubts,
        liquid=liquid_of(plan, schedule, doubts, book, walls_to=job.scope.walls_to),
    )


def _options(
    plan: Plan, book: Book, job: Job, own: _Reckoned, *, date: str, seed: int
) -> Iterator[Option]:
    """Yield what the client may choose from; nothing where there is no choice."""
    if not job.alternatives:
        return
    yield _option(covered(job.scope), own, book, job, seed=seed)
    for one in job.alternatives:
        other = evolve(job, scope=one.scope)
        name = one.name or covered_beside(one.scope, job.scope)
        yield _option(name, _reckoned(plan, book, other, date=date), book, other, seed=seed)


def _option(name: str, made: _Reckoned, book: Book, job: Job, *, seed: int) -> Option:
    return Option(
        name=name,
        scope=job.scope,
        treated=made.schedule.treated,
        volume=made.solution.volume,
        on_site=made.timetable.on_site,
        price=made.price,
        range=made.range(book, job, seed=seed),
    )


def room_work(plan: Plan, schedule: Schedule, solution: Solution) -> tuple[RoomWork, ...]:
    """Return the work in every room, once for each strength it takes.

    A room where nothing is sprayed has a row without liquid, since the crew may walk through it.
    """
    doses: dict[str, list[Dose]] = {}
    for dose in solution.doses:
        doses.setdefault(dose.room, []).append(dose)
    measured = {room.room: room for room in schedule.rooms}
    doors = ways(plan)
    return tuple(
        _work(room, measured[room.id], dose, doors)
        for room in plan.rooms
        for dose in doses.get(room.id) or (None,)
    )


def _work(room: Room, measured: RoomSchedule, dose: Dose | None, doors: Ways) -> RoomWork:
    return RoomWork(
        room=room.id,
        name=room.name,
        use=room.use,
        storey=room.storey,
        floor_area=measured.floor_area if dose else 0.0,
        air=measured.volume,
        sprayed=dose.gone_over if dose else 0.0,
        passes=dose.passes if dose else 0,
        volume=dose.volume if dose else 0.0,
        strength=dose.strength if dose else 0.0,
        contact_time=dose.contact_time if dose else 0.0,
        dries_after=dose.dries_after if dose else 0.0,
        wiped=dose.wiped if dose else 0.0,
        holds=tuple(dict.fromkeys(surface.item for surface in measured.surfaces)),
        leads_to=doors.to[room.id],
        leads_out=room.id in doors.out,
        leads_on=room.id in doors.on,
    )


def priced_work(job: Job, solution: Solution, timetable: Timetable) -> Work:
    """Return what the visit takes in the terms that rates are quoted in."""
    return Work(
        crew=job.crew,
        sprayers=timetable.sprayers,
        person_time=timetable.person_time,
        on_site=timetable.on_site,
        product=job.product,
        tablets=sum(mix.tablets for mix in solution.mixes),
        powder=sum(mix.powder for mix in solution.mixes),
        concentrate=sum(mix.concentrate for mix in solution.mixes),
        distance=job.distance,
        road_time=job.road_time,
    )
