from collections import defaultdict
from itertools import pairwise

import pytest
from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from estimator.errors import NoSuchEntry, QuantityError
from estimator.visit.route import route
from estimator.visit.timetable import Step

MINUTE = 60.0
LITRE = 0.001
A_MOMENT = 1e-6

with_fixtures = settings(
    suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=150
)


def of(timetable, step, room=None):
    return [
        task
        for task in timetable.tasks
        if task.step is step and (room is None or task.room == room)
    ]


@st.composite
def sites(draw, work):
    """Up to a dozen rooms over two storeys, with any doors, some in two strengths."""
    count = draw(st.integers(1, 12))
    names = [f"r{number}" for number in range(count)]
    rooms = []
    for number, name in enumerate(names):
        storey = draw(st.integers(0, 1))
        floor_area = draw(st.floats(1.0, 200.0))
        doors = tuple(draw(st.lists(st.sampled_from(names), max_size=2)))
        for strength in draw(st.sampled_from([(1.0,), (1.0,), (0.05, 1.0), (5.0,)])):
            passes = draw(st.sampled_from([1, 1, 1, 2, 3]))
            area = draw(st.floats(1.0, 400.0)) * passes
            rooms.append(
                work(
                    name,
                    storey=storey,
                    floor_area=floor_area,
                    sprayed=area,
                    passes=passes,
                    volume=area * 40e-6,
                    strength=strength,
                    contact_time=draw(st.sampled_from([0.0, 1.0, 10.0, 30.0])) * MINUTE,
                    wiped=draw(st.sampled_from([0.0, 0.0, 5.0, 20.0])),
                    leads_to=doors,
                    leads_out=number == 0 and draw(st.booleans()),
                )
            )
    return rooms


@with_fixtures
@given(data=st.data(), crew=st.integers(1, 5))
def test_a_crew_can_follow_every_timetable(data, crew, work, visit, sprayer, pace, rest):
    rooms = data.draw(sites(work))
    sprayers = data.draw(st.none() | st.integers(1, crew))
    rest = evolve(rest, break_after=data.draw(st.sampled_from([3, 6])) * 3600)
    timetable = visit(
        *rooms,
        crew=crew,
        sprayers=sprayers,
        sprayer=evolve(sprayer, battery=60 * MINUTE),
        rest=rest,
    )

    nobody_is_in_two_places(timetable)
    every_room_is_done_once(timetable, rooms, pace)
    contact_times_are_kept(timetable, rooms)
    passes_follow_as_the_one_before_dries(timetable, rooms)
    tanks_are_mixed_before_they_are_used(timetable, rooms, sprayer)
    nobody_walks_through_wet_rooms(timetable, rooms)
    what_lies_beyond_is_sprayed_first(timetable, rooms)
    nobody_works_on_without_a_break(timetable, rest)
    people_return_last_of_all(timetable)
    assert timetable.on_site >= timetable.lower_bound - A_MOMENT
    assert timetable.person_time == crew * timetable.on_site
    assert {task.person for task in of(timetable, Step.SPRAY)} <= {
        *range(1, timetable.sprayers + 1)
    }


def nobody_is_in_two_places(timetable):
    by_person = defaultdict(list)
    for task in timetable.tasks:
        if task.person:
            by_person[task.person].append(task)
    assert set(by_person) <= set(range(1, timetable.crew + 1))
    for tasks in by_person.values():
        tasks.sort(key=lambda task: (task.start, task.end))
        assert all(first.end <= second.start + A_MOMENT for first, second in pairwise(tasks))


def every_room_is_done_once(timetable, rooms, pace):
    for room in {item.room for item in rooms}:
        items = [item for item in rooms if item.room == room]
        sprayed = sum(task.end - task.start for task in of(timetable, Step.SPRAY, room))
        wiped = sum(task.end - task.start for task in of(timetable, Step.WIPE, room))
        assert sprayed == pytest.approx(sum(item.sprayed for item in items) / pace.spray)
        assert wiped == pytest.approx(sum(item.wiped for item in items) / pace.wipe)
        (prepared,), (unmasked,) = (
            of(timetable, step, room) for step in (Step.PREPARE, Step.UNMASK)
        )
        masking = prepared.end - prepared.start + unmasked.end - unmasked.start
        assert masking == pytest.approx(items[0].floor_area * pace.prepare)
        assert (
            prepared.end <= min(task.start for task in of(timetable, Step.SPRAY, room)) + A_MOMENT
        )
    assert sorted(timetable.order) == sorted({item.room for item in rooms})


def contact_times_are_kept(timetable, rooms):
    for room in {item.room for item in rooms}:
        items = [item for item in rooms if item.room == room]
        last_sprayed = max(task.end for task in of(timetable, Step.SPRAY, room))
        touched = min(
            task.start
            for step in (Step.WIPE, Step.UNMASK, Step.AIR)
            for task in of(timetable, step, room)
        )
        over = max((task.end for task in of(timetable, Step.CONTACT, room)), default=0.0)
        assert touched >= max(over, last_sprayed) - A_MOMENT
        if len(items) == 1:
            first_sprayed = of(timetable, Step.SPRAY, room)[0].start
            assert touched >= first_sprayed + items[0].contact_time - A_MOMENT
            assert touched >= last_sprayed + items[0].contact_time / items[0].passes - A_MOMENT


