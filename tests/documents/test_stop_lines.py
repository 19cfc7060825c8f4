from attrs import evolve

from estimator.documents.stop_lines import clock, stop_lines
from estimator.documents.stops import stops
from estimator.plan.storey import Storey
from estimator.quantities import Units


def test_times_after_arrival_are_in_hours_and_minutes():
    assert [clock(0), clock(59 * 60), clock(3 * 3600 + 65)] == ["0:00", "0:59", "3:01"]


def test_a_stop_says_where_what_how_much_and_how_long(plan, quote):
    first = stop_lines(plan, quote, stops(quote), Units.METRIC)[0]

    assert (first.number, first.start, first.room, first.person) == (1, "0:25", "Staff kitchen", 1)
    assert (first.strength, first.tanks, first.fill_in) == ("200 ppm", "1", "4 L")
    assert (first.spray, first.keep_wet, first.wipe) == ("1.73 L", "10 min", "Table")
    assert first.closed_until == "2:30"


def test_the_storey_is_said_where_there_are_several(plan, quote):
    two = evolve(plan, storeys=(*plan.storeys, Storey(number=1, name="First floor")))

    assert {line.storey for line in stop_lines(plan, quote, stops(quote), Units.METRIC)} == {""}
    assert "" not in {line.storey for line in stop_lines(two, quote, stops(quote), Units.METRIC)}
