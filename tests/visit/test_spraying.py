import pytest
from attrs import evolve

from estimator.visit.spraying import bouts, spraying_time
from estimator.visit.timetable import Step

MINUTE = 60.0
LITRE = 0.001


@pytest.fixture
def sprays(sprayer, pace, times):
    def found(*rooms, sprayer=sprayer, ways=None):
        return list(
            bouts(
                range(len(rooms)),
                rooms,
                [spraying_time(room, pace, sprayer) for room in rooms],
                {room.room: (ways or {}).get(room.room, ()) for room in rooms},
                sprayer,
                times,
            )
        )

    return found


def steps(found):
    return [(bout.step, bout.duration / MINUTE) for bout in found]


def passes(bout):
    return [(each.work, each.after / MINUTE, each.duration / MINUTE) for each in bout.passes]


@pytest.mark.parametrize(
    ("flow", "film", "square_metres_per_minute"),
    [(760, 40, 19.0), (550, 30, 18.3), (100, 10, 10.0)],  # mL/min ÷ mL/m²: arithmetic
)
def test_the_nozzle_bounds_the_pace(work, sprayer, pace, flow, film, square_metres_per_minute):
    nozzle = evolve(sprayer, flow=flow * 1e-6 / MINUTE)
    room = work("a", sprayed=100, volume=100 * film * 1e-6)

    time = spraying_time(room, evolve(pace, spray=1000.0), nozzle)

    assert 100 / (time / MINUTE) == pytest.approx(square_metres_per_minute, abs=0.05)


def test_case_600_takes_8_4_minutes_of_open_nozzle(work, sprayer, pace):
    # BESTEST Case 600: 159.6 m² at 40 mL/m² and 760 mL/min, by arithmetic
    room = work("case 600", sprayed=159.6, volume=6.384 * LITRE)
    nozzle = evolve(sprayer, flow=760e-6 / MINUTE)

    assert spraying_time(room, evolve(pace, spray=10.0), nozzle) / MINUTE == pytest.approx(8.4)


def test_case_600_fills_a_tank_of_4_litres_twice(work, sprays, sprayer):
    # 6.384 L by the same arithmetic: the second filling is what is needed, not a full tank
    room = work("case 600", sprayed=159.6, volume=6.384 * LITRE)

    found = sprays(room, sprayer=evolve(sprayer, tank=4 * LITRE))

    assert [bout.volume / LITRE for bout in found if bout.step is Step.REFILL] == pytest.approx(
        [4, 2.384]
    )


def test_a_slow_hand_bounds_the_nozzle(work, sprayer, pace):
    assert spraying_time(work("a"), pace, sprayer) == pytest.approx(10 * MINUTE)


def test_the_tank_is_refilled_where_it_runs_empty(work, sprays):
    found = sprays(work("a", sprayed=150, volume=6 * LITRE), work("b"))

    assert steps(found) == [
        (Step.REFILL, 0),
        (Step.SPRAY, pytest.approx(15)),
        (Step.SPRAY, pytest.approx(5)),
        (Step.REFILL, pytest.approx(4)),
        (Step.SPRAY, pytest.approx(5)),
    ]
    first, second = (part.passes[0] for part in (found[2], found[4]))
    assert (first.first, first.last, second.first, second.last) == (True, False, False, True)


def test_a_tank_that_just_suffices_is_not_refilled(work, sprays):
    found = sprays(work("a"), work("b"))

    assert [step for step, _ in steps(found)] == [Step.REFILL, Step.SPRAY, Step.SPRAY]


def test_a_new_strength_takes_a_new_tank(work, sprays):
    found = sprays(work("a", volume=LITRE, strength=0.5), work("b", volume=LITRE))

    assert [step for step, _ in steps(found)] == [Step.REFILL, Step.SPRAY] * 2
    assert [bout.volume / LITRE for bout in found] == pytest.approx([1, 1, 1, 1])


def test_the_battery_is_changed_when_it_is_empty(work, sprays, sprayer):
    found = sprays(work("a"), sprayer=evolve(sprayer, battery=6 * MINUTE))

    assert steps(found)[1:] == [
        (Step.SPRAY, pytest.approx(6)),
        (Step.BATTERY, pytest.approx(2)),
        (Step.SPRAY, pytest.approx(4)),
    ]


def test_a_room_is_gone_over_again_just_when_the_first_pass_dries(work, sprays):
    # 100 m² twice at 10 m²/min, wet for 30 min: the second pass begins after 15
    _, bout = sprays(work("a", passes=2, sprayed=200, contact_time=30 * MINUTE))

    assert passes(bout) == [(0, 0, pytest.approx(10)), (0, pytest.approx(15), pytest.approx(10))]


def test_small_rooms_are_gone_over_between_each_others_passes(work, sprays):
    rooms = [
        work(name, passes=2, sprayed=80, volume=2 * LITRE, contact_time=30 * MINUTE)
        for name in "abcd"
    ]

    _, together, alone = sprays(*rooms)

    assert passes(together) == [
        (0, 0, 4), (1, 4, 4), (2, 8, 4), (0, 15, 4), (1, 19, 4), (2, 23, 4),
    ]  # fmt: skip
    assert passes(alone) == [(3, 0, 4), (3, 15, 4)]


def test_a_room_is_not_gone_over_together_with_one_on_its_way_out(work, sprays):
    rooms = [
        work(name, passes=2, sprayed=40, volume=LITRE, contact_time=30 * MINUTE) for name in "ab"
    ]

    found = sprays(*rooms, ways={"a": ("b",)})

    assert [passes(bout)[0][0] for bout in found[1:]] == [0, 1]


def test_a_room_too_large_to_return_to_in_time_is_sprayed_in_sections(work, sprays):
    # 300 m² twice at 10 m²/min, wet for 20 min: 30 min a pass against 10 min until it dries
    found = sprays(work("a", passes=2, sprayed=600, volume=6 * LITRE, contact_time=20 * MINUTE))

    sections = [bout for bout in found if bout.step is Step.SPRAY]
    assert len(sections) == 3
    for section in sections:
        first, second = section.passes
        assert first.duration <= 10 * MINUTE * (1 + 1e-9)
        assert second.after - first.after == pytest.approx(10 * MINUTE)
    assert sum(each.duration for bout in sections for each in bout.passes) == pytest.approx(3600)
    assert [each.first for bout in sections for each in bout.passes] == [True] + [False] * 5
    assert [each.last for bout in sections for each in bout.passes] == [False] * 5 + [True]


def test_a_round_of_passes_is_not_interrupted_by_an_empty_tank(work, sprays, sprayer):
    rooms = [
        work(name, passes=2, sprayed=80, volume=3 * LITRE, contact_time=30 * MINUTE)
        for name in "abc"
    ]

    found = sprays(*rooms)

    assert [step for step, _ in steps(found)] == [
        Step.REFILL, Step.SPRAY, Step.REFILL, Step.SPRAY,
    ]  # fmt: skip
    assert found[2].volume == pytest.approx(1 * LITRE)  # on top of the two left in the tank
    assert found[1].volume <= sprayer.tank
