"""Treating and mixing for 10 to 2,000 rooms, beside adding up their surfaces."""

import pytest
from bench_estimate import BOOK, building
from timing import median_time

from estimator.surfaces.measure import measure
from estimator.surfaces.scope import Scope
from estimator.treatment.plan import treat
from estimator.treatment.zoning import zoned

PRODUCTS = ("tablets_1500", "powder_60", "liquid_12")
TIMES = 7


@pytest.mark.parametrize("slug", PRODUCTS)
def test_mixing_grows_with_the_rooms(slug, capsys):
    per_room = {}
    for rooms in (10, 200, 2000):
        schedule = zoned(measure(building(rooms), BOOK.surfaces, Scope()), BOOK.zoning)

        def treated(schedule=schedule):
            return treat(
                schedule,
                BOOK.zones,
                BOOK.films,
                BOOK.product(slug),
                tank=0.008,
                air=BOOK.air,
                measuring=BOOK.measuring,
            )

        plain = median_time(
            lambda schedule=schedule: [room.treated for room in schedule.rooms], TIMES
        )
        taken = median_time(treated, TIMES)
        per_room[rooms] = taken / rooms
        fills = sum(len(mix.fills) for mix in treated().mixes)
        with capsys.disabled():
            print(
                f"\n{slug}, {rooms} rooms, {fills} tanks: {taken / plain:.0f} × adding up "
                f"surfaces, {taken / 0.05:.2f} of 50 ms, "
                f"{per_room[rooms] / per_room[10]:.2f} × as long a room"
            )
