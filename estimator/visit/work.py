"""What a crew needs to know about a room before a timetable can be made."""

from attrs import frozen

from estimator.measures import CubicMetres, KilogramsPerCubicMetre, Seconds, SquareMetres, checked


@frozen(kw_only=True, field_transformer=checked)
class RoomWork:
    """The work in one room at one strength; a room may have several.

    Parameters
    ----------
    use
        Slug of the room use, which decides the pace.
    air
        Air in the room.
    sprayed
        Surface sprayed, every pass counted.
    passes
        How often the room is gone over so that it stays wet for the contact time.
    volume
        Liquid sprayed in all passes.
    strength
        Strength of the solution; weaker work is done first, and a change means a change of tank.
    dries_after
        When its slowest surface is dry, counted from the end of spraying.
    wiped
        Area wiped and rinsed after the contact time.
    holds
        Slugs of the furniture in it, which calls for precautions.
    leads_to
        Ids of the rooms its doors lead to, the stairs of the next storey among them.
    leads_out
        Whether one of its doors leads out of the building.
    leads_on
        Whether one of its doors leads where the plan does not show.
    """

    room: str
    name: str
    use: str
    storey: int
    floor_area: SquareMetres
    air: CubicMetres
    sprayed: SquareMetres
    passes: int
    volume: CubicMetres
    strength: KilogramsPerCubicMetre
    contact_time: Seconds
    dries_after: Seconds
    wiped: SquareMetres
    holds: tuple[str, ...] = ()
    leads_to: tuple[str, ...] = ()
    leads_out: bool = False
    leads_on: bool = False

    @property
    def hold(self) -> Seconds:
        """How long one pass keeps wet: the next begins then, or the contact time is over."""
        return self.contact_time / max(1, self.passes)
