"""Read one picture into a plan."""

from attrs import frozen

from estimator.plan.plan import Plan
from estimator.reading.picture import Picture
from estimator.reading.settings import Settings


@frozen(kw_only=True, eq=False)
class Reading:
    """What was seen in a picture, step by step, and the plan that came of it."""

    picture: Picture
    plan: Plan


def read(picture: Picture, settings: Settings = Settings()) -> Reading:  # noqa: B008 (frozen)
    """Read the rooms, doors and windows of a floor plan from its picture.

    Raises
    ------
    ReadingError
        NoWalls or NoClosedRoom when the picture shows no plan.
    """
    raise NotImplementedError