def passes_follow_as_the_one_before_dries(timetable, rooms):
    for item in rooms:
        if item.passes == 1 or not item.contact_time:
            continue
        sprays = [
            task for task in of(timetable, Step.SPRAY, item.room) if task.strength == item.strength
        ]
        held = item.contact_time / item.passes
        assert len(sprays) % item.passes == 0
        starts = sorted(task.start for task in sprays)
        while starts:
            first = starts.pop(0)
            for turn in range(1, item.passes):
                again = min(starts, key=lambda start: abs(start - first - turn * held))
                assert again == pytest.approx(first + turn * held)
                starts.remove(again)
        assert all(task.end - task.start <= held + A_MOMENT for task in sprays)


def tanks_are_mixed_before_they_are_used(timetable, rooms, sprayer):
    mixes, refills = of(timetable, Step.MIX), of(timetable, Step.REFILL)
    for refill in refills:
        ready = sum(
            mix.volume
            for mix in mixes
            if mix.strength == refill.strength and mix.end <= refill.start + A_MOMENT
        )
        taken = sum(
            other.volume
            for other in refills
            if other.strength == refill.strength and other.start <= refill.start
        )
        assert ready >= taken * (1 - 1e-6)
    for person in range(1, timetable.sprayers + 1):
        tank, strength = 0.0, None
        for task in sorted(timetable.tasks, key=lambda task: (task.end, task.start)):
            if task.person != person or task.step not in (Step.REFILL, Step.SPRAY):
                continue
            if task.strength != strength:
                assert task.step is Step.REFILL
                tank, strength = 0.0, task.strength
            tank += task.volume if task.step is Step.REFILL else -task.volume
            assert -1e-9 <= tank <= sprayer.tank * (1 + 1e-9)
        assert tank == pytest.approx(0.0, abs=1e-9)
    for step in (Step.MIX, Step.REFILL, Step.SPRAY):
        total = sum(task.volume for task in of(timetable, step))
        assert total == pytest.approx(sum(item.volume for item in rooms))


def nobody_walks_through_wet_rooms(timetable, rooms):
    path = route(rooms).path
    assert dict(timetable.path) == path
    wet = {}
    for room in path:
        spells = sorted(
            (task.start, task.end)
            for task in timetable.tasks
            if task.room == room and task.step in (Step.SPRAY, Step.CONTACT)
        )
        if len({item.strength for item in rooms if item.room == room}) == 1:
            spells = [(spells[0][0], max(end for _, end in spells))]
        wet[room] = spells
    for task in timetable.tasks:
        if task.person and task.room and task.step not in (Step.REFILL, Step.BATTERY):
            for other in path[task.room]:
                for begin, end in wet[other]:
                    for at in (task.start, task.end):
                        assert not begin + A_MOMENT < at < end - A_MOMENT


def what_lies_beyond_is_sprayed_first(timetable, rooms):
    path = route(rooms).path
    for item in rooms:
        begun = {
            other.room: min(
                task.start
                for task in of(timetable, Step.SPRAY, other.room)
                if task.strength == other.strength
            )
            for other in rooms
            if other.strength >= item.strength
        }
        done = max(
            task.end
            for task in of(timetable, Step.SPRAY, item.room)
            if task.strength == item.strength
        )
        assert all(done <= begun[other] + A_MOMENT for other in path[item.room] if other in begun)


def nobody_works_on_without_a_break(timetable, rest):
    for person in range(1, timetable.crew + 1):
        own = sorted(
            (task.start, task.end)
            for task in timetable.tasks
            if task.person == person and task.step is not Step.BREAK
        )
        since, longest, until = 0.0, 0.0, 0.0
        for start, end in own:
            if start - until >= rest.break_length - A_MOMENT:
                since, longest = start, 0.0
            longest, until = max(longest, end - start), end
            assert end - since <= max(rest.break_after, 2 * longest) + A_MOMENT


def people_return_last_of_all(timetable):
    for entry in timetable.reentry:
        assert all(
            task.end <= entry.at + A_MOMENT for task in timetable.tasks if task.room == entry.room
        )


def test_one_room_for_one_person_step_by_step(work, visit):
    timetable = visit(work("hall", wiped=5), crew=1)

    assert [
        (task.step, task.person, task.start / MINUTE, task.end / MINUTE) for task in timetable.tasks
    ] == [
        (Step.ARRIVE, 1, 0, 20),
        (Step.MIX, 1, 20, 27),
        (Step.REFILL, 1, 27, 27),
        (Step.PREPARE, 1, 27, 30),
        (Step.SPRAY, 1, 30, 40),
        (Step.CONTACT, 0, 40, 50),
        (Step.WIPE, 1, 50, 55),
        (Step.AIR, 0, 50, pytest.approx(96.05, abs=0.01)),
        (Step.UNMASK, 1, 55, 58),
        (Step.LEAVE, 1, 58, 73),
    ]


