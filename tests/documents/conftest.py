"""A small plan and a quote for it, both made by hand, so that papers are tested on their own.

The scenario is invented: a small clinic in the town of Larkfield.
"""

from decimal import Decimal

import pytest

from estimator.plan.doubt import Aspect, Doubt
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Basis, Room
from estimator.plan.storey import Scale, Source, Storey
from estimator.price.build_up import LineKind, Price, PriceLine
from estimator.price.money import Money
from estimator.quote.quote import Provenance, Quote, Range
from estimator.quote.terms import Terms
from estimator.surfaces.schedule import Lie, RoomSchedule, Schedule, Surface, SurfaceKind
from estimator.treatment.cautions import Caution, Decision
from estimator.treatment.solution import Dose, Mix, Solution, TankFill, Wetness
from estimator.visit.timetable import Reentry, Step, Task, Timetable

PIXELS_PER_METRE = 50.0

ROOMS = {
    "waiting": ("Waiting room", "waiting_room", (0.0, 0.0, 5.4, 4.0)),
    "exam": ("Exam room 1", "treatment_room", (5.5, 0.0, 3.6, 4.0)),
    "store": ("Linen", "storage", (9.2, 0.0, 0.8, 4.0)),
    "hall": ("Corridor", "hall", (0.0, 4.1, 10.0, 1.6)),
    "toilet": ("Toilet", "toilet", (0.0, 5.8, 2.0, 2.4)),
    "kitchen": ("Staff kitchen", "kitchen", (2.1, 5.8, 4.0, 2.4)),
}

ZONES = {"waiting_room": "general", "hall": "general", "storage": "general", "kitchen": "food"}
STRENGTHS = {"general": 0.5, "food": 0.2, "clinical": 1.0}


def _opening(room, number, kind, start, end, leads_to=None):
    return Opening(
        id=f"{room}-{number}",
        kind=kind,
        start=start,
        end=end,
        start_px=(start[0] * PIXELS_PER_METRE + 40, start[1] * PIXELS_PER_METRE + 40),
        end_px=(end[0] * PIXELS_PER_METRE + 40, end[1] * PIXELS_PER_METRE + 40),
        leads_to=leads_to,
    )


OPENINGS = {
    "waiting": (
        _opening("waiting", 1, OpeningKind.WINDOW, (1.5, 0.0), (3.5, 0.0)),
        _opening("waiting", 2, OpeningKind.PASSAGE, (3.0, 4.0), (4.4, 4.0), "hall"),
    ),
    "exam": (
        _opening("exam", 1, OpeningKind.DOOR, (6.0, 4.0), (6.9, 4.0), "hall"),
        _opening("exam", 2, OpeningKind.WINDOW, (6.5, 0.0), (8.0, 0.0)),
    ),
    "hall": (
        _opening("hall", 1, OpeningKind.DOOR, (0.0, 4.4), (0.0, 5.4)),
        _opening("hall", 2, OpeningKind.DOOR, (6.0, 4.1), (6.9, 4.1), "exam"),
        _opening("hall", 3, OpeningKind.PASSAGE, (3.0, 4.1), (4.4, 4.1), "waiting"),
    ),
    "toilet": (_opening("toilet", 1, OpeningKind.DOOR, (0.5, 5.8), (1.3, 5.8), "hall"),),
    "kitchen": (_opening("kitchen", 1, OpeningKind.DOOR, (3.0, 5.8), (3.9, 5.8), "hall"),),
}


def _room(slug, name, use, box):
    left, top, width, depth = box
    scale = PIXELS_PER_METRE
    return Room(
        id=slug,
        name=name,
        use=use,
        outline=rectangle(width, depth, left=left, top=top),
        outline_px=rectangle(
            width * scale, depth * scale, left=left * scale + 40, top=top * scale + 40
        ),
        ceiling_height=2.7,
        confidence=0.5 if slug == "store" else 0.95,
        basis=Basis.READ,
        openings=OPENINGS.get(slug, ()),
    )


