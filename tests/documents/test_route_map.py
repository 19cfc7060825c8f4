import pytest
from attrs import evolve

from estimator.documents.route_map import route_map, way_colour
from estimator.documents.scene import Area, Stroke, Words
from estimator.documents.stops import stops
from estimator.quantities import Units


@pytest.fixture
def drawn(plan, quote):
    def made(quote=quote):
        path = tuple((room.id, () if room.id == "hall" else ("hall",)) for room in plan.rooms)
        quote = evolve(quote, timetable=evolve(quote.timetable, path=path))
        return route_map(plan, quote, stops(quote), Units.METRIC, 0, wide=500, high=300, text=8)

    return made


def test_every_stop_bears_its_number(drawn, quote):
    said = [mark.text for mark in drawn().marks if isinstance(mark, Words)]

    assert {text for text in said if text.isdigit()} == {
        str(number) for number in range(1, len(stops(quote)) + 1)
    }


def test_an_arrow_leads_from_each_stop_to_the_next(drawn):
    marks = drawn().marks
    lines = [mark for mark in marks if isinstance(mark, Stroke) and mark.colour == way_colour(1)]
    heads = [
        mark
        for mark in marks
        if isinstance(mark, Area) and mark.fill == way_colour(1) and len(mark.rings[0]) == 3
    ]

    assert len(lines) == len(heads) == 5


def test_the_way_between_two_rooms_leads_through_the_hall(drawn):
    # From the kitchen, below the hall, to the waiting room above it: through two openings.
    first = next(
        mark for mark in drawn().marks if isinstance(mark, Stroke) and mark.colour == way_colour(1)
    )

    assert len(first.points) == 4
    heights = [y for _, y in first.points]
    assert heights == sorted(heights, reverse=True)


def test_the_ways_of_two_people_are_told_apart(drawn, quote):
    tasks = tuple(
        evolve(task, person=2) if task.room in {"exam", "toilet"} and task.person == 1 else task
        for task in quote.timetable.tasks
    )

    scene = drawn(evolve(quote, timetable=evolve(quote.timetable, tasks=tasks)))

    colours = {mark.colour for mark in scene.marks if isinstance(mark, Stroke)}
    assert {way_colour(1), way_colour(2)} <= colours
    assert way_colour(1) != way_colour(2)
    said = {mark.text for mark in scene.marks if isinstance(mark, Words)}
    assert {"way of person 1", "way of person 2"} <= said


def test_a_way_round_by_the_outside_is_dashed(plan, quote):
    out = {"kitchen": (), "hall": ()}
    path = tuple((room.id, out.get(room.id, ("hall",))) for room in plan.rooms)
    quote = evolve(quote, timetable=evolve(quote.timetable, path=path))
    marks = route_map(plan, quote, stops(quote), Units.METRIC, 0, wide=500, high=300, text=8).marks

    assert any(isinstance(mark, Stroke) and mark.dash for mark in marks)
    assert any(isinstance(mark, Words) and "outside" in mark.text for mark in marks)
