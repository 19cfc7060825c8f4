"""The outcome: what a visit really took, as the crew wrote it down."""

from attrs import frozen

from estimator.errors import QuantityError
from estimator.measures import CubicMetres, Seconds, checked


@frozen(kw_only=True, field_transformer=checked)
class RoomOutcome:
    """What one room really took; None for what nobody wrote down.

    Parameters
    ----------
    use
        Slug of the room use.
    volume
        Liquid sprayed.
    passes
        How often it was gone over.
    time, preparing, wiping
        Working time of all who sprayed it, who prepared it and cleared it again, and who wiped it.
    """

    room: str
    use: str
    volume: CubicMetres | None = None
    passes: int | None = None
    time: Seconds | None = None
    preparing: Seconds | None = None
    wiping: Seconds | None = None
    note: str = ""

    def __attrs_post_init__(self) -> None:
        if self.passes is not None and self.passes < 0:
            raise QuantityError("passes", f"there are {self.passes}", "give at least 0")


@frozen(kw_only=True, field_transformer=checked)
class Outcome:
    """A visit as it was.

    Parameters
    ----------
    visited
        Day of the visit, ISO 8601.
    crew
        How many people came.
    on_site
        From arrival to leaving; None when nobody wrote it down.
    rows
        The rooms that something was written down about.
    """

    visited: str
    crew: int
    on_site: Seconds | None = None
    rows: tuple[RoomOutcome, ...] = ()
    note: str = ""

    def __attrs_post_init__(self) -> None:
        if self.crew < 1:
            raise QuantityError("crew", f"there are {self.crew} people", "give at least 1")

    @property
    def volume(self) -> CubicMetres | None:
        """Liquid sprayed in all rooms; None unless some was written down."""
        sprayed = [row.volume for row in self.rows if row.volume is not None]
        return sum(sprayed) if sprayed else None