def _room_schedule(room: Room) -> RoomSchedule:
    zone = ZONES.get(room.use, "clinical")
    floor, perimeter = room.outline.area, room.outline.length
    rows = (
        (SurfaceKind.FLOOR, "floor", "Floor", Lie.LEVEL, floor, 0.0, floor, False),
        (SurfaceKind.WALL, "walls", "Walls", Lie.UPRIGHT, 2.7 * perimeter, 1.9, 2.0 * perimeter, 0),
        (SurfaceKind.CEILING, "ceiling", "Ceiling", Lie.OVERHEAD, floor, 0.0, 0.0, False),
        (SurfaceKind.FURNITURE, "table", "Table", Lie.LEVEL, 3.2, 0.0, 2.4, room.use == "kitchen"),
        (SurfaceKind.TOUCH_POINT, "door_handle", "Door handle", Lie.INTRICATE, 0.04, 0, 0.04, 0),
    )
    return RoomSchedule(
        room=room.id,
        name=room.name,
        use=room.use,
        use_label=room.use.replace("_", " ").capitalize(),
        storey=0,
        floor_area=floor,
        perimeter=perimeter,
        height=2.7,
        volume=2.7 * floor,
        openings_area=1.9,
        surfaces=tuple(
            Surface(
                kind=kind,
                item=item,
                label=label,
                count=2 if kind is SurfaceKind.TOUCH_POINT else 1,
                lie=lie,
                zone=zone,
                gross=gross,
                deducted=deducted,
                treated=treated,
                food_contact=bool(food),
                basis=Basis.ASSUMED if kind is SurfaceKind.FURNITURE else Basis.READ,
            )
            for kind, item, label, lie, gross, deducted, treated, food in rows
        ),
    )


def _dose(room: RoomSchedule) -> Dose:
    zone = ZONES.get(room.use, "clinical")
    return Dose(
        room=room.room,
        zone=zone,
        strength=STRENGTHS[zone],
        area=room.treated,
        gone_over=room.treated,
        volume=room.treated * 46e-6,
        passes=1,
        contact_time=600.0,
        dries_after=1500.0,
        wiped=2.4 if room.use == "kitchen" else 0.0,
    )


