import pytest
from attrs import evolve
from shapely.geometry import Point

from estimator.documents.figure import fitted
from estimator.documents.openings import leaves
from estimator.plan.geometry import rectangle
from estimator.plan.opening import Hinge, Opening, OpeningKind
from estimator.plan.plan import Plan
from estimator.plan.room import Room


@pytest.mark.parametrize(
    ("opens_in", "hinge", "count"),
    [(True, Hinge.START, 1), (False, Hinge.END, 1), (True, Hinge.BOTH, 2), (None, None, 1)],
)
def test_a_door_swings_as_it_is_known_to(opens_in, hinge, count):
    door = Opening(
        id="d",
        kind=OpeningKind.DOOR,
        start=(1.0, 0.0),
        end=(2.0, 0.0),
        opens_in=opens_in,
        hinge=hinge,
    )
    figure = fitted(
        Plan(rooms=(Room(id="a", name="A", outline=rectangle(4, 3), openings=(door,)),)),
        0,
        400,
        300,
    )
    (shape,) = figure.shapes
    (gap,) = shape.gaps
    drawn = leaves(gap, figure)

    tips = [arc[-1] for _, *arc in drawn]
    hinges = [leaf[0] for leaf in drawn]
    assert len(drawn) == count
    assert all(shape.outline.contains(Point(tip)) is (opens_in is not False) for tip in tips)
    if hinge is Hinge.END:
        assert hinges[0][0] == max(gap.start[0], gap.end[0])
    elif hinge is Hinge.START:
        assert hinges[0][0] == min(gap.start[0], gap.end[0])


def test_the_room_a_door_swings_into_draws_it(plan):
    into = {"exam": False, "hall": True}
    rooms = tuple(
        evolve(
            room,
            openings=tuple(
                evolve(one, opens_in=into[room.id], hinge=Hinge.START)
                if one.leads_to in into
                else one
                for one in room.openings
            ),
        )
        for room in plan.rooms
        if room.id in into
    )
    figure = fitted(evolve(plan, rooms=rooms, doubts=()), 0, 400, 300)

    drawn = {
        shape.room.id: sum(len(leaves(gap, figure)) for gap in shape.gaps if gap.hinge)
        for shape in figure.shapes
    }
    assert drawn == {"exam": 0, "hall": 1}
