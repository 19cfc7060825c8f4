from itertools import pairwise

import pytest
from attrs import evolve

from estimator.documents.stops import stops, tanks


def test_stops_run_from_weak_to_strong_in_the_order_of_the_timetable(quote):
    assert [stop.room for stop in stops(quote)] == [
        "kitchen",
        "waiting",
        "store",
        "hall",
        "exam",
        "toilet",
    ]
    assert all(one.strength <= other.strength for one, other in pairwise(stops(quote)))


def test_each_stop_begins_when_its_spraying_does(quote):
    assert [stop.start for stop in stops(quote)] == [1500.0 + 700 * at for at in range(6)]


def test_all_liquid_is_sprayed_at_some_stop(quote):
    assert sum(stop.volume for stop in stops(quote)) == pytest.approx(quote.solution.volume)


def test_tanks_are_numbered_through_and_each_is_used(quote):
    numbers = [tank.number for tank in tanks(quote)]
    used = {number for stop in stops(quote) for number in stop.tanks}

    # 1.73, 6.96 and 3.32 L in tanks of 4 L.
    assert numbers == [1, 2, 3, 4]
    assert used == set(numbers)


def test_a_room_with_two_strengths_is_two_stops(quote):
    extra = evolve(quote.solution.doses[0], strength=1.0, zone="clinical")
    doses = (*quote.solution.doses, extra)

    found = stops(evolve(quote, solution=evolve(quote.solution, doses=doses)))

    assert [stop.room for stop in found].count("waiting") == 2
    assert found[-1].start is None


def test_what_is_filled_in_on_the_way_is_all_that_is_sprayed(quote):
    filled = [stop.filled for stop in stops(quote)]

    # each strength from tanks of 4 L: one, two and one of them
    assert [litres * 1000 for litres in filled if litres] == pytest.approx([4, 4, 4, 4])
    assert filled[0] == filled[1] == pytest.approx(0.004)
