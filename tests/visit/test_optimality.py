"""Timetables of small visits against the shortest of all, found by exhaustive search."""

import random

import pytest
from exhaustive import Place, shortest

from estimator.visit.route import route

MINUTE = 60.0
A_MOMENT = 1e-3

# Every building of up to three rooms: for each room the one it is left through, or the open air.
BUILDINGS = [
    (None,),
    *((None, one) for one in (None, 0)),
    *((None, one, other) for one in (None, 0) for other in (None, 0, 1)),
]


def rooms_of(building, work, chance):
    """Rooms of random sizes, all sprayed from one tank."""
    return [
        work(
            f"r{number}",
            floor_area=chance.choice([10, 20, 60, 100]),
            sprayed=(area := chance.choice([20, 50, 100, 200])),
            volume=area * 1e-6,
            contact_time=chance.choice([1, 5, 10, 30]) * MINUTE,
            wiped=chance.choice([0, 0, 3, 10]),
            leads_to=() if before is None else (f"r{before}",),
            leads_out=before is None,
        )
        for number, before in enumerate(building)
    ]


def places(rooms, pace):
    path = route(rooms).path
    masking = {room.room: room.floor_area * pace.prepare / 2 for room in rooms}
    return {
        room.room: Place(
            prepare=masking[room.room],
            spray=room.sprayed / pace.spray,
            contact=room.contact_time,
            finish=room.wiped / pace.wipe + masking[room.room],
            path=path[room.room],
        )
        for room in rooms
    }


@pytest.mark.parametrize("crew", [1, 2])
@pytest.mark.parametrize("building", BUILDINGS, ids=str)
def test_no_timetable_of_a_small_visit_is_shorter(building, crew, work, visit, pace, times):
    chance = random.Random(f"{building} {crew}")
    for _ in range(3):
        rooms = rooms_of(building, work, chance)

        timetable = visit(*rooms, crew=crew, sprayers=1)

        around = times.arrive + times.leave
        ours = timetable.on_site - around
        least = shortest(places(rooms, pace), times.mix, crew, to_beat=ours + A_MOMENT)
        assert least >= ours - A_MOMENT, rooms
        assert timetable.lower_bound - around <= least + A_MOMENT


def test_a_crew_of_three_gains_what_it_can(work, visit, pace, times):
    # The hall must wait for whoever works beyond it, unless that work is left for later.
    sizes = [(20, 50, 5, 10), (60, 50, 5, 3), (10, 100, 1, 10)]
    rooms = [
        work(
            f"r{number}",
            floor_area=floor,
            sprayed=area,
            volume=area * 1e-6,
            contact_time=contact * MINUTE,
            wiped=wiped,
            leads_to=("r0",) if number else (),
            leads_out=not number,
        )
        for number, (floor, area, contact, wiped) in enumerate(sizes)
    ]

    ours = visit(*rooms, crew=3).on_site - times.arrive - times.leave

    assert ours == 43 * MINUTE
    assert shortest(places(rooms, pace), times.mix, 3, to_beat=ours + A_MOMENT) == pytest.approx(
        ours, abs=A_MOMENT * 2
    )
