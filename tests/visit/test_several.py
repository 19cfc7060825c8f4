"""Small visits of two sprayers or two passes against an integer programme solved to optimality."""

import random

import pytest
from exact import Place, shortest
from exhaustive import Place as PlaceForOne
from exhaustive import shortest as shortest_for_one

from estimator.visit.route import route

MINUTE = 60.0
A_MOMENT = 1e-3  # minutes

# Every building of two or three rooms: for each room the one it is left through, or the open air.
BUILDINGS = [
    *((None, one) for one in (None, 0)),
    *((None, one, other) for one in (None, 0) for other in (None, 0, 1)),
]


def rooms_of(building, work, chance, passes):
    """Rooms of random sizes, all sprayed from one tank."""
    rooms = []
    for number, before in enumerate(building):
        times = chance.choice(passes)
        area = chance.choice([20, 50, 100])
        rooms.append(
            work(
                f"r{number}",
                floor_area=chance.choice([10, 20, 60, 100]),
                sprayed=area * times,
                volume=area * 1e-6,
                passes=times,
                contact_time=times * chance.choice([10, 20, 30]) * MINUTE,
                wiped=chance.choice([0, 0, 3, 10]),
                leads_to=() if before is None else (f"r{before}",),
                leads_out=before is None,
            )
        )
    return rooms


def places(rooms, pace):
    """The rooms' steps in minutes."""
    path = route(rooms).path
    masking = {room.room: room.floor_area * pace.prepare / 2 / MINUTE for room in rooms}
    return {
        room.room: Place(
            prepare=masking[room.room],
            spray=room.sprayed / room.passes / pace.spray / MINUTE,
            passes=room.passes,
            hold=room.hold / MINUTE,
            finish=room.wiped / pace.wipe / MINUTE + masking[room.room],
            path=path[room.room],
        )
        for room in rooms
    }


def ours_and_least(rooms, visit, pace, times, crew, sprayers):
    """Minutes between arriving and leaving: of our timetable, the shortest, and the bound."""
    timetable = visit(*rooms, crew=crew, sprayers=sprayers)
    around = times.arrive + times.leave
    ours = (timetable.on_site - around) / MINUTE
    least = shortest(
        places(rooms, pace),
        times.mix / MINUTE,
        crew=crew,
        sprayers=sprayers,
        most=ours + A_MOMENT,
    )
    return ours, least, (timetable.lower_bound - around) / MINUTE


@pytest.mark.parametrize(("crew", "sprayers"), [(2, 2), (3, 2)])
@pytest.mark.parametrize("building", BUILDINGS, ids=str)
def test_no_timetable_of_two_sprayers_is_shorter(
    building, crew, sprayers, work, visit, pace, times
):
    chance = random.Random(f"{building} {crew} {sprayers}")
    for _ in range(2):
        rooms = rooms_of(building, work, chance, (1,))

        ours, least, bound = ours_and_least(rooms, visit, pace, times, crew, sprayers)

        assert ours == pytest.approx(least, abs=2 * A_MOMENT), rooms
        assert bound <= least + A_MOMENT


@pytest.mark.parametrize(("crew", "sprayers"), [(1, 1), (2, 1), (3, 2)])
@pytest.mark.parametrize("building", BUILDINGS, ids=str)
def test_timetables_of_several_passes_are_within_a_tenth_of_the_shortest(
    building, crew, sprayers, work, visit, pace, times
):
    chance = random.Random(f"{building} {crew} {sprayers} passes")
    for _ in range(2):
        rooms = rooms_of(building, work, chance, (1, 2))

        ours, least, bound = ours_and_least(rooms, visit, pace, times, crew, sprayers)

        assert least - A_MOMENT <= ours <= 1.1 * least, rooms
        assert bound <= least + A_MOMENT


@pytest.mark.parametrize("building", BUILDINGS, ids=str)
def test_the_programme_and_the_search_of_all_orders_agree(building, work, pace, times):
    rooms = rooms_of(building, work, random.Random(str(building)), (1,))
    in_minutes = places(rooms, pace)
    for_one = {
        name: PlaceForOne(
            prepare=room.prepare,
            spray=room.spray,
            contact=room.hold,
            finish=room.finish,
            path=room.path,
        )
        for name, room in in_minutes.items()
    }
    mix = times.mix / MINUTE

    by_search = shortest_for_one(for_one, mix, 2, to_beat=500.0)

    assert shortest(in_minutes, mix, crew=2, sprayers=1, most=500.0) == pytest.approx(
        by_search, abs=A_MOMENT
    )


def test_other_rooms_are_sprayed_between_two_passes(work, visit):
    # The first must be gone over again after 20 minutes; the second takes 5 of them.
    twice = work("twice", sprayed=100.0, volume=1e-6, passes=2, contact_time=40 * MINUTE)
    once = work("once", sprayed=50.0, volume=1e-6, contact_time=10 * MINUTE)
    tasks = visit(twice, once, crew=1).tasks
    sprayed = sorted((task.start, task.room) for task in tasks if task.step.value == "spray")

    assert [room for _, room in sprayed] == ["twice", "once", "twice"]
    first, _, second = (start for start, _ in sprayed)
    assert second - first == pytest.approx(20 * MINUTE)