def _mix(zone: str, doses: tuple[Dose, ...]) -> Mix:
    needed = sum(dose.volume for dose in doses if dose.zone == zone)
    tank, volume = 0.004, needed
    fills = []
    while volume > 0:
        filled = min(tank, volume)
        tablets = -(-filled * STRENGTHS[zone] * 1000 // 1.5)
        fills.append(
            TankFill(
                volume=filled,
                tablets=int(tablets),
                water=filled,
                strength=tablets * 1.5e-3 / filled,
            )
        )
        volume -= filled
    return Mix(
        zones=(zone,),
        wanted=STRENGTHS[zone],
        contact_time=600.0,
        needed=needed,
        fills=tuple(fills),
    )


ORDER = ("kitchen", "waiting", "store", "hall", "exam", "toilet")


def _sprayed(dose: Dose, start: float, end: float, left: float) -> list[Task]:
    """The spraying of a room from what is left in the tank and from tanks of 4 L after it."""
    tasks, volume = [], dose.volume
    for at in range(4):
        common = {"room": dose.room, "person": 1, "strength": dose.strength}
        begun, until = start + at * (end - start) / 4, start + (at + 1) * (end - start) / 4
        if left <= 1e-9:
            left = 0.004
            tasks.append(Task(step=Step.REFILL, start=begun, end=begun, volume=left, **common))
        used = min(left, volume)
        tasks.append(Task(step=Step.SPRAY, start=begun, end=until, volume=used, **common))
        left, volume = left - used, volume - used
        if volume <= 1e-9:
            break
    return tasks


def _timetable(doses: tuple[Dose, ...]) -> Timetable:
    dosed = {dose.room: dose for dose in doses}
    left, strength = 0.0, 0.0
    tasks = [Task(step=Step.ARRIVE, room=None, person=1, start=0.0, end=1200.0)]
    now = 1200.0
    for room in ORDER:
        tasks += [
            Task(step=Step.PREPARE, room=room, person=2, start=now, end=now + 300.0),
            *_sprayed(
                dosed[room], now + 300, now + 700, left if strength == dosed[room].strength else 0.0
            ),
            Task(step=Step.CONTACT, room=room, person=0, start=now + 700, end=now + 1300.0),
        ]
        strength = dosed[room].strength
        left = sum(
            task.volume if task.step is Step.REFILL else -task.volume
            for task in tasks
            if task.strength == strength
        )
        if room == "kitchen":
            tasks.append(
                Task(step=Step.WIPE, room=room, person=2, start=now + 1300, end=now + 1500.0)
            )
        now += 700.0
    tasks.append(Task(step=Step.LEAVE, room=None, person=1, start=7000.0, end=7900.0))
    return Timetable(
        crew=2,
        order=ORDER,
        tasks=tuple(tasks),
        on_site=7900.0,
        person_time=15800.0,
        lower_bound=7000.0,
        reentry=tuple(
            Reentry(room=room, at=9000.0 + 600 * at, because="the air has cleared")
            for at, room in enumerate(ORDER)
        ),
    )


def _line(kind: LineKind, label: str, quantity: str, unit: str, rate: str, amount: str):
    return PriceLine(
        kind=kind,
        label=label,
        quantity=Decimal(quantity),
        unit=unit,
        rate=Decimal(rate),
        amount=Money(Decimal(amount), "USD"),
    )


PRICE = Price(
    costs=(
        _line(LineKind.LABOUR, "Labour on site", "4.388888889", "person-hour", "30", "131.67"),
        _line(LineKind.SOLUTION, "Disinfectant", "16", "tablet", "0.9", "14.40"),
    ),
    additions=(_line(LineKind.MARKUP, "Mark-up", "146.07", "share", "0.35", "51.12"),),
    taxes=(_line(LineKind.TAX, "Sales tax", "197.19", "share", "0.07", "13.80"),),
)


@pytest.fixture
def plan() -> Plan:
    """Return a clinic of six rooms, read from a picture of 580 by 490 pixels."""
    return Plan(
        title="Larkfield Health Clinic",
        storeys=(
            Storey(
                name="Ground floor",
                source=Source(file="clinic.png", width_px=580, height_px=490),
                scale=Scale(
                    metres_per_px=1 / PIXELS_PER_METRE,
                    relative_error=0.01,
                    basis="a known room size",
                ),
            ),
        ),
        rooms=tuple(_room(slug, *row) for slug, row in ROOMS.items()),
        doubts=(
            Doubt(
                aspect=Aspect.OUTLINE,
                room="store",
                says="The outline of Linen was read weakly.",
                confidence=0.5,
                relative_error=0.1,
            ),
        ),
    )


@pytest.fixture
def quote(plan: Plan) -> Quote:
    """Return a quote for the clinic."""
    schedule = Schedule(rooms=tuple(map(_room_schedule, plan.rooms)))
    doses = tuple(map(_dose, schedule.rooms))
    return Quote(
        title=plan.title,
        date="2026-03-02",
        schedule=schedule,
        solution=Solution(
            product="chlorine_tablets",
            doses=doses,
            mixes=tuple(_mix(zone, doses) for zone in ("food", "general", "clinical")),
            wetness=(
                Wetness(
                    zone="general",
                    lie=Lie.UPRIGHT,
                    usual=40e-6,
                    usual_dries_after=960.0,
                    contact_time=600.0,
                    needed=25e-6,
                    most=40e-6,
                    film=40e-6,
                    passes=1,
                    stays_wet=960.0,
                    dries_after=1500.0,
                ),
            ),
            unconfirmed=(
                "Confirm on the label that application by charged mist or fog is allowed.",
            ),
            warnings=("At 1500 ppm the solution may corrode metal and bleach fabric.",),
        ),
        timetable=_timetable(doses),
        price=PRICE,
        range=Range(
            p10=Money(Decimal("190.10"), "USD"),
            p50=Money(Decimal("211.30"), "USD"),
            p90=Money(Decimal("236.80"), "USD"),
        ),
        terms=Terms(
            valid_until="2026-04-01",
            deposit=Money(Decimal("63.30"), "USD"),
            visits=1,
            every=None,
            term_total=PRICE.total,
            term_discount=Decimal(0),
            fixed=True,
        ),
        cautions=(
            Caution(
                slug="label-first",
                where=Decision.STRENGTH,
                text="Follow the product's label and safety data sheet first.",
                source="40 CFR 156.10",
            ),
            Caution(
                slug="protective-wear",
                where=Decision.VISIT,
                text="Wear disposable gloves, goggles and the respirator the label calls for.",
                source="29 CFR 1910.132",
            ),
            Caution(
                slug="local-codes",
                where=Decision.QUOTE,
                text="Local codes and licensed practice prevail over this estimate.",
                source="common practice",
            ),
        ),
        assumptions=(
            *plan.doubts,
            Doubt(
                aspect=Aspect.CONTENTS,
                room="exam",
                says="Exam room 1 was assumed to hold what usually stands in a room of its use.",
                confidence=0.5,
                relative_error=0.45,
            ),
        ),
        provenance=Provenance(
            plan_digest="0123456789abcdef",
            book_digest="fedcba9876543210",
            job_digest="0011223344556677",
            version="0.1.0",
            seed=0,
        ),
    )
