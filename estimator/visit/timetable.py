"""The timetable: tasks by person and room, and when each room may be used again."""

from enum import StrEnum

from attrs import frozen

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Ratio, Seconds, checked
from estimator.visit.precautions import Precaution


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
    BREAK = "break"
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
    volume
        Liquid mixed, filled in or sprayed.
    strength
        Strength of that liquid.
    """

    step: Step
    room: str | None
    person: int
    start: Seconds
    end: Seconds
    volume: CubicMetres = 0.0
    strength: KilogramsPerCubicMetre = 0.0


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
    sprayers
        How many of the crew spray, each with a sprayer: persons 1 and on; the others assist.
    order
        Ids of the rooms in the order they are sprayed.
    path
        Each room's way out: the rooms it leads through, the nearest first.
    on_site
        From arrival to the crew's leaving.
    person_time
        Paid time on site of all the crew.
    lower_bound
        No timetable of this work by this crew can be shorter: the longest chain of steps, or all
        work shared evenly, whichever is longer.
    findings
        What the crew lead must know about the visit as a whole, one sentence each.
    precautions
        What to mask, remove or switch off before spraying, each with the rooms to look for it in.
    """

    crew: int
    sprayers: int = 1
    order: tuple[str, ...]
    path: tuple[tuple[str, tuple[str, ...]], ...] = ()
    tasks: tuple[Task, ...]
    on_site: Seconds
    person_time: Seconds
    lower_bound: Seconds
    reentry: tuple[Reentry, ...]
    findings: tuple[str, ...] = ()
    precautions: tuple[tuple[Precaution, tuple[str, ...]], ...] = ()

    @property
    def over_bound(self) -> Ratio:
        """The time on site as a multiple of the lower bound; 1 is as short as can be."""
        return self.on_site / self.lower_bound if self.lower_bound else 1.0
