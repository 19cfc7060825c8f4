import pytest

from estimator.cli.read import summary
from estimator.lettering.consensus import Vote
from estimator.plan.edits import rescaled
from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.plan.storey import Scale
from estimator.workflow.reading import ReadPlan


def vote(says, metres_per_px, *, agrees=True, kind="room sides"):
    return Vote(
        says=says, kind=kind, metres_per_px=metres_per_px, relative_error=0.01, agrees=agrees
    )


@pytest.fixture
def plan():
    room = Room(id="a", name="A", outline_px=rectangle(400, 300))
    return Plan(rooms=(room,))


def test_the_votes_for_the_scale_are_shown_and_who_does_not_agree(plan):
    scale = Scale(metres_per_px=0.01, relative_error=0.005, basis="2 of 3 printed figures")
    votes = (
        vote("A, 4.00 m", 0.0101),
        vote("A, 3.00 m", 0.0099),
        vote("B, 3.20 m", 0.012, agrees=False),
    )

    shown = summary(ReadPlan(plan=rescaled(plan, scale), pixels=None, dpi=None, votes=votes))

    assert shown.splitlines() == [
        "1 rooms, 12.0 m² of floor by 2 of 3 printed figures",
        "  scale: 2 × room sides say 10 mm a pixel",
        "  does not agree: B, 3.20 m says 12 mm a pixel",
    ]


def test_without_a_scale_one_thing_is_asked_for(plan):
    shown = summary(ReadPlan(plan=plan, pixels=None, dpi=None))

    assert "give a length, an area or a drawing scale" in shown
