from collections.abc import Callable

import pytest

from estimator.visit.equipment import Pace, SiteTimes, Sprayer, WorkingTime
from estimator.visit.plan import plan_visit
from estimator.visit.timetable import Timetable
from estimator.visit.work import RoomWork

# All figures here are our own.
INVENTED = {"source": "invented", "as_of": "2026-01-01"}
MINUTE = 60.0
LITRE = 0.001


def room_work(room: str, **changes) -> RoomWork:
    """100 m² sprayed with 4 L in ten minutes, wet for ten more."""
    return RoomWork(
        **{
            "room": room,
            "name": room.capitalize(),
            "use": "classroom",
            "storey": 0,
            "floor_area": 60.0,
            "air": 180.0,
            "sprayed": 100.0,
            "passes": 1,
            "volume": 4 * LITRE,
            "strength": 1.0,
            "contact_time": 10 * MINUTE,
            "dries_after": 16 * MINUTE,
            "wiped": 0.0,
            **changes,
        }
    )


SPRAYER = Sprayer(
    slug="sprayer",
    label="Sprayer",
    tank=8 * LITRE,
    flow=0.8 * LITRE / MINUTE,
    battery=4 * 3600,
    **INVENTED,
)
PACE = Pace(
    use="*",
    spray=10 / MINUTE,
    prepare=0.1 * MINUTE,
    wipe=1 / MINUTE,
    air_changes=6 / 3600,
    **INVENTED,
)
TIMES = SiteTimes(
    arrive=20 * MINUTE,
    leave=15 * MINUTE,
    mix=7 * MINUTE,
    refill=4 * MINUTE,
    battery_change=2 * MINUTE,
    clearing_removal=0.99,
    mixing_factor=1.0,
    **INVENTED,
)
REST = WorkingTime(
    break_after=6 * 3600, break_length=20 * MINUTE, longest_day=13 * 3600, **INVENTED
)


@pytest.fixture
def work() -> Callable[..., RoomWork]:
    return room_work


@pytest.fixture
def visit() -> Callable[..., Timetable]:
    def make(*rooms: RoomWork, **changes) -> Timetable:
        given = {
            "sprayer": SPRAYER,
            "paces": [PACE],
            "times": TIMES,
            "rest": REST,
            "crew": 2,
            "label_reentry": None,
        }
        return plan_visit(rooms, **{**given, **changes})

    return make


@pytest.fixture
def sprayer() -> Sprayer:
    return SPRAYER


@pytest.fixture
def pace() -> Pace:
    return PACE


@pytest.fixture
def times() -> SiteTimes:
    return TIMES


@pytest.fixture
def rest() -> WorkingTime:
    return REST
