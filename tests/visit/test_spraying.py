import pytest
from attrs import evolve

from estimator.visit.spraying import operations, spraying_time
from estimator.visit.timetable import Step

MINUTE = 60.0
LITRE = 0.001


def steps(found):
    return [(operation.step, operation.duration / MINUTE) for operation in found]


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


def test_a_slow_hand_bounds_the_nozzle(work, sprayer, pace):
    assert spraying_time(work("a"), pace, sprayer) == pytest.approx(10 * MINUTE)


def test_the_tank_is_refilled_where_it_runs_empty(work, sprayer, pace, times):
    rooms = [work("a", sprayed=150, volume=6 * LITRE), work("b", sprayed=100, volume=4 * LITRE)]

    found = operations(rooms, {"a": pace, "b": pace}, sprayer, times)

    assert steps(found) == [
        (Step.REFILL, 0),
        (Step.SPRAY, pytest.approx(15)),
        (Step.SPRAY, pytest.approx(5)),
        (Step.REFILL, pytest.approx(4)),
        (Step.SPRAY, pytest.approx(5)),
    ]


def test_a_tank_that_just_suffices_is_not_refilled(work, sprayer, pace, times):
    rooms = [work("a"), work("b")]

    found = operations(rooms, {"a": pace, "b": pace}, sprayer, times)

    assert [step for step, _ in steps(found)] == [Step.REFILL, Step.SPRAY, Step.SPRAY]


def test_a_new_strength_takes_a_new_tank(work, sprayer, pace, times):
    rooms = [work("a", volume=LITRE, strength=0.5), work("b", volume=LITRE)]

    found = operations(rooms, {"a": pace, "b": pace}, sprayer, times)

    assert [step for step, _ in steps(found)] == [Step.REFILL, Step.SPRAY] * 2


def test_the_battery_is_changed_when_it_is_empty(work, sprayer, pace, times):
    weak = evolve(sprayer, battery=6 * MINUTE)

    found = operations([work("a")], {"a": pace}, weak, times)

    assert steps(found)[1:] == [
        (Step.SPRAY, pytest.approx(6)),
        (Step.BATTERY, pytest.approx(2)),
        (Step.SPRAY, pytest.approx(4)),
    ]


def test_every_pass_begins_and_ends(work, sprayer, pace, times):
    room = work("a", passes=2, sprayed=200, volume=12 * LITRE)

    found = [
        (each.turn, each.begins, each.ends)
        for each in operations([room], {"a": pace}, sprayer, times)
        if each.step is Step.SPRAY
    ]

    assert found == [(0, True, True), (1, True, False), (1, False, True)]
