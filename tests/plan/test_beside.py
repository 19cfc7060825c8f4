import itertools

import pytest
from attrs import evolve
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString

from estimator.errors import PlanError, ScaleUnknown
from estimator.plan.beside import Joint, Link, free_place, joined, room_beside
from estimator.plan.geometry import rectangle
from estimator.plan.opening import OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale, Source, Storey

HALL = Room(id="hall", name="Hall", outline=rectangle(6, 2))


def room(name: str, width: float = 3.0, depth: float = 3.0) -> Room:
    return Room(id=name, name=name.title(), outline=rectangle(width, depth))


def apart(plan: Plan) -> bool:
    pairs = itertools.combinations([one.outline for one in plan.rooms], 2)
    return all(one.intersection(other).area < 1e-9 for one, other in pairs)


def gaps(plan: Plan, room_id: str) -> list[tuple[OpeningKind, str | None]]:
    return [(gap.kind, gap.leads_to) for gap in plan.room(room_id).openings]


def test_a_room_off_the_hall_touches_it_and_has_one_door_seen_from_both():
    plan = room_beside(Plan(rooms=(HALL,)), room("bath"), [Link("hall", Joint.DOOR)])
    bath, hall = plan.room("bath"), plan.room("hall")

    assert apart(plan)
    assert bath.outline.area == pytest.approx(9.0)
    assert gaps(plan, "bath") == [(OpeningKind.DOOR, "hall")]
    assert gaps(plan, "hall") == [(OpeningKind.DOOR, "bath")]
    shared = bath.outline.exterior.intersection(hall.outline.exterior)
    for opening in (*bath.openings, *hall.openings):
        assert LineString([opening.start, opening.end]).distance(shared) < 1e-9
        assert opening.width == pytest.approx(0.9)


def test_open_plan_rooms_have_a_passage_and_neighbours_nothing():
    plan = room_beside(Plan(rooms=(HALL,)), room("dining"), [Link("hall", Joint.PASSAGE)])
    plan = room_beside(plan, room("store"), [Link("dining", Joint.WALL)])

    assert gaps(plan, "dining") == [(OpeningKind.PASSAGE, "hall")]
    assert plan.room("store").openings == ()
    touch = plan.room("store").outline.intersection(plan.room("dining").outline)
    assert touch.length >= 0.5


def test_many_rooms_find_a_place_off_one_hall():
    plan = Plan(rooms=(room("hall", 8, 2),))
    for number in range(6):
        plan = room_beside(plan, room(f"office {number}"), [Link("hall", Joint.DOOR)])

    assert apart(plan)
    assert plan.doubts == ()
    assert len(plan.room("hall").openings) == 6


def test_a_room_joined_with_two_touches_both_where_it_can():
    plan = room_beside(Plan(rooms=(HALL,)), room("kitchen"), [Link("hall", Joint.DOOR)])
    both = [Link("hall", Joint.DOOR), Link("kitchen", Joint.PASSAGE)]
    plan = room_beside(plan, room("dining"), both)

    assert apart(plan)
    assert {other for _, other in gaps(plan, "dining")} == {"hall", "kitchen"}


def test_a_joint_without_a_place_is_said_and_the_room_is_kept():
    around = (room("hall", 2, 2), *(
        Room(id=str(at), name=str(at), outline=rectangle(6, 2, left=-2, top=top))
        for at, top in enumerate((-2, 2))
    ), *(
        Room(id=str(at), name=str(at), outline=rectangle(2, 2, left=left))
        for at, left in enumerate((-2, 2), 2)
    ))  # fmt: skip
    plan = room_beside(Plan(rooms=around), room("bath"), [Link("hall", Joint.DOOR)])

    assert apart(plan)
    assert plan.room("bath").openings == ()
    assert [doubt.says for doubt in plan.doubts] == [
        "Bath could not be drawn beside Hall, so nothing was put in the wall between them."
    ]


def test_rooms_that_share_a_wall_are_joined_and_others_are_refused():
    plan = room_beside(Plan(rooms=(HALL,)), room("dining"))
    plan = joined(plan, "hall", "dining", Joint.PASSAGE)
    assert gaps(plan, "hall") == [(OpeningKind.PASSAGE, "dining")]
    far = evolve(room("shed"), outline=rectangle(2, 2, left=50))
    with pytest.raises(PlanError, match="Hall and Shed: they share no wall"):
        joined(evolve(plan, rooms=(*plan.rooms, far)), "hall", "shed", Joint.DOOR)
    with pytest.raises(PlanError):
        joined(plan, "hall", "hall", Joint.DOOR)


def test_openings_in_one_wall_keep_clear_of_each_other():
    plan = room_beside(Plan(rooms=(HALL,)), room("dining", 6, 3), [Link("hall", Joint.DOOR)])
    for _ in range(2):
        plan = joined(plan, "hall", "dining", Joint.DOOR)
    ends = sorted(tuple(sorted((gap.start[0], gap.end[0]))) for gap in plan.room("hall").openings)
    assert len(ends) == 3
    assert all(one[1] < other[0] for one, other in itertools.pairwise(ends))


def test_a_room_is_put_on_a_picture_by_its_scale():
    source = Source(file="a.png", width_px=2000, height_px=1000)
    scale = Scale(metres_per_px=0.01, relative_error=0.02, basis="x")
    hall = evolve(HALL, outline_px=rectangle(600, 200))
    plan = Plan(storeys=(Storey(source=source, scale=scale),), rooms=(hall,))
    made = room_beside(plan, room("bath"), [Link("hall", Joint.DOOR)]).room("bath")

    assert made.outline.area == pytest.approx(9.0)
    assert made.outline_px.area == pytest.approx(90_000)
    assert made.openings[0].start_px == pytest.approx(
        tuple(100 * part for part in made.openings[0].start)
    )
    unsized = evolve(plan, storeys=(Storey(source=source),), rooms=(
        evolve(hall, outline=None),))  # fmt: skip
    with pytest.raises(ScaleUnknown):
        room_beside(unsized, room("bath"))


sides = st.floats(0.6, 12.0)


@given(st.lists(st.tuples(sides, sides, st.integers(0, 30), st.sampled_from(Joint)), max_size=9))
def test_rooms_never_overlap_and_keep_their_size(wanted):
    plan = Plan(rooms=(HALL,))
    for at, (width, depth, other, joint) in enumerate(wanted):
        link = Link(plan.rooms[other % len(plan.rooms)].id, joint)
        plan = room_beside(plan, room(f"r{at}", width, depth), [link])

    assert apart(plan)
    for one, (width, depth, *_) in zip(plan.rooms[1:], wanted, strict=True):
        assert one.outline.area == pytest.approx(width * depth)
    for one in plan.rooms:
        for gap in one.openings:
            twins = [twin for twin in plan.room(gap.leads_to).openings if twin.leads_to == one.id]
            assert gap.width in [pytest.approx(twin.width) for twin in twins]


def test_the_first_room_lies_at_the_origin():
    assert free_place({}, (3, 4), {}) == (0.0, 0.0)
