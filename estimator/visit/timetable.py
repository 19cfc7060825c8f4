"""The timetable: tasks by person and room, and when each room may be used again."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import Seconds, checked


class Step(StrEnum):
    """What is done."""

    ARRIVE = "set up"
    MIX = "mix"
    PREPARE = "prepare and mask"
    SPRAY = "spray"
    REFILL = "refill"
    BATTERY = "change battery"
    CONTACT = "keep wet"
    WIPE = "wipe and rinse"
    AIR = "air"
    UNMASK = "unmask"
    LEAVE = "clean down"


@frozen(kw_only=True, field_transformer=checked)
class Task:
    """One step in one room; times count from arrival.

    Parameters
    ----------
    room
        Id of the room; None for work that belongs to the site.
    person
        Number of the crew member from 1; 0 when the room works alone (contact, airing).
    """

    step: Step
    room: str | None
    person: int
    start: Seconds
    end: Seconds


@frozen(kw_only=True, field_transformer=checked)
class Reentry:
    """When a room may be used again, counted from arrival, and what decides it."""

    room: str
    at: Seconds
    because: str


@frozen(kw_only=True, field_transformer=checked)
class Timetable:
    """A visit.

    Parameters
    ----------
    order
        Ids of the rooms in the order they are sprayed.
    on_site
        From arrival to the crew's leaving.
    person_time
        Paid time on site of all the crew.
    lower_bound
        No timetable of this work with one sprayer can be shorter: the longest chain of steps, or
        all work shared evenly by the crew, whichever is longer.
    """

    crew: int
    order: tuple[str, ...]
    tasks: tuple[Task, ...]
    on_site: Seconds
    person_time: Seconds
    lower_bound: Seconds
    reentry: tuple[Reentry, ...]
