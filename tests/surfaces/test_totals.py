import pytest

from estimator.plan.geometry import rectangle
from estimator.plan.plan import Plan
from estimator.plan.room import Room
from estimator.surfaces.measure import measure
from estimator.surfaces.schedule import SurfaceKind
from estimator.surfaces.scope import Scope
from estimator.surfaces.totals import by_kind, by_room


@pytest.fixture
def schedule(book):
    return measure(
        Plan(
            rooms=(
                Room(id="k", name="Kitchen", use="kitchen", outline=rectangle(4, 3)),
                Room(id="o", name="Office", use="office", outline=rectangle(5, 3)),
            )
        ),
        book,
        Scope(walls_to=2.0),
    )


def test_every_grouping_adds_up_to_the_whole(schedule):
    for groups in (by_kind(schedule), by_room(schedule)):
        assert sum(total.treated for total in groups.values()) == pytest.approx(schedule.treated)


def test_groups_hold_what_they_say(schedule):
    assert by_kind(schedule)[SurfaceKind.FLOOR].gross == pytest.approx(27.0)
    assert by_room(schedule)["k"].treated == pytest.approx(schedule.rooms[0].treated)
