import itertools

import pytest

from estimator.intake.resizing import resized
from estimator.plan.doubt import Aspect
from estimator.plan.drawing import drawn
from estimator.workflow.sketching import sketch_plan


def joints(plan):
    return {(room.id, gap.leads_to) for room in plan.rooms for gap in room.openings if gap.leads_to}


def test_rooms_keep_their_joints_when_the_hall_between_them_turns_out_longer():
    plan = sketch_plan("hall, 2 bedrooms 3 x 4 m off the hall, bath 2 x 2 m off the hall, 1 window")
    after = resized(plan, "room-1", 7.0, 1.2)

    hall = after.room("room-1")
    assert hall.outline.area == pytest.approx(7.0 * 1.2)
    assert joints(after) == joints(plan)
    pairs = itertools.combinations([room.outline for room in after.rooms], 2)
    assert all(one.intersection(other).area < 1e-9 for one, other in pairs)
    assert not [one for one in after.doubts if one.aspect is Aspect.OUTLINE]
    (window,) = [gap for gap in after.rooms[3].openings if gap.leads_to is None]
    assert window.width == pytest.approx(1.2)


def test_beside_drawn_rooms_it_keeps_its_corner():
    plan = sketch_plan("office 3 x 4 m")
    plan = drawn(plan, 0, [(10, 0), (14, 0), (14, 2), (12, 2), (12, 4), (10, 4)])
    after = resized(plan, "room-1", 5.0, 4.5)

    assert after.room("room-1").outline.bounds == (0.0, 0.0, 5.0, 4.5)
    assert after.rooms[1].outline.equals(plan.rooms[1].outline)
