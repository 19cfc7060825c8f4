"""How long a timetable takes to make as buildings grow, and how near it comes to the lower bound.

Also how many timetables of small visits are the shortest of all, found by exhaustive search.
"""

import random
import statistics
import time

import pytest
from attrs import evolve
from exhaustive import Place, shortest

from estimator.catalogue.loader import packaged_book
from estimator.visit.plan import plan_visit
from estimator.visit.route import route
from estimator.visit.work import RoomWork

BOOK = packaged_book()
MINUTE = 60.0


def wings(rooms, chance):
    """Corridors of twenty rooms each, four in a row behind every way out."""
    found = []
    for number in range(rooms):
        wing, place = divmod(number, 21)
        corridor = place == 0
        floor = 40.0 if corridor else chance.uniform(8, 60)
        surface = floor * (3.0 if corridor else 2.2)
        neighbour = (f"c{wing - 1}",) if wing % 4 else ()
        found.append(
            RoomWork(
                room=f"c{wing}" if corridor else f"r{number}",
                name=f"Room {number}",
                use="corridor" if corridor else "office",
                storey=0,
                floor_area=floor,
                air=2.7 * floor,
                sprayed=surface,
                passes=1,
                volume=46e-6 * surface,
                strength=1.0,
                contact_time=10 * MINUTE,
                dries_after=16 * MINUTE,
                wiped=0.0 if corridor else chance.choice([0.0, 0.0, 3.0]),
                leads_to=neighbour if corridor else (f"c{wing}",),
                leads_out=corridor and not wing % 4,
            )
        )
    return found


def visit(rooms, crew, **changes):
    return plan_visit(
        rooms,
        BOOK.sprayers[0],
        BOOK.paces,
        BOOK.site_times,
        BOOK.working_time,
        crew=crew,
        label_reentry=None,
        **changes,
    )


def seconds(run, times=3):
    taken = []
    for _ in range(times):
        began = time.process_time()
        run()
        taken.append(time.process_time() - began)
    return statistics.median(taken)


def test_growth_is_close_to_linear(capsys):
    base = seconds(lambda: visit(wings(10, random.Random(0)), 4), times=15) / 10
    for rooms in (10, 50, 200, 1000, 2000):
        building = wings(rooms, random.Random(0))
        made = visit(building, 4)
        took = seconds(lambda building=building: visit(building, 4))
        with capsys.disabled():
            print(
                f"\n{rooms:5d} rooms, crew of 4: {took / rooms / base:.2f}× the time per room of "
                f"10 rooms ({took / 0.3:.2f} of 0.3 s), {made.over_bound:.3f}× the lower bound",
                end="",
            )
        if rooms >= 200:
            assert made.over_bound <= 1.1
            assert took / rooms <= 2 * base


@pytest.mark.parametrize("crew", [1, 2, 3, 4, 6, 8])
def test_how_near_crews_come_to_the_lower_bound(crew, capsys):
    ratios = [visit(wings(200, random.Random(seed)), crew).over_bound for seed in range(4)]
    with capsys.disabled():
        print(f"\ncrew of {crew}: {min(ratios):.3f} to {max(ratios):.3f}× the lower bound", end="")
    assert min(ratios) >= 1


@pytest.mark.parametrize("passes", [1, 2, 3])
def test_how_near_several_passes_come_to_the_lower_bound(passes, capsys):
    rooms = [
        evolve(
            room,
            passes=passes,
            sprayed=passes * room.sprayed,
            contact_time=passes * room.contact_time,
        )
        for room in wings(200, random.Random(0))
    ]
    ratio = visit(rooms, 4).over_bound
    with capsys.disabled():
        print(f"\n200 rooms in {passes} passes: {ratio:.3f}× the lower bound", end="")
    assert ratio >= 1


@pytest.mark.parametrize("crew", [1, 2])
def test_how_many_small_visits_are_the_shortest_of_all(crew, capsys):
    chance = random.Random(crew)
    pace = evolve(next(pace for pace in BOOK.paces if pace.use == "*"), prepare=6.0)
    best = []
    for _ in range(40):
        rooms = [
            evolve(
                room,
                use="room",
                floor_area=chance.choice([10.0, 60.0, 100.0]),
                contact_time=chance.choice([1, 10, 30]) * MINUTE,
                volume=1e-6,
                leads_to=() if not at else (f"c{chance.randrange(at)}",),
                leads_out=not at,
                room=f"c{at}",
            )
            for at, room in enumerate(wings(chance.randint(3, 4), chance))
        ]
        path = route(rooms).path
        places = {
            room.room: Place(
                prepare=room.floor_area * pace.prepare / 2,
                spray=room.sprayed / pace.spray,
                contact=room.contact_time,
                finish=room.wiped / pace.wipe + room.floor_area * pace.prepare / 2,
                path=path[room.room],
            )
            for room in rooms
        }
        times = BOOK.site_times
        ours = visit(rooms, crew, sprayers=1).on_site - times.arrive - times.leave
        best.append(shortest(places, times.mix, crew, to_beat=ours + 1e-3) / ours)
    with capsys.disabled():
        shortest_of_all = sum(ratio > 1 - 1e-6 for ratio in best)
        print(
            f"\ncrew of {crew}: {shortest_of_all} of {len(best)} visits of 3 or 4 rooms are the "
            f"shortest of all; the worst could be {1 - min(best):.1%} shorter",
            end="",
        )
    assert min(best) > 0.9
