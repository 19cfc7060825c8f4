"""When people may use a room again: the latest of everything that keeps them out."""

from estimator.measures import Seconds
from estimator.visit.clearing import clearing_time
from estimator.visit.equipment import Pace, SiteTimes
from estimator.visit.timetable import Reentry, Step, Task


def airing(room: str, opened: Seconds, pace: Pace, times: SiteTimes) -> Task:
    """Return the airing of a room from when its windows or ventilation are opened."""
    clearing = clearing_time(times.clearing_removal, pace.air_changes, times.mixing_factor)
    return Task(step=Step.AIR, room=room, person=0, start=opened, end=opened + clearing)


def reentry(
    aired: Task, *, sprayed: Seconds, dry: Seconds, left: Seconds, label: Seconds | None
) -> Reentry:
    """Return when a room may be used again, and what decides it.

    Parameters
    ----------
    sprayed
        When spraying ended.
    dry
        When the contact time is over and every surface is dry.
    left
        When the crew has wiped and unmasked the room.
    label
        Time the label keeps people out after spraying; None when it is not known.
    """
    reasons = {
        "contact time and drying": dry,
        "the crew's work in the room": left,
        "clearing the air (CDC 2003, Appendix B, times the mixing factor)": aired.end,
    }
    if label is not None:
        reasons["the label"] = sprayed + label
    because = max(reasons, key=reasons.__getitem__)
    doubt = "; the label's own time must still be confirmed" if label is None else ""
    return Reentry(room=aired.room or "", at=reasons[because], because=because + doubt)
