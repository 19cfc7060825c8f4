"""From the work in every room to a timetable for the crew."""

from collections.abc import Sequence

from estimator.measures import Seconds
from estimator.visit.equipment import Pace, SiteTimes, Sprayer
from estimator.visit.timetable import Timetable
from estimator.visit.work import RoomWork


def plan_visit(
    work: Sequence[RoomWork],
    sprayer: Sprayer,
    paces: Sequence[Pace],
    times: SiteTimes,
    *,
    crew: int,
    label_reentry: Seconds | None,
) -> Timetable:
    """Return who does what where and when, and when each room may be used again."""
    raise NotImplementedError
