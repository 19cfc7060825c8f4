"""All that is to be done on a visit, before anyone says who does it when."""

from collections.abc import Mapping, Sequence

from attrs import frozen

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds
from estimator.visit.spraying import Bout
from estimator.visit.work import RoomWork


@frozen(kw_only=True)
class Chores:
    """What the crew does in a room besides spraying, and the rooms between it and the way out."""

    prepare: Seconds
    wipe: Seconds
    unmask: Seconds
    path: tuple[str, ...]

    @property
    def finish(self) -> Seconds:
        """What is left to do once the contact time is over."""
        return self.wipe + self.unmask


@frozen(kw_only=True)
class Job:
    """All that is to be done, whoever does it.

    Parameters
    ----------
    work
        In the order it is sprayed; the sprayers share it.
    bouts
        Each sprayer's own work.
    chores
        What else is done in each room, in the order they are prepared.
    fills
        Liquid of every mix to be made up, by strength.
    begin
        When everybody is ready to work.
    mix
        Time to make up one mix.
    break_after, break_length
        How long a person works before a break, and how long that is.
    """

    work: Sequence[RoomWork]
    bouts: Sequence[Sequence[Bout]]
    chores: Mapping[str, Chores]
    fills: Mapping[KilogramsPerCubicMetre, Sequence[CubicMetres]]
    begin: Seconds
    mix: Seconds
    break_after: Seconds
    break_length: Seconds