def test_two_people_mix_and_prepare_at_once(work, visit):
    timetable = visit(work("hall"))

    assert of(timetable, Step.SPRAY)[0].start == 27 * MINUTE
    assert timetable.on_site == timetable.lower_bound == (27 + 10 + 10 + 3 + 15) * MINUTE


def test_contact_time_overlaps_work_elsewhere(work, visit):
    timetable = visit(*(work(room) for room in "abcdef"), crew=1)

    contact = 6 * 10 * MINUTE
    busy = sum(task.end - task.start for task in timetable.tasks if task.person)
    assert timetable.on_site < busy + contact / 6 + A_MOMENT


def test_weak_solution_goes_before_strong(work, visit):
    timetable = visit(work("a", strength=5.0), work("b", strength=0.05), work("c", strength=1.0))

    assert timetable.order == ("b", "c", "a")


def test_a_room_in_two_strengths_is_masked_and_unmasked_once(work, visit):
    timetable = visit(work("nursery", strength=1.0), work("nursery", strength=0.05))

    assert len(of(timetable, Step.PREPARE)) == len(of(timetable, Step.UNMASK)) == 1
    assert len(of(timetable, Step.SPRAY)) == 2
    first, second = of(timetable, Step.SPRAY)
    assert second.start >= first.end + 10 * MINUTE


def test_passes_are_spread_over_the_contact_time(work, visit):
    timetable = visit(work("a", passes=2, contact_time=30 * MINUTE))

    first, second = of(timetable, Step.SPRAY)
    assert second.start - first.start == 15 * MINUTE
    assert of(timetable, Step.UNMASK)[0].start == second.end + 15 * MINUTE


def test_a_pace_by_use_goes_before_the_pace_of_every_use(work, visit, pace):
    slow = evolve(pace, use="classroom", spray=5 / MINUTE)

    timetable = visit(work("a"), work("b", use="office"), paces=[pace, slow])

    assert [task.end - task.start for task in of(timetable, Step.SPRAY)] == [
        20 * MINUTE,
        10 * MINUTE,
    ]


def test_rooms_with_nothing_to_spray_are_only_walked_through(work, visit):
    timetable = visit(
        work("a", leads_to=("hall",)), work("hall", sprayed=0.0, volume=0.0, leads_out=True)
    )

    assert timetable.order == ("a",)


def test_a_visit_without_work_is_arriving_and_leaving(visit):
    timetable = visit()

    assert timetable.on_site == timetable.lower_bound == 35 * MINUTE
    assert timetable.reentry == ()


@pytest.mark.parametrize("crew", [1, 2, 3, 4])
def test_a_school_wing_takes_hardly_longer_than_the_lower_bound(work, visit, crew):
    rooms = [
        *(
            work(f"room {number}", wiped=4 if number % 3 else 0, leads_to=["hall"])
            for number in range(24)
        ),
        work("hall", sprayed=240, volume=9.6 * LITRE, floor_area=180, leads_out=True),
    ]

    timetable = visit(*rooms, crew=crew)

    assert timetable.order[-1] == "hall"
    assert timetable.lower_bound <= timetable.on_site <= 1.1 * timetable.lower_bound


@pytest.mark.parametrize("crew", [0, -2])
def test_nobody_is_no_crew(work, visit, crew):
    with pytest.raises(QuantityError, match=f"crew: there are {crew} people; give at least 1"):
        visit(work("a"), crew=crew)


def test_a_crowd_is_no_crew(work, visit):
    with pytest.raises(QuantityError, match="crew: there are 5000 people; give at most 100"):
        visit(work("a"), crew=5000)


@pytest.mark.parametrize("sprayers", [0, -1, 3])
def test_sprayers_are_at_least_one_and_no_more_than_people(work, visit, sprayers):
    with pytest.raises(QuantityError, match=f"sprayers: there are {sprayers} for a crew of 2"):
        visit(work("a"), crew=2, sprayers=sprayers)


def test_a_larger_crew_with_more_sprayers_is_sooner_done(work, visit):
    rooms = [work(f"r{number}", leads_to=("hall",)) for number in range(30)]
    rooms.append(work("hall", leads_out=True))

    on_site = [visit(*rooms, crew=crew).on_site for crew in (1, 2, 4, 8)]

    assert on_site == sorted(on_site, reverse=True)
    assert on_site[2] < 0.7 * on_site[1]
    assert visit(*rooms, crew=4).sprayers == 2


def test_whoever_works_alone_is_told_to_arrange_for_help(work, visit):
    assert visit(work("a"), crew=1).findings[0].startswith("One person works alone")
    assert visit(work("a"), crew=2).findings == ()


def test_a_visit_longer_than_a_day_is_told(work, visit):
    rooms = [work(f"r{number}", leads_out=True) for number in range(60)]

    assert "longer than the 13 h of a working day" in visit(*rooms, crew=2).findings[0]


def test_a_room_without_a_pace_is_named(work, visit, pace):
    with pytest.raises(NoSuchEntry, match="no pace for the use 'classroom'"):
        visit(work("a"), paces=[evolve(pace, use="office")])
